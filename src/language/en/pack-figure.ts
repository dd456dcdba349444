import type { Figure, Measure } from "../../audit/index.ts";
import { amount } from "./number.ts";

/** Under so many, a share is printed in lines alone, its limits too. */
export const FEW = 30;

const whole = (value: number): string => value.toLocaleString("en-GB", { maximumFractionDigits: 1 });
const over = (value: number): string => value.toLocaleString("en-GB", { maximumFractionDigits: 0 });
const two = (value: number): string => amount(value, "", 2);
const one = (value: number): string => amount(value, "", 1);
const inPercent = (value: number): string => amount(value * 100, "", 0);
/** Two digits that matter, where a column is narrow. */
const near = (value: number): string => (value < 10 ? amount(value, "", value < 1 ? 2 : 1) : over(value));

export const small = (name: string): string => name.charAt(0).toLowerCase() + name.slice(1);

/** Count and what it is over. */
export function countedWords({ numerator, denominator, interval, given }: Figure): string {
  if (denominator === undefined) return whole(numerator);
  if (denominator === 0) return given > 0 ? "not known" : "none";
  return `${whole(numerator)} ${interval.name === "exact binomial" ? "of" : "in"} ${over(denominator)}`;
}

/** How a figure's value and limits are said: a rate per 1,000, a share in per cent, a share of few in lines. */
function scaleOf({ denominator = 0 }: Figure, isRate: boolean, say: (value: number) => string) {
  if (isRate) return { say, unit: "" };
  if (denominator >= FEW) return { say: inPercent, unit: " %" };
  return { say: (share: number) => one(share * denominator), unit: "" };
}

/** A rate or a share with its exact limits; of few events and of few lines the limits alone. */
export function limitedWords(figure: Figure, measure: Measure): string {
  const { value, denominator, interval, form } = figure;
  if (denominator === undefined || value === undefined) return "";
  const isRate = measure.numerator.count === "events";
  const { say, unit } = scaleOf(figure, isRate, two);
  if (!interval.limits) return `${say(value)}${unit}`;
  const { lower, upper } = interval.limits;
  const range = `${say(lower)} to ${say(upper)}`;
  if (!isRate && denominator < FEW) return range;
  if (form === "upper limit only") return `at most ${say(upper)}${unit}`;
  return form === "count only, interval first" ? `${range}${unit}` : `${say(value)}${unit} (${range})`;
}

/** "6 in 784: 7.66 (2.81 to 16.67)", "17 of 29 (11.3 to 22.2)". */
export function figureWords(figure: Figure, measure: Measure): string {
  const [count, limits] = [countedWords(figure), limitedWords(figure, measure)];
  if (limits === "") return count;
  const few = measure.numerator.count !== "events" && (figure.denominator ?? 0) < FEW;
  return few ? `${count} (${limits})` : `${count}: ${limits}`;
}

/** "3 in 1,204; 0.51 to 7.3", "12 of 14; 8.0 to 13.8", "271 of 349; 73 to 82 %"; "none" with nothing to count over. */
export function splitCell(figure: Figure | undefined, star = ""): string {
  if (!figure || figure.denominator === undefined || figure.denominator === 0) return "none";
  if (figure.form === "never written down") return "never written";
  const isRate = figure.interval.name !== "exact binomial";
  const { limits } = figure.interval;
  const count = countedWords({ ...figure, numerator: Math.round(figure.numerator) });
  if (!limits) return count + star;
  const { say, unit } = scaleOf(figure, isRate, near);
  if (!isRate && figure.numerator === figure.denominator)
    return `${count}; at least ${say(limits.lower)}${unit}${star}`;
  return figure.numerator === 0
    ? `${count}; at most ${say(limits.upper)}${unit}${star}`
    : `${count}; ${say(limits.lower)} to ${say(limits.upper)}${unit}${star}`;
}

/** What a person typed, as far as it has room; where the rest stands is said. */
export function cutShort(text: string, most: number): string {
  if (text.length <= most) return text;
  const cut = text.slice(0, most);
  const atWord = cut.lastIndexOf(" ");
  return `${(atWord > most / 2 ? cut.slice(0, atWord) : cut).trimEnd()} … (the rest is on the page)`;
}
