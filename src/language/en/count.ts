import type {
  AuditReport,
  Figure,
  Measure,
  MeasureFault,
  OutsideFigure,
  QualityCode,
  QualityIssue,
  Silence,
} from "../../audit/index.ts";
import { amount, numberOf } from "./number.ts";
import { sayDay } from "./moment.ts";

/** The name of a measure on screen; one that a service added itself is shown by its own id. */
export const measureWords: Readonly<Record<string, string>> = {
  placed: "Lines placed",
  removed: "Lines removed",
  "in-place": "Lines in place at the end",
  "unknown-end": "Lines whose end nobody knows",
  "handed-on": "Lines handed on",
  declined: "Referrals declined for a good reason",
  "tried-not-placed": "Tried and not placed",
  "line-days-exact": "Line-days, to the minute",
  "line-days-calendar": "Line-days, by the calendar",
  "infection-surveillance": "Bloodstream infections by the surveillance definition",
  "infection-without-mucosal": "Bloodstream infections without mucosal injury",
  "infection-clinical": "Bloodstream infections the ward concluded",
  "infection-paired-culture": "Bloodstream infections shown by paired cultures",
  thrombosis: "Clots seen",
  occlusion: "Blocked lines",
  migration: "Tips that moved",
  dislodgement: "Lines that came out",
  "leak-or-break": "Leaks and breaks",
  "exit-site-infection": "Exit-site infections",
  "any-complication": "All of these together",
  "first-attempt": "In at the first attempt",
  "single-lumen": "Lines with one lumen",
  "ratio-within": "Catheter-to-vein ratio within the limit",
  "middle-third": "Entered in the middle third",
  "tip-well-placed": "Tip well placed",
  "short-stay": "Short stays",
  "low-filtration": "Lines placed with a low eGFR",
  "complete-vein-diameter": "Vein diameter written down",
  "complete-lot": "Lot written down",
  "complete-tip": "Tip read",
  "complete-end-reason": "Reason of removal written down",
  "complete-attempts": "Attempts written down",
  "idle-days": "Idle days of all line-days",
  "overdue-care": "Lines with care overdue",
  "no-owner": "Lines nobody answers for",
  overrides: "Lines with a stop overridden",
};

export const sayMeasure = (id: string): string => measureWords[id] ?? id;

/** What each rule of the record's quality means, and what to do. */
export const qualityWords: Readonly<Record<QualityCode, string>> = {
  T1: "Out before it was in. Left out until mended.",
  T2: "A date later than this table, or before birth. Left out until mended.",
  T3: "No date of placing. Left out until mended.",
  T4: "In and out within a minute. Counted as one minute.",
  T5: "In for very long, or longer than nearly all here. Check the dates.",
  T6: "In place and unseen for long. Find it.",
  T8: "Out without a reason. Never taken as treatment ended.",
  E1: "An event before the line. Not counted.",
  E2: "An event too long after removal. Not counted for the line.",
  E3: "An infection before the line could count by the definition.",
  E4: "The same infection again within its frame. Counted once.",
  E5: "A reason that names an event nobody wrote down.",
  L1: "Two lines in one vein at once. Perhaps one line twice.",
  L2: "The same line twice. The second is left out.",
  C1: "Catheter over vein cannot be. Left out of ratio figures.",
  T7: "Dates known to the month only. Left out of figures over days.",
  T9: "Out because of death, and alive later. Left out until mended.",
  E6: "One infection at two lines. Counted once.",
  L3: "Replaced, and the two lines do not meet. Check both dates.",
  C2: "Size, lumens, length, weight or age cannot be together. Taken as not known.",
  C3: "Written or changed after an event. Check against the first writing.",
  C4: "A value missing too often, or more often with events.",
  D1: "Patient-days missing or fewer than line-days. No share of days for it.",
  D2: "Counted by hand and by machine, too far apart. Not for reports.",
  D3: "A month without a line in or out. Perhaps nobody wrote.",
  T10: "Known here before it was placed. Left out until mended.",
};

const MOST_NAMED = 6;

/** A rule and the lines that break it; of a rule over the whole table also the months or values it speaks of. */
export function sayIssue({ code, lines, about = [] }: QualityIssue): string {
  const more = about.length > MOST_NAMED ? ` and ${about.length - MOST_NAMED} more` : "";
  const named = about.length === 0 ? "" : ` (${about.slice(0, MOST_NAMED).map(plainColumn).join(", ")}${more})`;
  return `${numberOf(lines.length, "line")}${named}: ${qualityWords[code]} Rule ${code}.`;
}

/** A column of the table as people say it: "vein_diameter_mm 36 of 327" is the vein diameter. */
const plainColumn = (about: string): string =>
  about.replace(/^[a-z]+(?:_[a-z]+)+/, (name) => name.replace(/_(mm|fr|percent|key)$/, "").replaceAll("_", " "));

const whole = (value: number): string => value.toLocaleString("en-GB", { maximumFractionDigits: 1 });
const rate = (value: number): string => amount(value, "", 2);
const share = (value: number): string => amount(value * 100, "%", 1);
const LEVEL = (level: number): string => `${Number((level * 100).toFixed(1))}\u202f%`;

/**
 * A figure as one line: count, over what, value, interval and its name, rows used of rows given. A percentage never
 * stands without its numbers; under a few events the count and the interval come first.
 */
export function sayFigure(figure: Figure | OutsideFigure, measure: Measure): string {
  const { numerator, denominator, value, interval, used, given, form } = figure;
  const name = sayMeasure(measure.id);
  if (numerator === "withheld" || denominator === "withheld")
    return `${name}: withheld, for it is small or would tell one that is.`;
  const isRate = measure.numerator.count === "events";
  const say = isRate ? rate : share;
  const over = isRate ? measure.clock : measure.denominator;
  // a nought would be a claim where nothing was asked
  if (form === "nothing to count over")
    return numerator > 0
      ? `${name}: ${whole(numerator)}; nothing to count over.`
      : used === 0 && given !== undefined && given > 0
        ? `${name}: known for none of ${whole(given)}.`
        : `${name}: nothing to count over.`;
  if (form === "never written down") return sayNeverWritten(measure, { denominator });
  if (denominator === undefined || value === undefined) return `${name}: ${whole(numerator)}.`;
  const count = `${whole(numerator)} in ${whole(denominator)} ${over}`;
  const range = interval.limits && `${say(interval.limits.lower)} to ${say(interval.limits.upper)}`;
  const unit = isRate ? " per 1,000" : "";
  const figures =
    range === undefined
      ? say(value)
      : form === "upper limit only"
        ? `at most ${say(interval.limits?.upper as number)}${unit} (${interval.name}, ${LEVEL(interval.level)})`
        : form === "count only, interval first"
          ? `${range}${unit} (${interval.name}, ${LEVEL(interval.level)}), by few events`
          : `${say(value)}${unit} (${range}, ${interval.name}, ${LEVEL(interval.level)})`;
  const rows = used === undefined || given === undefined ? [] : [`${whole(used)} of ${whole(given)} rows used.`];
  // it is of the whole table, so the whole says it and no part again
  const unwritten = figure.stratum ? [] : sayUnwritten(figure);
  return [`${name}: ${count}: ${figures}.`, ...rows, ...unwritten].join(" ");
}

/** The kinds a sum over all kinds is without, said once; nothing where every kind was written at least once. */
export function sayUnwritten({ unwritten = [] }: Pick<Figure, "unwritten">): readonly string[] {
  const [first, more] = [unwritten.slice(0, 2), unwritten.slice(2)];
  return [
    ...(first.length > 0 ? [`Not in it, for nobody ever wrote one: ${first.join(", ")}.`] : []),
    ...(more.length > 0 ? [`Nor: ${more.join(", ")}.`] : []),
  ];
}

/** Instead of a rate: the table holds no word of such an event, so its nought is no claim. */
export const sayNeverWritten = (
  { id, clock }: Measure,
  { denominator = 0 }: { readonly denominator: number | undefined },
): string =>
  `${sayMeasure(id)}: none written in ${whole(denominator)} ${clock}, none in the whole table. Perhaps nobody asks.`;

/** Of a whole table: that nobody ever wrote such an event, or which kinds a sum over all kinds is without. */
export const saySilence = (id: Measure["id"], { neverWritten, unwritten }: Silence): readonly string[] =>
  neverWritten
    ? [`${sayMeasure(id)}: none written in the whole table. Perhaps nobody asks.`]
    : sayUnwritten({ unwritten });

/** What the missing could do to a figure, or nothing when nothing is missing. */
export function sayGaps(figure: Figure | OutsideFigure, measure: Measure): string | undefined {
  const { missing } = figure;
  if (!missing?.bounds || missing.count === 0 || figure.form === "nothing to count over") return undefined;
  const say = measure.numerator.count === "events" ? rate : share;
  return `Not known for ${whole(missing.count)}: between ${say(missing.bounds.lower)} and ${say(missing.bounds.upper)}, whatever they were.`;
}

/** The part of a figure that may still change. */
export const sayProvisional = (figure: Figure, report: Pick<AuditReport, "provisionalFrom">): string | undefined =>
  figure.provisional > 0
    ? `Of these ${whole(figure.provisional)} since ${sayDay(report.provisionalFrom)}, still provisional.`
    : undefined;

export const sayMeasureFault = ({ measure, field, found, rule }: MeasureFault): string =>
  `Measure ${measure || "without an id"}, ${field || "file"}: found ${found}; the rule is ${rule}. Correct the file.`;
