import { civilDateFromDayNumber } from "../../core/calendar/index.ts";
import type { Doubt } from "./doubt-ledger.ts";
import { GrowingList } from "./grown.ts";
import { hasDigits, isNear, keepsCheckDigit, unpackNumber } from "./packed-number.ts";

interface Values {
  readonly length: number;
  readonly at: (index: number) => number;
}

/** Whose the lines are: number packed, day of birth, initials as a number; 0 or `noDay` where not written. */
export interface People {
  readonly numbers: Values;
  readonly born: Values;
  readonly initials: Values;
  readonly noDay: number;
}

/** A birth date that so many numbers share is a filler, such as the first of January 1900. */
const MOST_OF_ONE_BIRTH = 400;

function ordered(length: number, first: Values, second: Values): Uint32Array {
  return Uint32Array.from({ length }, (_, at) => at).sort(
    (a, b) => first.at(a) - first.at(b) || second.at(a) - second.at(b) || a - b,
  );
}

/**
 * Numbers one slip of the hand from one that stands in an earlier row with the same birth date, and not with another's
 * initials. Told once for each number, at its first row. Twins without initials are asked about too; the question is for
 * a person.
 */
export function* nearNumbers({ numbers, born, initials, noDay }: People): Generator<Doubt> {
  const order = ordered(numbers.length, born, numbers);
  // the earlier row that each is held against, counted from one; nought for none
  const near = new Int32Array(numbers.length);
  let from = 0;
  while (from < order.length) {
    const birth = born.at(order[from] as number);
    let to = from;
    // the first line of each number of this birth date
    const firsts: { readonly at: number; readonly key: string }[] = [];
    let before = 0;
    for (; to < order.length && born.at(order[to] as number) === birth; to += 1) {
      const at = order[to] as number;
      const packed = numbers.at(at);
      if (packed !== 0 && packed !== before && birth !== noDay && firsts.length <= MOST_OF_ONE_BIRTH)
        firsts.push({ at, key: unpackNumber(packed) });
      before = packed;
    }
    from = to;
    if (firsts.length < 2 || firsts.length > MOST_OF_ONE_BIRTH) continue;
    firsts.sort((a, b) => a.at - b.at);
    for (const [index, one] of firsts.entries())
      for (const other of firsts.slice(0, index)) {
        if (!isNear(one.key, other.key)) continue;
        const [mine, theirs] = [initials.at(one.at), initials.at(other.at)];
        if (mine !== 0 && theirs !== 0 && mine !== theirs) continue;
        near[one.at] = other.at + 1;
        break;
      }
  }
  for (let at = 0; at < near.length; at += 1) {
    const against = (near[at] as number) - 1;
    if (against >= 0) yield { at, code: "near number", field: "patient", found: unpackNumber(numbers.at(at)), against };
  }
}

/** Rows of one number whose birth date or initials are not those of its first row. */
export function* numbersOfTwoPeople({ numbers, born, initials, noDay }: People): Generator<Doubt> {
  const order = Uint32Array.from({ length: numbers.length }, (_, at) => at).sort(
    (a, b) => numbers.at(a) - numbers.at(b) || a - b,
  );
  // the first row of the number, counted from one; below nought where the initials differ and not the birth
  const other = new Int32Array(numbers.length);
  let first = -1;
  for (const at of order) {
    if (numbers.at(at) === 0) continue;
    if (first < 0 || numbers.at(first) !== numbers.at(at)) {
      first = at;
      continue;
    }
    const [birth, birthFirst] = [born.at(at), born.at(first)];
    if (birth !== noDay && birthFirst !== noDay && birth !== birthFirst) other[at] = first + 1;
    else if (initials.at(at) !== 0 && initials.at(first) !== 0 && initials.at(at) !== initials.at(first))
      other[at] = -(first + 1);
  }
  const code = "number of two people" as const;
  for (let at = 0; at < other.length; at += 1) {
    const told = other[at] as number;
    if (told > 0) yield { at, code, field: "birthDate", found: civilDateFromDayNumber(born.at(at)), against: told - 1 };
    else if (told < 0) yield { at, code, field: "initials", found: "", against: -told - 1 };
  }
}

const CHECKED_DIGITS = 10;
const FEWEST = 20;

/**
 * Numbers whose check digit fails, in a column that has one: ten digits each, and nearly all of them keep it. One in
 * eleven would by chance. Told at the first row of the number.
 */
export function* checkDigitsThatFail({ numbers }: People, share: number): Generator<Doubt> {
  const seen = new Set<number>();
  const failing = new GrowingList(new Int32Array(64));
  let ten = 0;
  for (let at = 0; at < numbers.length; at += 1) {
    const packed = numbers.at(at);
    if (!hasDigits(packed, CHECKED_DIGITS)) continue;
    ten += 1;
    if (keepsCheckDigit(unpackNumber(packed)) || seen.has(packed)) continue;
    seen.add(packed);
    failing.add(at);
    // a column of other numbers fails ten times of eleven: no need to hold them all
    if (ten > 1000 && failing.length > (1 - share) * 2 * ten) return;
  }
  if (ten < FEWEST || ten < share * numbers.length || failing.length > (1 - share) * ten) return;
  for (let one = 0; one < failing.length; one += 1) {
    const at = failing.at(one);
    yield { at, code: "check digit", field: "patient", found: unpackNumber(numbers.at(at)), against: "" };
  }
}
