import type { Side } from "../arm/index.ts";
import { isKnown, isMissing, type Maybe } from "../missing/index.ts";
import { centimetre, type Centimetre } from "../quantity/index.ts";
import {
  adultCreaseToCarina,
  childAxillaryToCarina,
  childAxillaryToCentral,
  newbornAxillaryToCava,
} from "./formula.ts";
import type { LengthInput } from "./length-input.ts";
import { lengthWayFacts, type LengthWay, type LengthWayName, type LengthWayNotUsed } from "./length-way.ts";

export interface LengthPlace {
  readonly side: Side;
  readonly veinEntryCm: Centimetre;
}

export interface LengthPerson {
  /** Undefined while the age is missing: then no formula of any group applies. */
  readonly group: "newborn" | "child" | "adult" | undefined;
  /** Standing height, or a newborn's length. */
  readonly heightCm: Centimetre | undefined;
}

interface Ways {
  readonly ways: readonly LengthWay[];
  readonly notUsed: readonly LengthWayNotUsed[];
}

/** Every way the entry allows from one vein entry, and each way that was begun and gives nothing, with its reason. */
export function waysToLength(
  input: LengthInput,
  place: LengthPlace,
  person: LengthPerson,
  carinaToJunctionCm: Centimetre,
): Ways {
  const ways: LengthWay[] = [];
  const notUsed: LengthWayNotUsed[] = [];
  const add = (
    way: LengthWayName,
    measures: readonly Maybe<Centimetre>[],
    sum: (...known: Centimetre[]) => number,
    refusal?: LengthWayNotUsed["reason"],
  ): void => {
    const known = measures.filter(isKnown);
    if (known.length === 0) return;
    const reason = refusal ?? (known.length < measures.length ? "measure-missing" : undefined);
    const length = reason === undefined ? sum(...known) : 0;
    if (reason === undefined && length > 0) {
      ways.push({ way, fromVeinEntryCm: centimetre(length), ...lengthWayFacts[way] });
    } else notUsed.push({ way, reason: reason ?? "no-length-left" });
  };

  const { side, veinEntryCm } = place;
  const own = input.sides[side];
  // an entry nearer the shoulder than the tape's own mark leaves less to travel
  const fromEntry = (tape: Centimetre, from: Centimetre) => tape - (veinEntryCm - from);
  if (!isMissing(own.surfaceTapeCm)) add("surface tape", [own.surfaceTapeCm, own.tapeFromCm], fromEntry);
  if (!isMissing(own.secondTapeCm)) add("second tape", [own.secondTapeCm, own.tapeFromCm], fromEntry);
  add("last good line", [own.lastGoodLengthCm, own.lastGoodEntryCm], (length, entry) => length - (veinEntryCm - entry));
  add(
    "adult tape formula",
    [input.clavicleCm, input.sternumCm, input.creaseBelowEpicondyleCm],
    (clavicle, sternum, crease) => adultCreaseToCarina(clavicle, sternum) + carinaToJunctionCm - (veinEntryCm + crease),
    person.group === "adult" ? undefined : "for-adults-only",
  );
  const toArmpit: Maybe<Centimetre>[] = [
    input.entryToAxillaryPointCm,
    person.heightCm ?? { missing: "not asked" as const },
  ];
  if (isMissing(input.entryToAxillaryPointCm)) return { ways, notUsed };
  if (person.group === "newborn") {
    add("newborns' length formula", toArmpit, (armpit, length) => armpit + newbornAxillaryToCava(length));
  } else {
    const refusal = person.group === "child" ? undefined : "for-children-only";
    const toCarina = (armpit: Centimetre, height: Centimetre) => armpit + childAxillaryToCarina(side, height);
    add("children's height formula", toArmpit, toCarina, refusal);
    if (refusal === undefined)
      add("children's simple formula", toArmpit, (armpit, height) => armpit + childAxillaryToCentral(height));
  }
  return { ways, notUsed };
}
