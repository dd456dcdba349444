import { addDays, type CivilDate } from "../src/core/calendar/index.ts";

/** The columns of an invented service's list of lines. */
export const INVENTED_HEADERS = [
  "MRN",
  "Age",
  "Date placed",
  "Date removed",
  "Reason removed",
  "Arm",
  "Vein",
  "Fr",
  "Lumens",
  "Vein diameter (mm)",
  "Attempts",
  "Ward",
  "Inserted by",
  "Infection date",
  "DVT date",
  "Occlusion date",
  "Exit site infection",
  "Migration date",
  "Tip position",
  "Indication",
  "Position along arm",
  "Lot",
] as const;

export interface InventedService {
  readonly lines: number;
  readonly seed: number;
  /** The lines are placed evenly over so many days from this one. */
  readonly from: CivilDate;
  readonly days: number;
  /** The sheet was last written on this day. */
  readonly today: CivilDate;
  readonly patient: (roll: (sides: number) => number) => string;
}

/** Park and Miller 1988, minimal standard generator (from memory): a fixed seed gives fixed rows. */
export function rollFrom(seed: number): (sides: number) => number {
  let state = seed;
  return (sides) => {
    state = (state * 48_271) % 2_147_483_647;
    return Math.floor((state / 2_147_483_647) * sides);
  };
}

/** The rows of an invented service, one by one: none is held. */
export function* inventedRows({
  lines,
  seed,
  from,
  days,
  today,
  patient,
}: InventedService): Generator<readonly string[]> {
  const roll = rollFrom(seed);
  const of = (words: readonly string[]) => words[roll(words.length)] as string;
  const seldom = (value: string, one: number, absence: string) => (roll(one) === 0 ? absence : value);
  for (let at = 0; at < lines; at += 1) {
    const placed = addDays(from, Math.floor((at * days) / lines));
    const stay = roll(3) === 0 ? roll(6) : roll(70);
    const lasts = addDays(placed, stay);
    const out = roll(25) === 0 || lasts > today ? "" : lasts;
    const on = (one: number, late: number) => (roll(one) === 0 ? addDays(placed, roll(stay + 1 + late)) : "");
    yield [
      patient(roll),
      seldom(String(1 + roll(95)), 20, "unknown"),
      placed,
      out,
      out === "" ? "" : of(["treatment complete", "infection", "DVT", "blocked", "n/k", "", "died", "fell out"]),
      of(["L", "R", "R"]),
      seldom(of(["basilic", "brachial", "cephalic"]), 25, "n/k"),
      seldom(String(3 + roll(4)), 30, "n/k"),
      String(1 + roll(3)),
      seldom((2.2 + roll(40) / 10).toFixed(1), 12, "not done"),
      seldom(String(1 + roll(roll(2) === 0 ? 1 : 4)), 15, ""),
      seldom(of(["Ash", "Birch", "Cedar", "Dune 2"]), 30, "n/k"),
      of(["ab", "cd", "ef"]),
      on(12, 2),
      on(14, 9),
      on(9, 1),
      on(30, 0),
      on(40, 0),
      seldom(of(["CAJ", "lower SVC", "upper SVC", "right atrium", "IJ"]), 12, "not done"),
      of(["IV antibiotics", "chemo", "TPN", "fluids", "declined"]),
      seldom(String(20 + roll(70)), 10, "not measured"),
      seldom(`LOT${roll(9)}`, 8, ""),
    ];
  }
}
