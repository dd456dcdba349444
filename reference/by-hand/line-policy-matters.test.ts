import { describe, expect, test } from "vitest";
import type { Instant } from "../../src/core/calendar/index.ts";
import { missing } from "../../src/core/missing/index.ts";
import { centimetre } from "../../src/core/quantity/index.ts";
import { judgeRelease, type Observation, type ReleaseFacts } from "../../src/core/release/index.ts";
import { armMovement, correctFilm, judgeReaders, tipEstimate, type FilmReading } from "../../src/core/tip/index.ts";
import {
  defaultPolicyTable,
  releasePolicyFrom,
  tableWithValues,
  tipPolicyFrom,
  type PolicyTable,
} from "../../src/policy/index.ts";
import type { PolicyValue } from "../../src/core/reason/index.ts";
import { isLineRow } from "./need-keys.ts";

/** Every limit of a film and of a release is moved, and some answer must move with it. */
const film = (more: Partial<FilmReading>): FilmReading => ({
  place: "right atrium",
  filmCm: centimetre(7.3),
  magnification: 1.12,
  unitOnFilmCm: missing("not measured"),
  ageYears: 40,
  arm: "at the side",
  armConfirmedBy: "",
  outsideCm: centimetre(0.5),
  insideCm: centimetre(43.5),
  symptoms: missing("not asked"),
  ...more,
});
const at = (hour: number) => `2026-03-02T${String(hour).padStart(2, "0")}:00+00:00` as Instant;
const seen = (found: Partial<Observation>): Observation => ({
  at: at(6),
  writtenAt: at(6),
  outsideCm: 2,
  second: undefined,
  measuredBy: "JT",
  bloodReturn: "yes",
  symptoms: [],
  ...found,
});
const facts = (observation: Observation, place = "right atrium"): ReleaseFacts => ({
  tips: [{ at: at(1), kind: "read", place, outsideCm: 2 }],
  releases: [{ at: at(2), writtenAt: at(2), uses: ["vesicant", "parenteral nutrition", "sampling"], by: "MK" }],
  observations: [observation],
  passed: [],
  uses: [],
  end: undefined,
  sidesAgree: true,
});
/** The last tip was moved, or its stop was passed in a role: each depends on a row. */
const movedTip = (given: ReleaseFacts): ReleaseFacts => ({
  ...given,
  tips: [...given.tips, { at: at(1), kind: "corrected", place: undefined, outsideCm: 2 }],
});
const passedIn = (given: ReleaseFacts, role: string): ReleaseFacts => ({
  ...given,
  passed: [{ at: at(2), writtenAt: at(2), why: "no other vein", names: ["Ann", "Ben"], role }],
});
/** A film that asks for a withdrawal: how much, and whether beyond the noise, depends on the rows it is read by. */
const deep = (given: ReleaseFacts, filmCm: number): ReleaseFacts => ({
  ...given,
  tips: given.tips.map((tip) => ({ ...tip, film: film({ filmCm: centimetre(filmCm) }) })),
});
const SYMPTOMS = defaultPolicyTable["release.ends-on-symptoms"].value;
const PLACES = defaultPolicyTable["release.central-places"].value;

const answers = (table: PolicyTable): string => {
  const tip = tipPolicyFrom(table);
  const release = releasePolicyFrom(table);
  const judged = (given: ReleaseFacts, hour = 8) => judgeRelease(given, at(6), at(hour), release);
  return JSON.stringify([
    correctFilm(film({}), tip),
    correctFilm(film({ magnification: 0.9 }), tip),
    correctFilm(film({ magnification: 1.3 }), tip),
    correctFilm(film({ arm: "away from the body" }), tip),
    correctFilm(film({ magnification: missing("not known"), unitOnFilmCm: centimetre(2.3) }), tip),
    correctFilm(film({ ageYears: 18, unitOnFilmCm: centimetre(2.3) }), tip),
    // a third of 7.07 cm is 2.357: just inside and just outside it
    tipEstimate(4.03, 2.35, 4.03, tip),
    tipEstimate(4.03, 2.36, 4.03, tip),
    tipEstimate(4, 0.47, 4.03, tip),
    armMovement({ group: "child", vein: "basilic", broughtInDegree: 90 }, tip),
    armMovement({ group: "newborn", vein: "basilic", broughtInDegree: 90 }, tip),
    judgeReaders(4, 2, tip),
    ...[2.5, 2.6, 3.9, 4, 1.5].map((outsideCm) => judged(facts(seen({ outsideCm })))),
    judged(facts(seen({ bloodReturn: "no" }))),
    judged(facts(seen({})), 10),
    ...SYMPTOMS.map((symptom) => judged(facts(seen({ symptoms: [symptom] })))),
    ...PLACES.map((place) => judged(facts(seen({}), place))),
    // longer outside than at the tip, short of moving, and hard to flush
    judged(facts(seen({ outsideCm: 3.2, flushes: "with resistance" }))),
    judged(movedTip(facts(seen({})))),
    judged(passedIn(facts(seen({}), "neck vein"), "inserter")),
    // target 4.03 and noise 0.5 under magnification 1.12: 5.07 cm on the film is just within, 5.08 beyond
    judged(deep(facts(seen({})), 5.07)),
    judged(deep(facts(seen({})), 5.08)),
  ]);
};

function moved(value: PolicyValue): readonly PolicyValue[] {
  if (typeof value === "boolean") return [!value];
  if (typeof value === "number") return [value * 1.01, value * 0.99];
  return Array.isArray(value) ? [(value as readonly string[]).slice(1)] : [];
}

describe("every limit of a film and a release matters", () => {
  const before = answers(defaultPolicyTable);
  for (const [key, row] of Object.entries(defaultPolicyTable)) {
    if (!isLineRow(key)) continue;
    test(key, () => {
      const changed = moved(row.value).some(
        (value) => answers(tableWithValues(defaultPolicyTable, { [key]: value })) !== before,
      );
      expect(changed).toBe(true);
    });
  }
});
