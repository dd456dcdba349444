import type { Beside, Difference, Measure, Yardstick, YardstickFault } from "../../audit/index.ts";
import { sayMeasure } from "./count.ts";

const whole = (value: number): string => value.toLocaleString("en-GB", { maximumFractionDigits: 0 });
const digitsOf = (value: number): number => String(value).split(".")[1]?.length ?? 0;
/** As many digits as the source printed, and no more: a value and its limits alike. */
function asPrinted({ value, unit, interval }: Yardstick): (number: number) => string {
  const digits = Math.max(...[value, interval?.lower ?? 0, interval?.upper ?? 0].map(digitsOf));
  return (number) =>
    unit === "share" ? `${(number * 100).toFixed(Math.max(0, digits - 2))} %` : number.toFixed(digits);
}
const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/** Said once after every published figure. */
export const notYours = "Their lines are not yours.";

/** A published figure with its days, its people and what was counted: context, without a word of judgement. */
export function sayYardstick(yardstick: Yardstick): string {
  const { value, unit, interval, counted, over, clock, denominator, population, lines, country, definition } =
    yardstick;
  const say = asPrinted(yardstick);
  const range = interval && ` (${say(interval.lower)} to ${say(interval.upper)})`;
  const per = unit === "share" ? ` of ${denominator}` : ` per 1,000 ${clock}`;
  const counts = counted !== null && over !== null ? `, ${whole(counted)} in ${whole(over)}` : "";
  const size = lines === null ? "" : `; ${whole(lines)} lines`;
  const where = country === "not seen" ? "" : `, ${country}`;
  return [
    `Elsewhere: ${say(value)}${range ?? ""}${per}${counts}.`,
    `${capital(population)}${where}${size}.`,
    `Counted: ${definition}.`,
  ].join(" ");
}

/** Where a published figure comes from and how far it is known. */
export function yardstickSource({ source, section, howKnown, valueFrom, clockHowKnown, clock }: Yardstick): string {
  return [
    `${source}, ${section}, ${howKnown}`,
    ...(valueFrom === "worked out" ? ["worked out from its counts"] : []),
    ...(clock === "none" ? [] : [`clock: ${clockHowKnown}`]),
  ].join("; ");
}

const DIFFERS: Readonly<Record<Difference["of"], (one: Difference) => string>> = {
  clock: (one) => ("theirs" in one ? `counted in ${one.theirs}` : ""),
  denominator: (one) => ("theirs" in one ? `counted over ${one.theirs}` : ""),
  definition: (one) => ("words" in one ? one.words : ""),
};

/** A published figure that is counted otherwise: what differs, and not its number. */
export const sayApart = ({ yardstick, differences }: Beside["apart"][number]): string =>
  `Not put beside yours: ${yardstick.population}. ${capital(differences.map((one) => DIFFERS[one.of](one)).join("; "))}.`;

/** For paper: the figures counted alike on one line, by whose lines they were. */
export const elsewhereLine = (measure: Measure, { alike }: Beside): string => {
  const each = alike.map((one) => `${asPrinted(one)(one.value)} (${one.place})`).join(", ");
  const over = measure.denominator === "line days" ? ` per 1,000 ${measure.clock}` : ` of ${measure.denominator}`;
  return `${sayMeasure(measure.id)}, elsewhere: ${each}${over}.`;
};
export const elsewhereFoot = `${notYours} No target is meant.`;
export const nothingAlike = (names: readonly string[]): string =>
  `Published figures are counted otherwise, so none stands here: ${names.join(", ")}.`;

export const sayYardstickFault = ({ yardstick, field, found, rule }: YardstickFault): string =>
  `Published figure ${yardstick || "without an id"}, ${field || "file"}: found ${found}; the rule is ${rule}. Correct the file.`;
