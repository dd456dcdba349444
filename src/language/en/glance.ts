import { lastDay, type Figure, type Glance, type GlanceRate } from "../../audit/index.ts";
import { qualityWords, sayMeasure } from "./count.ts";
import { sayDay } from "./moment.ts";
import { amount, numberOf } from "./number.ts";

const whole = (value: number): string => value.toLocaleString("en-GB", { maximumFractionDigits: 0 });
const rate = (value: number): string => amount(value, "", 2);
const small = (name: string): string => name.charAt(0).toLowerCase() + name.slice(1);
const byTwo = <One>(parts: readonly One[]): readonly (readonly One[])[] =>
  parts.flatMap((_, at) => (at % 2 === 0 ? [parts.slice(at, at + 2)] : []));

/** A rate where the events carry one, else the two counts. */
const sayRate = ({ form, numerator, denominator, value }: Figure): string =>
  form === "estimate with interval" && value !== undefined
    ? `${rate(value)} per 1,000`
    : `${whole(numerator)} in ${whole(denominator ?? 0)} days`;

/** The first sentence of a count: what stands apart from the time before, or that nothing does. */
export function glanceHeadline({ rates }: Glance): string {
  if (rates.length === 0) return "Nothing lies before this period to hold it against.";
  const apart = rates.filter(({ direction }) => direction !== "cannot tell");
  if (apart.length === 0) return "Nothing can be told apart from the time before.";
  return apart
    .map(
      ({ measure, now, before, direction }) =>
        `${sayMeasure(measure)}, ${direction}: ${sayRate(now)}; before, ${sayRate(before)}.`,
    )
    .join(" ");
}

/** What follows it, a sentence or two each: in and out, the compared rates, what nobody wrote, what to mend first. */
export function glanceLines(glance: Glance): readonly string[] {
  return [...glanceContext(glance), ...glanceMend(glance)];
}

/** The record's fault that most lines share; nothing where there is none. */
export const glanceMend = ({ toMend: [first] }: Pick<Glance, "toMend">): readonly string[] =>
  first ? [`To mend first, ${numberOf(first.lines.length, "line")}: ${small(qualityWords[first.code])}`] : [];

/** What stands behind the first sentence: in and out, the rates that cannot be told apart, what nobody wrote. */
export function glanceContext({ flow, rates, before, neverWritten }: Glance): readonly string[] {
  return [
    `${numberOf(flow.placed, "line")} placed, ${whole(flow.removed)} out, ${
      flow.handedOn > 0 ? `${whole(flow.handedOn)} handed on, ` : ""
    }${whole(flow.inPlace)} still in.${flow.lost > 0 ? ` Nobody knows where ${whole(flow.lost)} ended.` : ""}`,
    ...(rates.length > 0 ? [`Held against ${sayDay(before.from)} to ${sayDay(lastDay(before))}.`] : []),
    ...rates.flatMap(told),
    ...(neverWritten.length > 0
      ? [
          ...byTwo(neverWritten).map(
            (names) => `Never written down: ${names.map((id) => small(sayMeasure(id))).join(", ")}.`,
          ),
          "A zero there may mean that nobody asks.",
        ]
      : []),
  ];
}

const told = ({ measure, now, before, direction }: GlanceRate): readonly string[] =>
  direction === "cannot tell"
    ? [`${sayMeasure(measure)}: ${sayRate(now)}; before, ${sayRate(before)}. They cannot be told apart.`]
    : [];
