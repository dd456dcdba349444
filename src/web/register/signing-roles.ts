import { ROLES, type AccountRole, type Role } from "../../register/index.ts";

const SIGNING_ROLES = ROLES.filter((role) => role !== "auditor" && role !== "administrator");

/** The roles an entry may be signed with: what the account holds, or every one where nobody is signed in. */
export const signingRoles = (held: readonly AccountRole[] | undefined): readonly Role[] =>
  held === undefined ? SIGNING_ROLES : SIGNING_ROLES.filter((role) => held.includes(role));
