import type { ArmMap, LearningCurve } from "../../audit/index.ts";
import { sayMeasure } from "./count.ts";
import { amount } from "./number.ts";

const percent = (share: number): string => amount(share * 100, "", 0);
const two = (value: number): string => amount(value, "", 2);

/** A map as lines, cell by cell; a grey cell shows its days and no rate. */
export function mapLines(map: ArmMap): readonly string[] {
  // no line at all fits any rate: nothing was shown
  if (map.used === 0)
    return [
      `${sayMeasure(map.measure)}, ${map.axis}. 0 of ${map.given} lines used.`,
      "Nobody wrote it down for any line: nothing can be drawn.",
    ];
  return [
    `${sayMeasure(map.measure)}, ${map.axis}. ${map.used} of ${map.given} lines used.`,
    ...(map.flat ? ["One rate fits all of it: the lines show no difference."] : []),
    ...map.cells.map(({ from, to, events, lineDays, perThousand, lower, upper, grey }) => {
      const place = `  ${percent(from)} to ${percent(to)} %: ${events} in ${amount(lineDays, "", 0)} ${map.clock}`;
      if (grey) return `${place}, too few days to read.`;
      return perThousand === undefined
        ? `${place}.`
        : `${place}: ${two(perThousand)} per 1,000 (${two(lower ?? 0)} to ${two(upper ?? 0)}), smoothed.`;
    }),
    "Easy arms and hard arms get different lines: no cause is shown.",
  ];
}

/** A person's own curve as lines. */
export function learningLines(curve: LearningCurve): readonly string[] {
  return [
    "For this person and the trainer. Never set beside another's.",
    `${curve.cases.length} lines; ${curve.seen} needed more than one attempt, ${two(curve.expected)} expected.`,
    `Difficulty: ${curve.difficulty}.`,
    ...(curve.drawnShare === undefined
      ? []
      : [`Misses pulled towards the service: ${percent(curve.drawnShare)} % of lines.`]),
    ...(curve.linesWithoutAttempts > 0 ? [`${curve.linesWithoutAttempts} lines have no attempts written down.`] : []),
    curve.crossedAt === undefined
      ? `The sum stayed under ${two(curve.limit)}.`
      : `The sum reached ${two(curve.limit)} at case ${curve.crossedAt}. Look at these cases together.`,
  ];
}
