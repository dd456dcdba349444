import { expect, test } from "vitest";
import { missing } from "../missing/index.ts";
import { millilitrePerHour, minute } from "../quantity/index.ts";
import { fewestLumens, type DrugChart, type Infusion, type Timing } from "./index.ts";
import { plain } from "../../../reference/drug-chart-generator.ts";

const clock = (...starts: readonly [start: number, ...rest: number[]]) => ({
  runs: (runMin: number): Timing => ({
    kind: "at clock times",
    startsMin: starts.map((hour) => minute(hour * 60)),
    runMin: minute(runMin),
  }),
});

const infusion = (id: string, timing: Timing, more: Partial<Infusion> = {}): Infusion => ({
  ...plain(id, id, timing),
  peripheral: false,
  oralForm: false,
  ...more,
});

const chartOf = (infusions: readonly Infusion[], more: Partial<DrugChart> = {}): DrugChart => ({
  horizonDays: 1,
  infusions,
  compatibility: [],
  stepMin: minute(15),
  lumenFlowMlPerHour: missing("not known"),
  ...more,
});

const ask = (chart: DrugChart, mayGoOn = () => true) => {
  const answer = fewestLumens(chart, { mayGoOn, shortRunMin: minute(60) });
  if (answer.kind === "refused") throw new Error(answer.faults.map(({ code }) => code).join());
  return answer;
};

const faultsOf = (chart: DrugChart) => {
  const answer = fewestLumens(chart, { mayGoOn: () => true, shortRunMin: minute(60) });
  return answer.kind === "refused" ? answer.faults.map(({ code }) => code) : [];
};

const vancomycin = infusion("vancomycin", clock(9, 21).runs(120), {
  flushBeforeMin: minute(10),
  flushAfterMin: minute(10),
  toleranceMin: minute(120),
});
const nutrition = infusion("nutrition", clock(20).runs(14 * 60), { content: "nutrition", toleranceMin: minute(240) });

test("a chart that looks like two lumens and takes one once a dose moves", () => {
  // nutrition runs 20:00 to 10:00, so 09:00 meets it
  const morning = infusion("vancomycin", clock(9).runs(120), {
    flushBeforeMin: minute(10),
    flushAfterMin: minute(10),
    toleranceMin: minute(120),
  });
  const { asCharted, retimed } = ask(chartOf([nutrition, morning]));
  expect(asCharted.lumens).toBe(2);
  expect(retimed).toMatchObject({ lumens: 1, status: "proven", dosesMoved: 1, totalMovedMin: 75 });
  // 09:00 and 75 minutes is 10:15, its flush from 10:05
  expect(retimed.doses[1]).toMatchObject({ startMin: 615, movedMin: 75, occupiedFromMin: 605, occupiedForMin: 140 });
});

test("nutrition is never moved, whatever its tolerance", () => {
  const { retimed } = ask(chartOf([nutrition, vancomycin]));
  expect(retimed.lumens).toBe(2);
  expect(retimed.doses.find(({ infusionId }) => infusionId === "nutrition")?.movedMin).toBe(0);
});

test("a dose flagged as not movable stays", () => {
  const still = infusion("b", clock(8).runs(60), { toleranceMin: minute(120), movable: false });
  expect(ask(chartOf([infusion("a", clock(8).runs(60)), still])).retimed.lumens).toBe(2);
});

test("an unknown pair is kept apart and said to be unknown; a known pair shares", () => {
  const two = [infusion("a", { kind: "continuous" }), infusion("b", clock(8).runs(60))];
  const unknown = ask(chartOf(two));
  expect(unknown.retimed.lumens).toBe(2);
  expect(unknown.unknownPairs).toEqual([["a", "b"]]);
  expect(unknown.retimed.proof?.unknownPairs).toEqual([["a", "b"]]);
  const known = ask(chartOf(two, { compatibility: [{ first: "b", second: "a", known: "compatible" }] }));
  expect(known.retimed.lumens).toBe(1);
  expect(known.unknownPairs).toEqual([]);
  const bad = ask(chartOf(two, { compatibility: [{ first: "b", second: "a", known: "incompatible" }] }));
  expect(bad.retimed.lumens).toBe(2);
  expect(bad.unknownPairs).toEqual([]);
});

test("sharing stays within the labelled flow, three together too, and an unknown rate does not share", () => {
  const steady = (id: string, rate: number) =>
    infusion(id, { kind: "continuous" }, { rateMlPerHour: millilitrePerHour(rate) });
  const all = (["a b", "a c", "b c"] as const).map((pair) => {
    const [first, second] = pair.split(" ") as [string, string];
    return { first, second, known: "compatible" as const };
  });
  const three = [steady("a", 100), steady("b", 100), steady("c", 100)];
  const within = (flow: number) => chartOf(three, { compatibility: all, lumenFlowMlPerHour: millilitrePerHour(flow) });
  expect(ask(within(300)).retimed.lumens).toBe(1);
  expect(ask(within(299)).retimed.lumens).toBe(2);
  expect(ask(within(199)).retimed.lumens).toBe(3);
  const noRate = [infusion("a", { kind: "continuous" }), steady("b", 1), steady("c", 1)];
  expect(ask(chartOf(noRate, { compatibility: all, lumenFlowMlPerHour: millilitrePerHour(300) })).retimed.lumens).toBe(
    2,
  );
});

test("a dedicated lumen carries nothing else all day, and on a week's chart is free on its days off", () => {
  const red = infusion("red cells", clock(9).runs(120), { content: "blood", dedicated: true, daysActive: [0] });
  const night = infusion("night drug", clock(22).runs(60));
  expect(ask(chartOf([red, night])).retimed.lumens).toBe(2);
  const week = (days: readonly number[]) =>
    ask(chartOf([red, { ...night, daysActive: days }], { horizonDays: 7 })).retimed.lumens;
  expect(week([0, 3])).toBe(2);
  expect(week([1, 3])).toBe(1);
  // 23:30 on day 6 runs into day 0, when the lumen is kept
  expect(
    ask(chartOf([red, infusion("late", clock(23.5).runs(60), { daysActive: [6] })], { horizonDays: 7 })).retimed.lumens,
  ).toBe(2);
});

test("a bag of 46 h on a week's chart meets what runs on the day after", () => {
  const bag = infusion("46 h bag", clock(10).runs(46 * 60), { daysActive: [0] });
  const daily = (days: readonly number[]) => infusion("daily", clock(9).runs(30), { daysActive: days });
  const lumens = (days: readonly number[]) => ask(chartOf([bag, daily(days)], { horizonDays: 7 })).asCharted.lumens;
  expect(lumens([1])).toBe(2);
  expect(lumens([2])).toBe(1);
  expect(lumens([0])).toBe(1);
});

test("the proof names what is needed and nothing more", () => {
  const busy = ["a", "b", "c"].map((id) => infusion(id, clock(8).runs(60)));
  const { asCharted } = ask(chartOf([infusion("idle", clock(15).runs(60)), ...busy]));
  expect(asCharted.proof).toMatchObject({ infusionIds: ["a", "b", "c"], irreducible: true });
});

test("nothing on the chart needs no lumen", () => {
  expect(ask(chartOf([])).retimed).toMatchObject({ lumens: 0, status: "proven", doses: [] });
});

test("offers say what they would save, and ask where the chart does not say", () => {
  const two = [
    infusion("a", clock(8).runs(60), { peripheral: true, oralForm: missing("not asked") }),
    infusion("b", clock(8).runs(120), { peripheral: true }),
  ];
  expect(ask(chartOf(two)).offers).toEqual([
    { kind: "peripheral cannula", infusionId: "a", known: true, lumens: 1, settled: true },
    { kind: "oral switch", infusionId: "a", known: false, lumens: 1, settled: true },
  ]);
});

test("a search that may not go on says what is not proven, and still answers", () => {
  const many = Array.from({ length: 12 }, (_, index) =>
    infusion(`drug ${index}`, clock(8 + (index % 3)).runs(75 + 10 * index), { toleranceMin: minute(120) }),
  );
  const { retimed } = ask(chartOf(many), () => false);
  expect(retimed.doses).toHaveLength(12);
  expect(retimed.atLeast).toBeLessThanOrEqual(retimed.lumens);
  expect([retimed.status, retimed.movesStatus]).toContain("best found, not proven");
});

test("a chart with faults is refused with all of them", () => {
  const wrong = infusion(
    "a",
    { kind: "at an interval", firstMin: minute(1500), everyMin: minute(420), runMin: minute(0) },
    {
      flushAfterMin: minute(-5),
      toleranceMin: minute(-15),
      daysActive: [3],
      rateMlPerHour: millilitrePerHour(0),
    },
  );
  const chart = chartOf(
    [wrong, infusion("a", clock(8).runs(60.5)), infusion("none", clock(8).runs(10), { daysActive: [] })],
    {
      stepMin: minute(0),
      compatibility: [
        { first: "a", second: "gone", known: "compatible" },
        { first: "none", second: "a", known: "compatible" },
        { first: "a", second: "none", known: "incompatible" },
      ],
    },
  );
  expect(new Set(faultsOf(chart))).toEqual(
    new Set([
      "repeated-id",
      "step-not-positive",
      "pair-names-no-infusion",
      "pair-listed-twice",
      "interval-does-not-divide-day",
      "start-not-in-day",
      "run-not-positive",
      "flush-negative",
      "tolerance-negative",
      "day-not-in-chart",
      "rate-not-positive",
      "not-whole-minutes",
    ]),
  );
  expect(faultsOf(chartOf([infusion("a", { kind: "at clock times", startsMin: [], runMin: minute(60) })]))).toEqual([
    "no-start",
  ]);
  expect(faultsOf(chartOf([infusion("a", clock(8, 9).runs(90))]))).toEqual(["dose-overlaps-itself"]);
  expect(faultsOf(chartOf([infusion("a", clock(8).runs(1500))]))).toEqual(["dose-overlaps-itself"]);
  const fast = infusion("a", clock(8).runs(60), { rateMlPerHour: millilitrePerHour(500) });
  expect(faultsOf(chartOf([fast], { lumenFlowMlPerHour: millilitrePerHour(400) }))).toEqual(["rate-over-lumen-flow"]);
});
