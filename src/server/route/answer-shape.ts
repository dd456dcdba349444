import * as z from "zod";
import { ACCOUNT_ROLES, ROLES, RIGHTS, SERVICE_ROLE, type Action } from "../../register/index.ts";

import { accountName, mixesScripts } from "../people/account-name.ts";

/** The shapes that more than one route answers with or reads; the document of the server is made from them. */
export const role = z.enum(ACCOUNT_ROLES);
const action = z.enum(Object.keys(RIGHTS) as [Action, ...Action[]]);
const author = z.strictObject({ initials: z.string(), role: z.enum([...ROLES, SERVICE_ROLE]), account: z.string() });

export const storedEvent = z.strictObject({
  id: z.string(),
  subject: z.string(),
  type: z.string(),
  shape: z.int(),
  happenedAt: z.string(),
  writtenAt: z.string(),
  author,
  device: z.string(),
  policyVersion: z.string(),
  seen: z.int(),
  data: z.record(z.string(), z.unknown()),
  contentHash: z.string(),
  position: z.int(),
  version: z.int(),
  chainHash: z.string(),
});

export const accountText = z
  .string()
  .regex(/^[\p{Letter}\p{Number}][\p{Letter}\p{Number}._@-]{1,59}$/u)
  .transform(accountName)
  .refine((name) => !mixesScripts(name), "letters of one alphabet");
export const secretText = z.string().min(1).max(1000);
export const reasonText = z.string().trim().min(5).max(500);
export const identifier = z.string().regex(/^[0-9a-zA-Z-]{1,64}$/);
export const outsideIdentity = z.strictObject({ issuer: z.url().max(300), subject: z.string().min(1).max(255) });

export const me = z.strictObject({
  account: z.string(),
  roles: z.array(role),
  units: z.array(z.string()),
  actions: z.array(action),
  mayWrite: z.array(z.string()),
  changeWanted: z.boolean(),
  secondFactor: z.boolean(),
  endsAt: z.string(),
  idleMinutes: z.number(),
});

export const person = z.strictObject({
  account: z.string(),
  roles: z.array(role),
  units: z.array(z.string()),
  disabled: z.boolean(),
  secondFactor: z.boolean(),
  changeWanted: z.boolean(),
  outside: z.boolean(),
  madeAt: z.string(),
});

export const oneTime = z.strictObject({ account: z.string(), oneTimePassword: z.string(), until: z.string() });

export const machine = z.strictObject({ good: z.boolean(), lines: z.array(z.string()) });
