import { parseInstant, type Instant } from "../../core/calendar/index.ts";
import { judgeCultures, type CultureBottle, type CultureLimits } from "../../core/complication/index.ts";
import { missing, type Maybe } from "../../core/missing/index.ts";
import { millilitre } from "../../core/quantity/index.ts";
import { valueIn, type EntryOf } from "../../register/index.ts";

type Cultures = EntryOf<"CulturesTaken">;
type WrittenBottle = Extract<NonNullable<Cultures["bottles"]>, { readonly value: unknown }>["value"][number];

interface BottleSet {
  readonly bottles: readonly CultureBottle[];
  readonly antibioticBefore: Maybe<boolean>;
}

const NOT_KNOWN = missing("not known");

/**
 * Whether paired cultures showed the line as the source of an infection, out of the cultures written for it.
 *   yes  a pair of one set meets the criterion by time: differential >= limit
 *   no   every set that grew was judged and no pair meets it
 * Cultures drawn together are one set; those with bottles of one side only are read together. Holds: cultures of one
 * episode; none at all is "not asked", and what cannot be judged is "not known". No flag of another kind moves it.
 * Source: Mermel LA and others 2009, Clin Infect Dis 49:1 (120 min; conditions of a pair from memory).
 * Example: drawn and loaded together, line 525 min, peripheral 645 min: yes; 644 min: no.
 */
export function pairedCultureOf(taken: readonly Cultures[], limits: CultureLimits): Maybe<boolean> {
  if (taken.length === 0) return missing("not asked");
  const judged = setsOf(taken)
    .map(({ bottles, antibioticBefore }) => judgeCultures(bottles, antibioticBefore, limits))
    // a set without a pair, or in which nothing grew, says nothing about one that did
    .filter(({ pairs }) => pairs.some(({ line, peripheral }) => grew(line) || grew(peripheral)));
  if (judged.some(({ outcome }) => outcome === "criterion met")) return true;
  return judged.length > 0 && judged.every(({ outcome }) => outcome === "criterion not met") ? false : NOT_KNOWN;
}

const grew = ({ flaggedAt }: CultureBottle): boolean => typeof flaggedAt === "string" && flaggedAt !== "none";

function setsOf(taken: readonly Cultures[]): readonly BottleSet[] {
  const all = taken.map((said, at): BottleSet => ({
    bottles: (valueIn(said.bottles) ?? []).map((bottle, index) => bottleOf(bottle, `${at + 1}.${index + 1}`)),
    antibioticBefore: valueIn(said.antibioticsBefore) ?? missing("not asked"),
  }));
  const whole = all.filter(hasBothSides);
  const halves = all.filter((one) => !hasBothSides(one) && one.bottles.length > 0);
  return halves.length === 0 ? whole : [...whole, joined(halves)];
}

const hasBothSides = ({ bottles }: BottleSet): boolean =>
  bottles.some(({ site }) => site.kind === "lumen") && bottles.some(({ site }) => site.kind === "peripheral");

/** One antibiotic before any of them is one before the pair. */
function joined(sets: readonly BottleSet[]): BottleSet {
  const before = sets.map(({ antibioticBefore }) => antibioticBefore);
  return {
    bottles: sets.flatMap(({ bottles }) => bottles),
    antibioticBefore: before.includes(true)
      ? true
      : before.every((one) => one === false)
        ? false
        : missing("not asked"),
  };
}

/** A bottle as it was written; what was left out is not known, and an empty flag is never "no growth". */
function bottleOf(written: WrittenBottle, id: string): CultureBottle {
  const moment = (text: string | undefined): Maybe<Instant> => parseInstant(text ?? "") ?? NOT_KNOWN;
  const { site, lumen, drawnAt, loadedAt, flaggedAt, organism, volumeMl } = written;
  return {
    id,
    site: site === "line" ? { kind: "lumen", lumen: `${lumen ?? ""}` } : { kind: "peripheral" },
    medium: missing("not asked"),
    drawnAt: moment(drawnAt),
    loadedAt: moment(loadedAt),
    flaggedAt: moment(flaggedAt),
    organism: organism !== undefined && organism.trim() !== "" ? organism : NOT_KNOWN,
    volumeMl: volumeMl === undefined ? NOT_KNOWN : millilitre(volumeMl),
  };
}
