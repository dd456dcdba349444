import type { Figure, LineRow, Measure, ReferralRow } from "../../audit/index.ts";
import { localDate } from "../../core/dwell/index.ts";
import { isKnown } from "../../core/missing/index.ts";
import { sayNeverWritten, sayUnwritten } from "./count.ts";
import { amount, numberOf } from "./number.ts";
import { sayDay } from "./moment.ts";

const whole = (value: number): string => value.toLocaleString("en-GB", { maximumFractionDigits: 1 });

/** The number a row leads with: never a rate on few events, never a percentage, always what it is over. */
export function figureNumber(figure: Figure, measure: Measure): { readonly value: string; readonly over: string } {
  const { numerator, denominator, value, form } = figure;
  if (form === "never written down") return { value: "\u2013", over: "never written down" };
  if (denominator === undefined) return { value: whole(numerator), over: "" };
  // a nought would be a claim where nothing was asked
  if (form === "nothing to count over")
    return figure.given > 0
      ? { value: "\u2013", over: `known for none of ${whole(figure.given)}` }
      : { value: "\u2013", over: "nothing to count over" };
  if (measure.numerator.count !== "events") return { value: whole(numerator), over: `of ${whole(denominator)}` };
  if (form === "estimate with interval" && value !== undefined)
    return { value: amount(value, "", 2), over: `per 1,000, ${whole(numerator)} in ${whole(denominator)}` };
  return { value: whole(numerator), over: `in ${whole(denominator)} days` };
}

/** The sum behind a number, in the order it is worked out. */
export function sumLines(figure: Figure, measure: Measure): readonly string[] {
  const { numerator, denominator, value, interval, used, given } = figure;
  const rows = `${whole(used)} of ${whole(given)} rows could be used.`;
  if (denominator === undefined) return [`${whole(numerator)} counted.`, rows];
  if (figure.form === "never written down") return [sayNeverWritten(measure, figure)];
  if (value === undefined) return [`${whole(numerator)} over ${whole(denominator)}: no sum can be made.`, rows];
  const isRate = measure.numerator.count === "events";
  const sum = isRate
    ? `${whole(numerator)} ÷ ${whole(denominator)} ${measure.clock} × 1,000 = ${amount(value, "", 2)}`
    : `${whole(numerator)} ÷ ${whole(denominator)} = ${amount(value, "", 3)}`;
  const shown = (limit: number) => (isRate ? amount(limit, "", 2) : amount(limit, "", 3));
  const range =
    interval.limits === undefined
      ? `No interval: ${interval.name.replace("none: ", "")}.`
      : `Interval, ${interval.name}, ${Number((interval.level * 100).toFixed(1))} %: ${shown(interval.limits.lower)} to ${shown(interval.limits.upper)}.`;
  return [sum, range, rows, ...sayUnwritten(figure)];
}

/** A line of a list without a name: arm, ward and day, or its key alone where nothing is known. */
export function rowWords(row: LineRow): string {
  const parts = [
    isKnown(row.side) ? row.side.toUpperCase() : "",
    isKnown(row.ward) ? row.ward : "",
    row.placed ? `placed ${sayDay(localDate(row.placed))}` : "",
  ].filter((part) => part !== "");
  return parts.length === 0 ? row.key : parts.join(", ");
}

export const referralRowWords = (row: ReferralRow): string =>
  `${isKnown(row.ward) ? `${row.ward}, ` : ""}called ${sayDay(localDate(row.receivedOn))}, ${row.outcome}`;

/** How the figures of the page are grouped, each group with what it asks. */
export const countGroups: readonly (readonly [title: string, holds: (measure: Measure) => boolean])[] = [
  ["In, out, still in", ({ id, denominator }) => denominator === "none" || id === "declined"],
  ["What went wrong, over line-days", ({ numerator }) => numerator.count === "events"],
  ["How it was placed", ({ denominator, id }) => denominator === "lines placed" && !id.startsWith("complete-")],
  ["What is written down", ({ id }) => id.startsWith("complete-")],
  ["What is left to do", () => true],
];

export const countWords = {
  title: "Count",
  lead: "How the service does. Press a number to see its sum and its lines.",
  rehearsal: "An invented service, for practice. Nothing here is real.",
  record: "The record on this device",
  noLines: "No line was placed yet. Place one, or open a line table.",
  noRule: "No surveillance definition of that time is kept. Ask for a later period.",
  openFile: "Open a line table (CSV)",
  toImport: "Import a spreadsheet of your own",
  countAgreed: (file: string, by: string) => `Count ${file}, agreed by ${by}`,
  readingFile: "Reading the file",
  readingStopped: "The reading was stopped. Nothing was opened.",
  notRead: "The file could not be read on this device. Nothing was opened.",
  closeFile: "Back to the record on this device",
  faults: (count: number, name: string) =>
    `${name} has ${count} faults. Nothing was taken. Mend them and open it again.`,
  used: (used: number, given: number) => `${whole(used)} of ${whole(given)} lines used.`,
  hiddenLines: (count: number) => `${whole(count)} more lines are not shown here.`,
  noneCounted: "No line is counted here.",
  ownTitle: "One person's own lines",
  ownWarning: "For that person and their trainer. Never set beside another's.",
  ownPress: "I am that person, or their trainer",
  ownAsk: "Whose lines?",
  ownNone: "No line names who placed it.",
  splitNone: "Not split",
  pack: "The month's four pages, to print",
  paper: "Paper",
  paperA4: "A4",
  paperLetter: "US Letter",
  counting: (lines: number) => `Checking ${numberOf(lines, "line")} ...`,
  more: "More of this period",
  ask: "Another period or another table",
  glancePlate: "The compared rates of this period, over those of as long a time before.",
  printHead: (name: string, from: string, to: string) => `Count. ${name}. ${from} to ${to}.`,
} as const;
