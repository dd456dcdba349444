import { ROLES, type Role } from "../event/index.ts";

/** What an account may hold: every role that signs entries, and two that only look. */
export const ACCOUNT_ROLES = [...ROLES, "viewer", "data exporter"] as const;
export type AccountRole = (typeof ACCOUNT_ROLES)[number];

/** Nobody keeps the accounts or judges the record and also writes in it. */
const ALONE: ReadonlySet<AccountRole> = new Set(["administrator", "auditor"]);

/** Whether these roles may stand on one account: at least one, each once, and the two that stand alone alone. */
export const rolesFit = (roles: readonly AccountRole[]): boolean =>
  roles.length > 0 &&
  new Set(roles).size === roles.length &&
  (roles.length === 1 || !roles.some((role) => ALONE.has(role)));

/** Those who look after people: they may open any one record in need, with a reason. */
const CLINICAL: readonly AccountRole[] = [
  "viewer",
  "scribe",
  "ward nurse",
  "home nurse",
  "inserter",
  "infection control",
  "lead",
];
const CARING: readonly AccountRole[] = ["scribe", "ward nurse", "home nurse", "inserter", "lead"];
const PLACING: readonly AccountRole[] = ["scribe", "inserter", "lead"];

/**
 * Who may do what: a row is an action, its list the roles that hold it. What is not listed is refused.
 * Least privilege: an administrator reads no record, an auditor writes none, nobody approves an own export.
 */
export const RIGHTS = {
  "copy the record": CLINICAL,
  "open one record": CLINICAL,
  "open a record in need": CLINICAL,
  "see stock": ["stores", "inserter", "scribe", "infection control", "lead"],
  "offer entries": [...CARING, "infection control", "stores"],
  refer: CARING,
  care: CARING,
  place: PLACING,
  remove: CARING,
  "judge an infection": ["infection control", "inserter", "lead"],
  "keep stock": ["stores", "lead"],
  "correct another's entry": ["lead"],
  "merge patients": ["lead"],
  "set policy": ["lead"],
  "count without names": [...CLINICAL, "auditor", "data exporter"],
  "read the trail": ["lead", "auditor"],
  "read the technical trail": ["lead", "auditor", "administrator"],
  "review opened records": ["lead"],
  "make an export": ["data exporter"],
  "approve an export": ["lead"],
  "keep people": ["administrator"],
  "keep the machine": ["administrator"],
  // the base and the actions are the service's own word; who looks after infection may look at a signal too
  "keep the count": ["lead"],
  "look at signals": ["infection control", "lead"],
  // whoever stands on the ward at noon counts it
  "count a ward": [...CARING, "infection control"],
} as const satisfies Readonly<Record<string, readonly AccountRole[]>>;

export type Action = keyof typeof RIGHTS;

/**
 * Whether any of the roles holds the action.
 * Example: mayDo(["administrator"], "copy the record") is false.
 */
export const mayDo = (roles: readonly (AccountRole | Role)[], action: Action): boolean =>
  (RIGHTS[action] as readonly AccountRole[]).some((role) => roles.includes(role));
