import type { Doubt } from "./doubt-ledger.ts";
import { keyNumber } from "./line-ledger.ts";
import { isNear, unpackNumber } from "./packed-number.ts";
import type { SheetLine } from "./read-row.ts";

interface Values {
  readonly length: number;
  readonly at: (index: number) => number;
}

/** So many lines at once of one likeness are no likeness. */
const MOST_AT_ONCE = 200;

/**
 * What makes two lines look like one person's where the birth date alone does not say it: initials and year of birth; or
 * one of them with vein, arm and ward, for one line typed twice lies in one vein. Nought where less is written.
 */
export function likenessOf({ placedOn, dates, numbers, words }: SheetLine, initials: string): number {
  const { ageYears } = numbers;
  const placedYear = Number(placedOn.slice(0, 4));
  const year =
    dates.birthDate?.slice(0, 4) ?? (ageYears === undefined ? "" : String(placedYear - Math.floor(ageYears)));
  const { side, vein, ward } = words;
  const place = side && vein && ward ? `${side}|${vein}|${ward.toLowerCase()}` : "";
  if (initials !== "" && year !== "") return keyNumber(`${initials}|${year}`);
  if (place === "" || (initials === "" && year === "")) return 0;
  return keyNumber(`${initials}|${year}|${place}`);
}

/**
 * Numbers one slip of the hand from that of a line in at the same time, which looks like the same person's. Where both
 * birth dates are written they are held by `nearNumbers` if they are one, and are two people if they are not, unless the
 * initials are one. Told at the later row, against the earlier.
 */
export function* nearAtOnce(lines: {
  readonly numbers: Values;
  readonly placed: Values;
  readonly removed: Values;
  readonly born: Values;
  readonly initials: Values;
  readonly likeness: Values;
  readonly noDay: number;
}): Generator<Doubt> {
  const { numbers, placed, removed, born, initials, likeness, noDay } = lines;
  const order = Uint32Array.from({ length: numbers.length }, (_, at) => at).sort(
    (a, b) => likeness.at(a) - likeness.at(b) || placed.at(a) - placed.at(b) || a - b,
  );
  const near = new Int32Array(numbers.length);
  let alike = 0;
  let still: number[] = [];
  for (const at of order) {
    if (likeness.at(at) === 0 || numbers.at(at) === 0) continue;
    if (likeness.at(at) !== alike) [alike, still] = [likeness.at(at), []];
    still = still.filter((other) => removed.at(other) === noDay || removed.at(other) > placed.at(at));
    if (still.length < MOST_AT_ONCE)
      for (const other of still) {
        const [mine, theirs] = [born.at(at), born.at(other)];
        const bothBorn = mine !== noDay && theirs !== noDay;
        if (bothBorn && (mine === theirs || initials.at(at) === 0)) continue;
        if (!isNear(unpackNumber(numbers.at(at)), unpackNumber(numbers.at(other)))) continue;
        const [later, earlier] = at > other ? [at, other] : [other, at];
        if (near[later] === 0) near[later] = earlier + 1;
      }
    still.push(at);
  }
  for (let at = 0; at < near.length; at += 1) {
    const against = (near[at] as number) - 1;
    if (against >= 0) yield { at, code: "near number", field: "patient", found: unpackNumber(numbers.at(at)), against };
  }
}
