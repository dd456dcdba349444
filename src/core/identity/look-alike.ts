import { slips } from "./slips.ts";

export interface Identified {
  readonly name: string;
  readonly identifier: string;
  /** YYYY-MM-DD, "" while it is not known. */
  readonly bornOn: string;
}

export type LookAlikeReason = "same surname" | "similar name" | "similar date of birth" | "similar number";

/**
 * Why two people could be taken for each other: the same surname, a name one letter apart, dates of birth that differ in
 * at most one digit or by two neighbours swapped, or numbers that do. The same number is the same person.
 * Example: "ROWAN, Edda" 20418 and "ROWAN, Enna" 31999 share a surname.
 */
export function lookAlikeReasons(a: Identified, b: Identified): readonly LookAlikeReason[] {
  const [nameA, nameB] = [plain(a.name), plain(b.name)];
  const [numberA, numberB] = [plain(a.identifier), plain(b.identifier)];
  const [bornA, bornB] = [digits(a.bornOn), digits(b.bornOn)];
  if (nameA === "" || nameB === "" || (numberA === numberB && numberA !== "")) return [];
  const reasons: LookAlikeReason[] = [];
  if (surname(nameA) === surname(nameB)) reasons.push("same surname");
  else if (slips(nameA, nameB) <= 1) reasons.push("similar name");
  if (bornA !== "" && bornB !== "" && slips(bornA, bornB) <= 1) reasons.push("similar date of birth");
  if (numberA !== "" && numberB !== "" && slips(numberA, numberB) <= 1) reasons.push("similar number");
  return reasons;
}

const plain = (text: string): string =>
  text
    .trim()
    .toLowerCase()
    .normalize("NFD")
    .replaceAll(/\p{Mark}/gu, "");
const digits = (text: string): string => text.replaceAll(/\D/g, "");
const surname = (name: string): string => name.split(/[\s,]+/)[0] as string;
