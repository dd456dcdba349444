import type { Station, Vein } from "../src/core/arm/index.ts";
import { emptyMemo, planLine, whatWouldChange, type PlanInput, type PlanPolicy } from "../src/core/line-plan/index.ts";
import { readCase } from "../src/contract/index.ts";
import { centimetre, french, millimetre } from "../src/core/quantity/index.ts";
import { defaultPolicy, planPolicyFrom } from "../src/policy/index.ts";
import { demoShelf, practicePatients } from "../src/practice/index.ts";

export interface BenchmarkRow {
  readonly name: string;
  readonly median: number;
  readonly unit: string;
}

const policy = planPolicyFrom(defaultPolicy.table);

/** Two arms, four veins each, eight readings a vein from elbow to armpit, and a shelf of any size. */
function largeCase(catheters: number): PlanInput {
  const reading = readCase(practicePatients[0]?.planCase, demoShelf);
  if (reading.kind === "faults") throw new Error("the practice case has faults");
  const stations = (less: number) =>
    Array.from({ length: 8 }, (_, index): Station => ({
      atCm: centimetre(index * 3),
      veinPresent: true,
      diameterMm: millimetre(3.2 - less + index * 0.2),
      depthMm: millimetre(8 + index * 1.5),
      artery: "none",
      nerveBeside: false,
      compressible: true,
      thrombus: false,
      tourniquetOn: false,
      repeats: 1,
    }));
  const veins: readonly Vein[] = ["basilic", "brachial", "cephalic", "axillary"];
  const arm = {
    armLengthCm: centimetre(21),
    bars: [],
    pastLines: [],
    surveys: veins.map((vein, index) => ({ vein, stations: stations(index * 0.5) })),
  };
  const model = demoShelf[1] as (typeof demoShelf)[number];
  const shelf = Array.from({ length: catheters }, (_, index) => {
    const size = 2 + (index % 10) * 0.4 + index / 10_000;
    return {
      ...model,
      id: `c${index}`,
      nominalFrench: french(size),
      outsideDiameterMm: millimetre(size / 3),
      lumens: 1 + (index % 3),
    };
  });
  return { ...reading.input, arms: { right: arm, left: arm }, shelf };
}

export function median(times: number, run: () => void): number {
  for (let warm = 0; warm < 5; warm += 1) run();
  const taken = Array.from({ length: times }, () => {
    const since = performance.now();
    run();
    return performance.now() - since;
  }).sort((a, b) => a - b);
  return taken[Math.floor(times / 2)] as number;
}

export function benchmarkPlan(): readonly BenchmarkRow[] {
  const whole = largeCase(30);
  const finer: PlanPolicy = { ...policy, gridMm: millimetre(0.1) };
  const small = readCase(practicePatients[0]?.planCase, demoShelf);
  if (small.kind === "faults") throw new Error("the practice case has faults");
  const row = (name: string, value: number): BenchmarkRow => ({ name, median: value, unit: "ms" });
  return [
    row(
      "full plan, 2 arms x 4 veins, 1 mm grid, 30 catheters",
      median(31, () => void planLine(whole, policy, emptyMemo())),
    ),
    row(
      "the same, grid ten times finer",
      median(7, () => void planLine(whole, finer, emptyMemo())),
    ),
    row(
      "the same, shelf ten times larger",
      median(7, () => void planLine(largeCase(300), policy, emptyMemo())),
    ),
    row(
      "what would change it, all inputs of the full case",
      median(5, () => void [...whatWouldChange(whole, policy)]),
    ),
    row(
      "what would change it, one vein of four readings",
      median(15, () => void [...whatWouldChange(small.input, policy)]),
    ),
  ];
}
