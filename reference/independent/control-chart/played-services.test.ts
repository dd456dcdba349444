import { decisionLimit, exposureCusum } from "../../../src/core/control-chart/index.ts";
import { checkPairs, type Pair } from "../../check.ts";
import { uniformFrom } from "../../generated-lines.ts";

const values = (quantity: string, source: string, tolerance: number, unit: string, pairs: readonly Pair[]): void =>
  checkPairs({ quantity, source, tolerance, unit, kind: "independent" }, pairs);

/** Months to the first signal of played services after a quiet time, each gap drawn and summed as the register would. */
function played(yearly: number, rise: number, quietMonths: number): readonly number[] {
  const uniform = uniformFrom(41 + yearly + quietMonths);
  const decision = decisionLimit(2, 5 * yearly);
  return Array.from({ length: RUNS }, () => {
    const steps: { events: number; expected: number; at: number }[] = [];
    for (let at = 0; at < quietMonths + 120;) {
      const gap = (-12 * Math.log(1 - uniform())) / yearly;
      // what of a gap lies beyond the change passes as many times faster as the rate has risen
      const quiet = Math.min(gap, Math.max(0, quietMonths - at));
      const next = at + quiet + (gap - quiet) / rise;
      // the fall first, so that it stops at zero, then the event
      steps.push({ events: 0, expected: ((next - at) * yearly) / 12, at: next }, { events: 1, expected: 0, at: next });
      at = next;
    }
    const path = exposureCusum(steps, 2, { decision });
    const first = steps.findIndex(({ at }, k) => at > quietMonths && path[k]?.signal);
    return (steps[first]?.at ?? Infinity) - quietMonths;
  });
}
const RUNS = 4000;
/** Events a year; chance that a doubling is seen within 3, 6, 12, 24 months from a sum of nought; of a signal in a quiet year. */
const within = [
  [6, [0.17, 0.45, 0.78, 0.97], 0.15],
  [10, [0.25, 0.59, 0.89, 0.99], 0.16],
  [20, [0.45, 0.81, 0.98, 1], 0.16],
  [60, [0.85, 0.99, 1, 1], 0.17],
] as const;
values(
  "Chance that a signal comes within a time",
  "R 4.2.2, simulation (to one per cent), against 4000 services played here",
  0.025,
  "chance",
  within.flatMap(([yearly, chances, falseAlarm]): Pair[] => {
    const [doubled, quiet] = [played(yearly, 2, 0), played(yearly, 1, 0)];
    const share = (times: readonly number[], months: number) => times.filter((time) => time <= months).length / RUNS;
    return [
      ...[3, 6, 12, 24].map((months, k): Pair => [
        `${yearly} a year, ${months} months`,
        share(doubled, months),
        chances[k] as number,
      ]),
      [`${yearly} a year, quiet year`, share(quiet, 12), falseAlarm],
    ];
  }),
);
/** Events a year; mean months to see a doubling that comes after two quiet years. */
const steady = [
  [6, 7.7],
  [20, 3.6],
  [60, 1.7],
] as const;
values(
  "Months to see a doubling after two quiet years",
  "R 4.2.2, simulation of 6000 runs (to two per cent), against 4000 played here",
  0.05,
  "relative",
  steady.map(([yearly, months]) => [
    `${yearly} a year`,
    played(yearly, 2, 24).reduce((a, b) => a + b, 0) / RUNS,
    months,
  ]),
);
