import * as z from "zod";
import type { Person } from "../../store/index.ts";
import { changeAccount, makeAccount, resetPassword } from "../people/account.ts";
import { accountText, oneTime, outsideIdentity, person, role } from "./answer-shape.ts";
import { route, type Route } from "./route.ts";

const roles = z.array(role).min(1).max(12);
const units = z.array(z.string().trim().min(1).max(80)).max(50);

/** The accounts, kept by an administrator; every change acts at the next request. */
export const peopleRoutes: readonly Route[] = [
  route({
    method: "GET",
    path: "/api/people",
    asker: "keep people",
    summary: "Every account",
    writes: false,
    status: 200,
    answer: z.strictObject({ people: z.array(person) }),
    refuses: [],
    run: async ({ parts }) => ({ body: { people: (await parts.people.persons.list()).map(shown) } }),
  }),
  route({
    method: "POST",
    path: "/api/people",
    asker: "keep people",
    summary: "Makes an account with a one-time password",
    writes: true,
    body: z.strictObject({
      account: accountText,
      roles,
      units: units.default([]),
      outside: outsideIdentity.optional(),
    }),
    status: 201,
    answer: oneTime,
    refuses: ["account-taken", "identity-taken", "roles-do-not-fit"],
    run: async ({ parts, from, signed, body }) => ({
      body: await makeAccount(parts, from, signed.person.account, body),
    }),
  }),
  route({
    method: "POST",
    path: "/api/people/{account}",
    asker: "keep people",
    summary: "Changes roles, wards, the outside identity, or disables an account",
    writes: true,
    body: z.strictObject({
      roles: roles.optional(),
      units: units.optional(),
      disabled: z.boolean().optional(),
      outside: outsideIdentity.optional(),
    }),
    status: 200,
    answer: person,
    refuses: ["not-found", "identity-taken", "roles-do-not-fit", "last-administrator", "own-account"],
    run: async ({ parts, from, signed, params, body }) => {
      const given = Object.fromEntries(Object.entries(body).filter(([, value]) => value !== undefined));
      return { body: shown(await changeAccount(parts, from, signed.person.account, params["account"] ?? "", given)) };
    },
  }),
  route({
    method: "POST",
    path: "/api/people/{account}/reset",
    asker: "keep people",
    summary: "Gives a one-time password; takes the second factor off only when asked to",
    writes: true,
    body: z.strictObject({ alsoSecondFactor: z.boolean().default(false) }),
    status: 200,
    answer: oneTime,
    refuses: ["not-found"],
    run: async ({ parts, from, signed, params, body }) => ({
      body: await resetPassword(parts, from, signed.person.account, params["account"] ?? "", body.alsoSecondFactor),
    }),
  }),
];

const shown = (one: Person): z.infer<typeof person> => ({
  account: one.account,
  roles: [...one.roles],
  units: [...one.units],
  disabled: one.disabled,
  secondFactor: one.codeOn,
  changeWanted: one.changeWanted,
  outside: one.openIdSubject !== "",
  madeAt: one.madeAt,
});
