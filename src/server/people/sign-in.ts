import type { Attempt, Person, Session } from "../../store/index.ts";
import { Refusal } from "../http/refusal.ts";
import { accountName } from "./account-name.ts";
import type { PeopleLimits } from "./people-limits.ts";
import { trace, type From, type PeopleParts } from "./people-parts.ts";
import { passwordIs } from "./password-hash.ts";
import { recoveryHash, sessionToken, sha256Hex } from "./random-secret.ts";
import { fromBase32, stepOfCode } from "./time-code.ts";
import { secondsToWait } from "./wait-after-wrong.ts";

/** Who is signed in. */
export interface Signed {
  readonly person: Person;
  readonly session: Session;
}

/**
 * Signs in, or refuses with the same answer and the same time whether the account, the password or both are wrong.
 * The second factor is asked for only once the password is right.
 */
export async function signIn(
  parts: PeopleParts,
  from: From,
  typed: { readonly account: string; readonly password: string; readonly code: string },
): Promise<{ readonly token: string; readonly signed: Signed }> {
  const { people, now } = parts;
  const account = accountName(typed.account);
  const name = sha256Hex(account);
  const attempt = await countTry(parts, name);
  const person = await people.persons.find(account);
  const passwordRight = await passwordIs(typed.password, person?.passwordHash ?? "");
  if (!person || !passwordRight || person.disabled || hasEnded(person, now())) {
    return refuse(parts, from, person);
  }
  if (person.codeOn && typed.code === "") {
    await people.attempts.giveBack(name, attempt);
    throw new Refusal("second-factor-wanted");
  }
  if (person.codeOn && !(await codeIs(parts, person, typed.code))) return refuse(parts, from, person);
  await people.attempts.right(name);
  return begin(parts, from, person);
}

/**
 * Counts a try as wrong before it is tried, so that guesses sent together wait as those sent one after the other do; a
 * right one is taken off again. Refuses while a wait runs.
 */
async function countTry({ people, limits, now }: PeopleParts, name: string): Promise<Attempt> {
  for (;;) {
    const before = await people.attempts.find(name);
    const wait = secondsToWait(before.wrong, before.lastAt, now(), limits);
    if (wait > 0) throw new Refusal("too-many", { retryAfterSeconds: wait });
    // another try came between the reading and the counting: it is read again, and may have to wait now
    const counted = await people.attempts.count(name, before, now().toISOString());
    if (counted) return counted;
  }
}

async function refuse(parts: PeopleParts, from: From, person: Person | undefined): Promise<never> {
  const { people, limits, now } = parts;
  await people.attempts.sweep(hoursBefore(now(), limits.triesForgottenHours));
  // a name nobody has may be a password typed into the wrong field: it is not kept
  await trace(parts, from, person?.account ?? "", "sign-in refused");
  throw new Refusal("wrong-sign-in");
}

/** Begins a session for a person who has shown who they are. */
export async function begin(
  parts: PeopleParts,
  from: From,
  person: Person,
): Promise<{ readonly token: string; readonly signed: Signed }> {
  const { people, limits, now } = parts;
  const token = sessionToken();
  const at = now().toISOString();
  const session: Session = {
    tokenHash: sha256Hex(token),
    account: person.account,
    madeAt: at,
    seenAt: at,
    address: from.address,
  };
  await people.sessions.sweep(hoursBefore(now(), limits.sessionHours));
  await people.sessions.add(session);
  await trace(parts, from, person.account, "signed in");
  return { token, signed: { person, session } };
}

/** Who a token belongs to now: roles and disabling act at once, because they are read at every request. */
export async function signedBy({ people, limits, now }: PeopleParts, token: string): Promise<Signed | undefined> {
  const session = await people.sessions.find(sha256Hex(token));
  if (!session) return undefined;
  const person = await people.persons.find(session.account);
  const idleMs = now().getTime() - Date.parse(session.seenAt);
  const ended =
    now().getTime() >= Date.parse(endOf(session, limits)) ||
    idleMs >= idleMinutes(person, limits) * 60_000 ||
    !person ||
    person.disabled;
  if (ended) {
    await people.sessions.end(session.tokenHash);
    return undefined;
  }
  // kept to the minute: a write for every request would cost more than it tells
  if (idleMs >= 60_000) await people.sessions.seen(session.tokenHash, now().toISOString());
  return { person, session };
}

export const idleMinutes = (person: Person | undefined, limits: PeopleLimits): number =>
  person?.roles.includes("administrator") ? limits.administratorIdleMinutes : limits.idleMinutes;

export const endOf = (session: Session, limits: PeopleLimits): string =>
  new Date(Date.parse(session.madeAt) + limits.sessionHours * 3_600_000).toISOString();

/** Uses up a code of the second factor or a recovery code. */
export async function codeIs({ people, now }: PeopleParts, person: Person, typed: string): Promise<boolean> {
  const code = typed.replaceAll(/\s/g, "");
  if (/^\d{6}$/.test(code)) {
    const step = stepOfCode(fromBase32(person.codeSecret), code, now().getTime() / 1000);
    return step !== undefined && (await people.persons.useStep(person.account, step));
  }
  return people.persons.useRecovery(person.account, recoveryHash(code));
}

/** A code typed to change the second factor itself: a wrong one counts as a wrong sign-in does. */
export async function confirmCode(parts: PeopleParts, person: Person, typed: string): Promise<void> {
  const name = sha256Hex(person.account);
  const attempt = await countTry(parts, name);
  if (!(await codeIs(parts, person, typed))) {
    throw new Refusal("faults", { faults: [{ path: "code", code: "contradicts" }] });
  }
  await parts.people.attempts.giveBack(name, attempt);
}

/** Confirms a heavy step: the password once more, or for who has none here, a sign-in of a few minutes ago. */
export async function confirm(parts: PeopleParts, { person, session }: Signed, password: string): Promise<void> {
  const { limits, now, people } = parts;
  if (person.passwordHash === "") {
    const fresh = now().getTime() - Date.parse(session.madeAt) < limits.freshMinutes * 60_000;
    if (!fresh) throw new Refusal("sign-in-wanted");
    return;
  }
  const name = sha256Hex(person.account);
  const attempt = await countTry(parts, name);
  if (await passwordIs(password, person.passwordHash)) return people.attempts.giveBack(name, attempt);
  throw new Refusal("faults", { faults: [{ path: "password", code: "contradicts" }] });
}

const hasEnded = (person: Person, now: Date): boolean =>
  person.passwordUntil !== "" && Date.parse(person.passwordUntil) < now.getTime();

const hoursBefore = (now: Date, hours: number): string => new Date(now.getTime() - hours * 3_600_000).toISOString();
