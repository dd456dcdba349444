import type { Figure, Measure, OutsideFigure } from "../../audit/index.ts";
import { sayMeasure } from "./count.ts";
import { amount } from "./number.ts";

const whole = (value: number): string => value.toLocaleString("en-GB", { maximumFractionDigits: 1 });
const two = (value: number): string => amount(value, "", 2);
type Shown = Figure | OutsideFigure;

/**
 * The parts of a count, a line to each part and not one to each of its measures: with forty wards that is forty lines.
 * A rate stands only where events carry one, and always with what it is over.
 */
export function partLines(figures: readonly Shown[], measures: readonly Measure[]): readonly string[] {
  const byId = new Map(measures.map((measure) => [measure.id, measure]));
  const parts = new Map<string, Shown[]>();
  for (const figure of figures) {
    // what nobody ever wrote is said once, of the whole
    if (!figure.stratum || !byId.has(figure.measure) || figure.form === "never written down") continue;
    const name = `${figure.stratum.by} ${figure.stratum.value}`;
    const own = parts.get(name);
    if (own) own.push(figure);
    else parts.set(name, [figure]);
  }
  if (parts.size === 0) return [];
  return [
    "",
    "In parts; --measure names one to read with its limits and gaps, --json has all:",
    ...[...parts].map(
      ([name, own]) => `  ${name}: ${own.map((one) => cellOf(one, byId.get(one.measure) as Measure)).join("; ")}.`,
    ),
  ];
}

function cellOf({ numerator, denominator, value, form, interval: { limits } }: Shown, measure: Measure): string {
  const name = sayMeasure(measure.id);
  if (numerator === "withheld" || denominator === "withheld") return `${name} withheld`;
  if (form === "nothing to count over" || denominator === undefined) return `${name} nothing to count over`;
  const isRate = measure.numerator.count === "events";
  const count = `${name} ${whole(numerator)} ${isRate ? "in" : "of"} ${whole(denominator)}`;
  return isRate && form === "estimate with interval" && value !== undefined && limits
    ? `${count}, ${two(value)} per 1,000 (${two(limits.lower)} to ${two(limits.upper)})`
    : count;
}
