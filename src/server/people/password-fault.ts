import { COMMON_WORDS } from "./common-words.ts";
import type { PeopleLimits } from "./people-limits.ts";

export type PasswordFault = "too-short" | "too-long" | "too-common" | "holds-the-account";

/**
 * Why a password is not taken; undefined when it is. Length and not being a common one are the whole rule: no kinds of
 * sign are asked for. Source: NIST SP 800-63B-4 (2025), section on passwords.
 */
export function passwordFault(
  password: string,
  account: string,
  besideCode: boolean,
  limits: PeopleLimits,
): PasswordFault | undefined {
  const signs = signsOf(password);
  if (signs < (besideCode ? limits.passwordBesideCodeSigns : limits.passwordAloneSigns)) return "too-short";
  if (signs > limits.passwordMostSigns) return "too-long";
  const plain = password.normalize("NFKC").toLowerCase();
  const name = account.normalize("NFKC").toLowerCase();
  if (name.length > 2 && plain.includes(name)) return "holds-the-account";
  return isCommon(plain) ? "too-common" : undefined;
}

/** Length as a person counts it: a letter with its accent is one sign. */
export const signsOf = (password: string): number => Array.from(password.normalize("NFC")).length;

function isCommon(plain: string): boolean {
  if (new Set(plain).size < 5 || isRun(plain) || isRepeated(plain)) return true;
  const bare = withoutEnds(plain);
  const letters = withoutEnds(bare.replaceAll(/[0134578@$!]/g, (sign) => LOOKS_LIKE[sign] ?? sign));
  return [bare, letters].some((word) => word.length < 5 || isWords(word.replaceAll(/[^\p{Letter}]/gu, "")));
}

/** Common words and nothing else, however many. */
function isWords(text: string): boolean {
  const upTo = [true];
  for (let end = 1; end <= text.length; end += 1) {
    upTo[end] = [...COMMON_WORDS].some(
      (word) => word.length <= end && upTo[end - word.length] === true && text.endsWith(word, end),
    );
  }
  return text === "" || upTo[text.length] === true;
}

const LOOKS_LIKE: Readonly<Record<string, string>> = {
  "0": "o",
  "1": "l",
  "3": "e",
  "4": "a",
  "5": "s",
  "7": "t",
  "8": "b",
  "@": "a",
  $: "s",
  "!": "i",
};

const withoutEnds = (text: string): string => text.replaceAll(/^[^\p{Letter}]+|[^\p{Letter}]+$/gu, "");

/** Every sign next to the one before it: 123456789, abcdefgh, 987654321. */
function isRun(text: string): boolean {
  const steps = Array.from(text)
    .slice(1)
    .map((sign, index) => (sign.codePointAt(0) ?? 0) - (text.codePointAt(index) ?? 0));
  return new Set(steps).size === 1 && Math.abs(steps[0] ?? 9) <= 1;
}

/** A shorter piece again and again. */
const isRepeated = (text: string): boolean => (text + text).indexOf(text, 1) < text.length && text.length > 1;
