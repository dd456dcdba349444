import type {
  ArmMap,
  Curves,
  Figure,
  HazardAnswer,
  Measure,
  OutsideFigure,
  Pooled,
  ServiceMonitor,
} from "../../audit/index.ts";
import type { CivilDate } from "../../core/calendar/index.ts";
import { sayMeasure } from "./count.ts";
import { sayDay } from "./moment.ts";
import { amount, numberOf } from "./number.ts";

// The first sentence of each command on a line table: what a person in a hurry asked, before what it rests on.

const two = (value: number): string => amount(value, "", 2);
const percent = (share: number): string => `${amount(share * 100, "", 1)} %`;
const whole = (value: number): string => value.toLocaleString("en-GB", { maximumFractionDigits: 1 });
const and = (names: readonly string[]): string =>
  [names.slice(0, -1).join(", "), names.at(-1)].filter(Boolean).join(" and ");

/** All complications of the period in one sentence. */
export function ratesAnswer({
  form,
  numerator,
  denominator,
  value,
  interval: { limits },
}: Figure | OutsideFigure): string {
  if (numerator === "withheld" || denominator === "withheld")
    return "All complications together: withheld, for few are.";
  if (form === "never written down") return "No complication is written in the whole table. Perhaps nobody asks.";
  if (form === "nothing to count over") return "No line was in place in this period.";
  const over = `${whole(numerator)} in ${numberOf(Math.round(denominator as number), "line-day")}`;
  return form === "estimate with interval" && value !== undefined && limits
    ? `All complications together: ${over}, ${two(value)} per 1,000 (${two(limits.lower)} to ${two(limits.upper)}).`
    : `All complications together: ${over}.`;
}

/** The latest day that can be read, or how groups compare. */
export function curvesAnswer(id: Measure["id"], { curves, logRank, fewest, used }: Curves): string {
  const name = sayMeasure(id);
  if (used === 0) return `${name}: no line could be followed.`;
  const events = curves.reduce((sum, curve) => sum + curve.events, 0);
  if (events < fewest) return `${name}: ${events} in ${numberOf(used, "line")}, too few for a chance.`;
  if (logRank)
    return `${name}, ${events} in ${numberOf(used, "line")}: groups differ ${logRank.apart ? "more" : "no more"} than chance.`;
  const [curve] = curves;
  const read = curve?.points.findLast(({ grey, day }) => !grey && day > 0);
  if (!curve || curve.tooFew || !read) return `${name}: ${events} in ${numberOf(used, "line")}, too few for a chance.`;
  const { incidence, lower, upper, day } = read;
  const range = lower === undefined || upper === undefined ? "" : ` (${percent(lower)} to ${percent(upper)})`;
  return `${name}: by day ${day} in ${percent(incidence)}${range} of ${numberOf(used, "line")}.`;
}

/** Which factors go with the event, beyond chance. */
export function hazardAnswer(id: Measure["id"], answer: HazardAnswer): string {
  const name = sayMeasure(id);
  if (answer.kind !== "fitted") return `${name}: no ratio can be told.`;
  const apart = answer.ratios.filter(({ lower, upper }) => lower > 1 || upper < 1);
  if (apart.length === 0) return `${name}: no factor can be told from chance, by ${numberOf(answer.events, "event")}.`;
  const said = apart.map(({ factor, ratio }) => `${factor} goes with ${ratio > 1 ? "more" : "fewer"}`);
  return `${name}: ${and(said)}, by ${numberOf(answer.events, "event")}.`;
}

/** Whether to look. */
export function monitorAnswer({ charts, plan }: ServiceMonitor): string {
  const signalled = charts.flatMap(({ measure, watch }) =>
    watch && watch.signals.length > 0 ? [{ measure, watch }] : [],
  );
  if (signalled.length > 0) {
    const many = signalled.reduce((sum, { watch }) => sum + watch.signals.length, 0);
    return `Look: ${numberOf(many, "signal")}. ${and(signalled.map(({ measure }) => sayMeasure(measure)))}.`;
  }
  return plan.alarms === 0
    ? "No alarm is kept here, so none could be raised."
    : `No signal: ${numberOf(plan.alarms, "alarm")} kept, of ${numberOf(charts.length, "kind")} of event.`;
}

/** Where the rate differs, if it does. */
export function mapsAnswer(id: Measure["id"], maps: readonly ArmMap[]): string {
  const name = sayMeasure(id);
  if (maps.every(({ used }) => used === 0)) return `${name}: no line of this period can be placed on a map.`;
  const events = Math.max(...maps.map(({ cells }) => cells.reduce((sum, cell) => sum + cell.events, 0)));
  if (events === 0) return `${name}: none in this period.`;
  const along = (axes: readonly ArmMap[]): string => and(axes.map(({ axis }) => axis));
  const uneven = maps.filter(({ flat }) => !flat);
  return uneven.length > 0
    ? `${name}: not even by ${along(uneven)}, ${numberOf(events, "event")}. Read the limits.`
    : `${name}: no difference shows, by ${numberOf(events, "event")}.`;
}

/** Instead of an answer where a table holds nothing yet. */
export const noLineYet = "There is no line in this table yet: nothing can be counted.";

/** Instead of an answer where every line lies after the day of the table. */
export const allLater = (lines: number, day: string): string =>
  `Nothing was in place by ${day}: all ${numberOf(lines, "line")} lie later. Check --as-of.`;

/** Instead of a chart in the first year of a table: what a base is, and the day to ask for. */
export function noBase(
  { placedFrom, from, to }: Readonly<Record<"placedFrom" | "from" | "to", CivilDate>>,
  isGiven: boolean,
  least: number,
): string {
  if (isGiven) return "The base must begin before the period. Name an earlier --base-from, or a later --from.";
  return [
    `No line was placed before ${sayDay(from)}: there is nothing to hold this period against.`,
    ...(placedFrom < to ? [`The first line is of ${sayDay(placedFrom)}. What lies before --from is the base.`] : []),
    `Name a later --from: a base has at least ${numberOf(least, "event")} of a kind.`,
  ].join(" ");
}

/** Beside an answer that some lines are not in. */
export const leftOutUntilMended = (out: number, all: number): string =>
  `${whole(out)} of ${numberOf(all, "line")} ${out === 1 ? "is" : "are"} left out until mended; audit names them.`;

export const chartHelp =
  "The base is what lies before --from. --target A=1.5 is an agreed rate per 1,000 in its place.";

/** Whether two groups of services counted together can be told apart. */
export function pooledAnswer({ measure, groups: [one = "", other = ""], mantelHaenszel }: Pooled): string {
  const name = sayMeasure(measure);
  if (!mantelHaenszel || typeof mantelHaenszel === "string") return `${name}: no ratio can be told.`;
  const { lower, upper } = mantelHaenszel.ratio;
  if (lower > 1 || upper < 1) return `${name}: ${lower > 1 ? "more" : "fewer"} with ${one} than with ${other}.`;
  return `${name}: ${one} and ${other} cannot be told apart.`;
}
