import { randomBytes } from "node:crypto";
import { Refusal } from "../http/refusal.ts";
import { trace, type From, type PeopleParts } from "./people-parts.ts";
import { recoveryCode, recoveryHash } from "./random-secret.ts";
import { confirm, confirmCode, type Signed } from "./sign-in.ts";
import { base32 } from "./time-code.ts";

/** A secret for the person's authenticator; it counts only after a code of it has been typed. */
export async function beginSecondFactor(
  parts: PeopleParts,
  signed: Signed,
  password: string,
): Promise<{ readonly secret: string; readonly uri: string }> {
  const { person } = signed;
  if (person.codeOn) throw new Refusal("second-factor-on");
  await confirm(parts, signed, password);
  const secret = base32(randomBytes(20)); // 160 bits, the length RFC 4226 section 4 recommends
  await parts.people.persons.change(person.account, { codeSecret: secret });
  const label = encodeURIComponent(`Veinwright:${person.account}`);
  return { secret, uri: `otpauth://totp/${label}?secret=${secret}&issuer=Veinwright` };
}

/** Turns the second factor on and gives the recovery codes, which are shown this once. */
export async function turnOnSecondFactor(
  parts: PeopleParts,
  from: From,
  { person }: Signed,
  code: string,
): Promise<readonly string[]> {
  if (person.codeOn) throw new Refusal("second-factor-on");
  if (person.codeSecret === "" || !/^\d{6}$/.test(code)) {
    throw new Refusal("faults", { faults: [{ path: "code", code: "contradicts" }] });
  }
  await confirmCode(parts, person, code);
  const codes = Array.from({ length: parts.limits.recoveryCodes }, recoveryCode);
  await parts.people.persons.change(person.account, { codeOn: true, recoveryHashes: codes.map(recoveryHash) });
  await trace(parts, from, person.account, "second factor on");
  return codes;
}

/** Turns it off, if the password is long enough to stand alone. */
export async function turnOffSecondFactor(
  parts: PeopleParts,
  from: From,
  signed: Signed,
  typed: { readonly password: string; readonly code: string },
): Promise<void> {
  const { person } = signed;
  await confirm(parts, signed, typed.password);
  if (person.codeOn) await confirmCode(parts, person, typed.code);
  if (person.passwordSigns < parts.limits.passwordAloneSigns) throw new Refusal("password-too-short");
  await parts.people.persons.change(person.account, { codeOn: false, codeSecret: "", recoveryHashes: [] });
  await trace(parts, from, person.account, "second factor off");
}
