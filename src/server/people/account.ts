import { rolesFit, type AccountRole } from "../../register/index.ts";
import type { Person, PersonChange } from "../../store/index.ts";
import { Refusal } from "../http/refusal.ts";
import { passwordFault, signsOf } from "./password-fault.ts";
import { passwordHash } from "./password-hash.ts";
import { trace, type From, type PeopleParts } from "./people-parts.ts";
import { oneTimePassword } from "./random-secret.ts";
import { confirm, type Signed } from "./sign-in.ts";

/** A password to be said once to the person it is for. */
export interface OneTime {
  readonly account: string;
  readonly oneTimePassword: string;
  readonly until: string;
}

export interface OutsideIdentity {
  readonly issuer: string;
  readonly subject: string;
}

/** No password here: the house vouches for the person. */
const NO_PASSWORD = { passwordHash: "", passwordSigns: 0, changeWanted: false, passwordUntil: "" } as const;

/** Makes an account with a one-time password, or with none where the sign-in of the house vouches for it. */
export async function makeAccount(
  parts: PeopleParts,
  from: From,
  by: string,
  wanted: {
    readonly account: string;
    readonly roles: readonly AccountRole[];
    readonly units: readonly string[];
    readonly outside?: OutsideIdentity | undefined;
  },
): Promise<OneTime> {
  const { people, now } = parts;
  if (!rolesFit(wanted.roles)) throw new Refusal("roles-do-not-fit");
  await mustBeFree(parts, wanted.account, wanted.outside);
  const fresh = wanted.outside ? { password: "", change: NO_PASSWORD } : await freshPassword(parts);
  const adding = people.persons.add({
    account: wanted.account,
    roles: wanted.roles,
    units: wanted.units,
    codeSecret: "",
    codeOn: false,
    recoveryHashes: [],
    disabled: false,
    openIdIssuer: wanted.outside?.issuer ?? "",
    openIdSubject: wanted.outside?.subject ?? "",
    madeAt: now().toISOString(),
    ...fresh.change,
  });
  const added = await unlessTaken(parts, wanted.account, wanted.outside, adding);
  if (!added) throw new Refusal("account-taken");
  await trace(parts, from, by, "account made", wanted.account, wanted.roles.join(", "));
  return { account: wanted.account, oneTimePassword: fresh.password, until: fresh.change.passwordUntil };
}

/** Changes roles, wards, the outside identity or whether the account is disabled; acts at the next request. */
export async function changeAccount(
  parts: PeopleParts,
  from: From,
  by: string,
  account: string,
  change: Pick<PersonChange, "roles" | "units" | "disabled"> & { readonly outside?: OutsideIdentity | undefined },
): Promise<Person> {
  const { people } = parts;
  const person = await found(parts, account);
  if (account === by && (change.roles || change.disabled)) throw new Refusal("own-account");
  if (change.roles && !rolesFit(change.roles)) throw new Refusal("roles-do-not-fit");
  const { outside, ...rest } = change;
  await mustBeFree(parts, account, outside);
  const changing = people.persons.change(account, {
    ...rest,
    ...(outside ? { openIdIssuer: outside.issuer, openIdSubject: outside.subject } : {}),
    // a one-time password nobody used yet would stand in the way of the house's sign-in
    ...(outside && person.changeWanted ? NO_PASSWORD : {}),
  });
  await unlessTaken(parts, account, outside, changing);
  const administrators = (await people.persons.list()).filter(
    ({ roles, disabled }) => roles.includes("administrator") && !disabled,
  );
  if (administrators.length === 0) {
    await people.persons.change(account, { roles: person.roles, disabled: person.disabled });
    throw new Refusal("last-administrator");
  }
  if (change.disabled) await people.sessions.endAll(account);
  const what = Object.keys(change).join(", ");
  await trace(parts, from, by, "account changed", account, change.roles ? `roles: ${change.roles.join(", ")}` : what);
  return found(parts, account);
}

/** Gives a one-time password; the second factor stays unless it was lost and is taken off as well. */
export async function resetPassword(
  parts: PeopleParts,
  from: From,
  by: string,
  account: string,
  alsoSecondFactor: boolean,
): Promise<OneTime> {
  await found(parts, account);
  const { password, change } = await freshPassword(parts);
  const off = alsoSecondFactor ? { codeOn: false, codeSecret: "", recoveryHashes: [] } : {};
  await parts.people.persons.change(account, { ...change, ...off });
  await parts.people.sessions.endAll(account);
  await trace(parts, from, by, "password reset", account, alsoSecondFactor ? "with second factor" : "");
  return { account, oneTimePassword: password, until: change.passwordUntil };
}

/** The person's own password, chosen by them; every other session of theirs ends. */
export async function choosePassword(
  parts: PeopleParts,
  from: From,
  signed: Signed,
  typed: { readonly password: string; readonly next: string },
): Promise<void> {
  const { people, limits } = parts;
  const { person, session } = signed;
  await confirm(parts, signed, typed.password);
  const same = typed.password.normalize("NFC") === typed.next.normalize("NFC") ? "the-same" : undefined;
  const code = same ?? passwordFault(typed.next, person.account, person.codeOn, limits);
  if (code) throw new Refusal("faults", { faults: [{ path: "next", code }] });
  await people.persons.change(person.account, {
    passwordHash: await passwordHash(typed.next),
    passwordSigns: signsOf(typed.next),
    changeWanted: false,
    passwordUntil: "",
  });
  await people.sessions.endAll(person.account, session.tokenHash);
  await trace(parts, from, person.account, "password chosen");
}

/** An identity of the house stands for one account: two would make it chance whose name is signed. */
async function mustBeFree({ people }: PeopleParts, account: string, outside: OutsideIdentity | undefined) {
  const holder = outside && (await people.persons.findByOpenId(outside.issuer, outside.subject));
  if (holder && holder.account !== account) throw new Refusal("identity-taken");
}

/** Two that come at once: the database takes one, and the other is told why. */
async function unlessTaken<Result>(
  parts: PeopleParts,
  account: string,
  outside: OutsideIdentity | undefined,
  writing: Promise<Result>,
): Promise<Result> {
  try {
    return await writing;
  } catch (error) {
    await mustBeFree(parts, account, outside);
    throw error;
  }
}

async function freshPassword({ limits, now }: PeopleParts) {
  const password = oneTimePassword();
  const change = {
    passwordHash: await passwordHash(password),
    passwordSigns: signsOf(password),
    changeWanted: true,
    passwordUntil: new Date(now().getTime() + limits.oneTimePasswordHours * 3_600_000).toISOString(),
  };
  return { password, change };
}

async function found({ people }: PeopleParts, account: string): Promise<Person> {
  const person = await people.persons.find(account);
  if (!person) throw new Refusal("not-found");
  return person;
}
