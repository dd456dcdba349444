import type { Guard, RateAnswer, RateModel } from "../../audit/index.ts";
import { modelGuard, modelUnanswered, sparseLines } from "./guard.ts";
import { amount } from "./number.ts";

const two = (value: number): string => (value === Infinity ? "no upper end" : amount(value, "", 2));
const whole = (value: number): string => value.toLocaleString("en-GB", { maximumFractionDigits: 0 });

type Ratio = RateModel["ratios"][number];
const ratioLine = ({ factor, step, ratio, lower, upper }: Ratio): string =>
  `  ${factor}, ${step}: ${two(ratio)} (${two(lower)} to ${two(upper)}).`;

function sharedLines(shared: NonNullable<RateModel["shared"]>): readonly string[] {
  if (shared.kind === "no fit") return [`What a ${shared.by} shares could not be fitted.`];
  const groups = `${whole(shared.groups)} ${shared.by}s`;
  if (shared.kind === "no spread") return [`Beyond this, ${groups} differ no more than by chance.`];
  const times = Math.exp(shared.spread);
  return [
    `Beyond this and chance, ${groups} differ: typically ${two(1 / times)} to ${two(times)} times the middle one.`,
    ...(shared.groups < FEW ? [`${groups} are few: that spread is itself hardly known.`] : []),
    ...shared.ratios.map((one) => ratioLine(one).replace("  ", `  Within one ${shared.by}, `)),
  ];
}

const FEW = 10;

/** Ratios of a rate as lines, or why there are none. */
export function rateModelLines(answer: RateAnswer, factors: number, guards: readonly Guard[] = []): readonly string[] {
  const used = `${whole(answer.used)} of ${whole(answer.given)} lines used.`;
  if (answer.kind !== "fitted") return modelUnanswered(answer, factors, used);
  return [
    `${whole(answer.events)} events in ${whole(answer.days)} ${answer.clock}. ${used} ${answer.method}.`,
    ...sparseLines(guards),
    ...modelGuard(answer.guard, { events: answer.events, factors }, answer.separated),
    "Ratios of the rate, limits of 95 in 100 by profile likelihood:",
    ...answer.ratios.map(ratioLine),
    ...(answer.shared ? sharedLines(answer.shared) : []),
    "A ratio is no cause. Sicker people get larger lines.",
  ];
}
