/**
 * Drug charts by seed, for tests and the benchmark: the usual drug rounds, charts that wrap round midnight, charts with
 * dedicated lumens, crowded charts, and hand-made hard ones. Times, runs and flows are invented in the manner of a ward chart
 * and are no dosing advice.
 */
import type { Compatibility, CompatibilityPair, DrugChart, Infusion, Timing } from "../src/core/drug-chart/index.ts";
import { missing } from "../src/core/missing/index.ts";
import { millilitrePerHour, minute } from "../src/core/quantity/index.ts";

export const CHART_KINDS = ["rounds", "wrapped", "dedicated", "crowded", "shared flow"] as const;
export type ChartKind = (typeof CHART_KINDS)[number];

/** Numbers below 1 from a seed (mulberry32, Ettinger 2017, public domain; from memory). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

/** Name, doses a day, run in minutes, flush in minutes, mL/h. */
const INTERMITTENT = [
  ["Vancomycin", 2, 120, 10, 125],
  ["Meropenem", 3, 30, 5, 200],
  ["Piperacillin-tazobactam", 4, 30, 5, 100],
  ["Aciclovir", 3, 60, 5, 100],
  ["Fluconazole", 1, 60, 5, 200],
  ["Ganciclovir", 2, 60, 10, 100],
  ["Cefazolin", 3, 15, 5, 200],
  ["Metronidazole", 3, 30, 5, 200],
  ["Gentamicin", 1, 60, 10, 100],
  ["Paracetamol", 4, 15, 5, 400],
  ["Pantoprazole", 2, 15, 5, 200],
  ["Amphotericin, liposomal", 1, 120, 10, 150],
  ["Methylprednisolone", 1, 60, 5, 100],
  ["Levetiracetam", 2, 15, 5, 400],
  ["Co-trimoxazole", 2, 90, 10, 250],
  ["Magnesium", 1, 240, 5, 25],
  ["Iron", 1, 60, 5, 100],
  ["Flucloxacillin", 4, 30, 5, 100],
  ["Caspofungin", 1, 60, 5, 250],
  ["Ondansetron", 3, 15, 5, 200],
  ["Phosphate", 1, 360, 5, 40],
  ["Linezolid", 2, 60, 5, 300],
  ["Foscarnet", 2, 120, 10, 250],
  ["Immunoglobulin", 1, 300, 10, 100],
] as const;
const CONTINUOUS = [
  ["Insulin", 2],
  ["Heparin", 3],
  ["Morphine", 2],
  ["Maintenance fluid", 80],
  ["Furosemide", 4],
] as const;

const ROUNDS: Readonly<Record<number, readonly number[]>> = { 1: [8, 18, 22], 2: [6, 8, 10], 3: [6, 8], 4: [0, 6] };

/** A chart of so many infusions. Tolerance in minutes either way for everything that may move. */
export function generatedChart(kind: ChartKind, infusions: number, seed: number, toleranceMin = 120): DrugChart {
  const random = seeded(seed * 7919 + infusions * 31 + CHART_KINDS.indexOf(kind));
  const below = (count: number) => Math.floor(random() * count);
  const pick = <Value>(values: readonly Value[]): Value => values[below(values.length)] as Value;
  const names = shuffled(INTERMITTENT, random);
  const list: Infusion[] = [];
  const dedicated = kind === "dedicated" ? Math.min(2, infusions) : random() < 0.2 ? 1 : 0;
  for (let index = 0; index < Math.min(dedicated, infusions); index += 1) list.push(dedicatedInfusion(index, below));
  const continuous = kind === "crowded" ? 0 : Math.min(below(3), infusions - list.length);
  for (let index = 0; index < continuous; index += 1) list.push(continuousInfusion(index));
  for (let index = 0; list.length < infusions; index += 1) {
    const [name, perDay, runMin, flushMin, rate] = names[index % names.length] as (typeof INTERMITTENT)[number];
    const wraps = kind === "wrapped" || kind === "crowded";
    const first = wraps ? below(96) * 15 : pick(ROUNDS[perDay] as readonly number[]) * 60 + (random() < 0.15 ? 30 : 0);
    const everyMin = 1440 / perDay;
    const timing: Timing = {
      kind: "at an interval",
      firstMin: minute(first % 1440),
      everyMin: minute(everyMin),
      runMin: minute(kind === "wrapped" && perDay === 1 && random() < 0.3 ? runMin + 180 : runMin),
    };
    list.push({
      ...plain(`drug-${index}`, index < names.length ? name : `${name}, second`, timing),
      flushBeforeMin: minute(flushMin),
      flushAfterMin: minute(flushMin),
      toleranceMin: minute(random() < 0.15 ? 0 : toleranceMin),
      rateMlPerHour: millilitrePerHour(rate),
      peripheral: random() < 0.4,
      oralForm: random() < 0.3,
    });
  }
  const sharing = kind === "shared flow" ? 0.5 : 0.2;
  return {
    horizonDays: 1,
    infusions: list,
    compatibility: pairs(list, () => {
      const chance = random();
      return chance < sharing ? "compatible" : chance < 0.7 ? "incompatible" : "unknown";
    }),
    stepMin: minute(15),
    lumenFlowMlPerHour: kind === "shared flow" ? millilitrePerHour(450) : missing("not known"),
  };
}

function dedicatedInfusion(index: number, below: (count: number) => number): Infusion {
  const nutrition = index === 0;
  const timing: Timing = {
    kind: "at clock times",
    startsMin: [minute(nutrition ? 18 * 60 : (9 + below(6)) * 60)],
    runMin: minute(nutrition ? 14 * 60 : 120),
  };
  return {
    ...plain(`kept-${index}`, nutrition ? "Parenteral nutrition" : "Red cells", timing),
    content: nutrition ? "nutrition" : "blood",
    dedicated: true,
    flushBeforeMin: minute(10),
    flushAfterMin: minute(10),
    rateMlPerHour: millilitrePerHour(nutrition ? 140 : 150),
  };
}

function continuousInfusion(index: number): Infusion {
  const [name, rate] = CONTINUOUS[index % CONTINUOUS.length] as (typeof CONTINUOUS)[number];
  return { ...plain(`steady-${index}`, name, { kind: "continuous" }), rateMlPerHour: millilitrePerHour(rate) };
}

/** An infusion with nothing special about it: fixed, no flush, shared only where a pair says so. */
export function plain(id: string, name: string, timing: Timing): Infusion {
  return {
    id,
    name,
    content: "drug",
    timing,
    flushBeforeMin: minute(0),
    flushAfterMin: minute(0),
    toleranceMin: minute(0),
    movable: true,
    rateMlPerHour: missing("not asked"),
    dedicated: false,
    peripheral: missing("not asked"),
    oralForm: missing("not asked"),
  };
}

function pairs(list: readonly Infusion[], known: () => Compatibility): CompatibilityPair[] {
  return list.flatMap((first, index) =>
    list.slice(index + 1).flatMap((second) => {
      const verdict = known();
      return verdict === "unknown" ? [] : [{ first: first.id, second: second.id, known: verdict }];
    }),
  );
}

function shuffled<Value>(values: readonly Value[], random: () => number): Value[] {
  const order = [...values];
  for (let last = order.length - 1; last > 0; last -= 1) {
    const other = Math.floor(random() * (last + 1));
    [order[last], order[other]] = [order[other] as Value, order[last] as Value];
  }
  return order;
}

/**
 * A chart small enough to try every way by hand: up to five infusions and seven doses, 15-minute steps up to 45 minutes, with
 * days, dedicated lumens, labelled flow, continuous infusions and wrapped doses among them.
 */
export function smallChart(seed: number): DrugChart {
  const random = seeded(seed * 104_729);
  const below = (count: number) => Math.floor(random() * count);
  const horizonDays = below(4) === 0 ? 7 : 1;
  const count = 3 + below(3);
  const infusions: Infusion[] = Array.from({ length: count }, (_, index) => {
    const kind = below(12);
    const runMin = minute(30 + below(4) * 25);
    // a narrow morning, so that doses meet; now and then the night
    const start = below(3) === 0 ? 23 * 60 + below(6) * 15 : 8 * 60 + below(4) * 15 + below(2) * 5;
    const timing: Timing =
      kind === 0
        ? { kind: "continuous" }
        : kind < 3 && index < 2
          ? { kind: "at an interval", firstMin: minute(start % 1440), everyMin: minute(720), runMin }
          : { kind: "at clock times", startsMin: [minute(start % 1440)], runMin };
    const nutrition = kind === 11;
    return {
      ...plain(`infusion-${index}`, `Infusion ${index}`, timing),
      content: nutrition ? ("nutrition" as const) : ("drug" as const),
      dedicated: below(10) === 0,
      flushBeforeMin: minute(below(2) * 10),
      flushAfterMin: minute(below(2) * 10),
      toleranceMin: minute(below(6) === 0 ? 0 : 15 + below(3) * 15),
      movable: below(8) > 0,
      rateMlPerHour: below(5) === 0 ? missing("not asked") : millilitrePerHour(50 + below(4) * 50),
      ...(horizonDays === 7 &&
        below(3) > 0 && {
          daysActive: [0, 1, 2, 3, 4, 5, 6]
            .filter(() => below(2) === 0)
            .concat(0)
            .filter((day, at, all) => all.indexOf(day) === at),
        }),
    };
  });
  return {
    horizonDays,
    infusions,
    compatibility: pairs(
      infusions,
      () => (["compatible", "compatible", "incompatible", "unknown"] as const)[below(4)] ?? "unknown",
    ),
    stepMin: minute(15),
    lumenFlowMlPerHour: below(2) === 0 ? millilitrePerHour(250) : missing("not known"),
  };
}

const clockDose = (id: string, startMin: number, runMin: number, toleranceMin: number): Infusion => ({
  ...plain(id, id, { kind: "at clock times", startsMin: [minute(startMin)], runMin: minute(runMin) }),
  toleranceMin: minute(toleranceMin),
});

const dayChart = (
  infusions: readonly Infusion[],
  compatible: readonly (readonly [string, string])[] = [],
): DrugChart => ({
  horizonDays: 1,
  infusions,
  compatibility: compatible.map(([first, second]) => ({ first, second, known: "compatible" })),
  stepMin: minute(15),
  lumenFlowMlPerHour: missing("not known"),
});

/** Charts made by hand to be hard: alike doses, odd rings in time and in compatibility, and a packing with nothing to spare. */
export const hardCharts: Readonly<Record<string, DrugChart>> = {
  "ten alike at 08:00": dayChart(Array.from({ length: 10 }, (_, index) => clockDose(`drug ${index}`, 480, 60, 120))),
  "ring of five round the clock": dayChart(
    Array.from({ length: 5 }, (_, index) => clockDose(`drug ${index}`, index * 288, 500, 30)),
  ),
  "three that overlap in pairs": dayChart([
    clockDose("night", 1320, 600, 0),
    clockDose("morning", 420, 540, 0),
    clockDose("evening", 900, 480, 0),
  ]),
  // lumens pair up neighbours of a ring of five, so two lumens hold four and the fifth takes a third
  "ring of five that mix with their neighbours": dayChart(
    Array.from({ length: 5 }, (_, index) => clockDose(`drug ${index}`, 540, 180, 45)),
    Array.from({ length: 5 }, (_, index) => [`drug ${index}`, `drug ${(index + 1) % 5}`] as const),
  ),
  // 60 + 75 + 105 and 90 + 90 + 60 fill the morning twice over, to the minute
  "two lumens packed to the minute": dayChart([
    ...[60, 75, 105, 90, 90, 60].map((runMin, index) => clockDose(`drug ${index}`, 480, runMin, 240)),
    clockDose("before, 1", 0, 480, 0),
    clockDose("before, 2", 0, 480, 0),
    clockDose("after, 1", 720, 719, 0),
    clockDose("after, 2", 720, 719, 0),
  ]),
};
