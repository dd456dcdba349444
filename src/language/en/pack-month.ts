import type { Figure, Measure, MonthFigure, MonthPack, QualityIssue } from "../../audit/index.ts";
import { qualityWords, sayMeasure } from "./count.ts";
import { sayDay } from "./moment.ts";
import { amount, numberOf } from "./number.ts";
import { monthGuardLines, onePersonWords } from "./pack-doubt.ts";
import { countedWords, FEW, figureWords, limitedWords, small } from "./pack-figure.ts";
import { outcomeOf } from "./pack-sheet.ts";

const whole = (value: number): string => value.toLocaleString("en-GB", { maximumFractionDigits: 1 });
const over = (value: number): string => value.toLocaleString("en-GB", { maximumFractionDigits: 0 });

/** Alone in a sentence, this measure's name would point at rows that are not there. */
const together = (id: string): string => (id === "any-complication" ? "All events together" : sayMeasure(id));

const past = (before: Figure | undefined, measure: Measure): string =>
  before === undefined || (before.value === undefined && (before.given === 0 || before.used > 0))
    ? "none"
    : figureWords(before, measure);

/** One kind of event: its count over its days, its rate with limits, the twelve months before, and what may be read. */
export function packEventRow(
  { now, before, direction }: MonthFigure,
  measure: Measure,
  guards: Pick<MonthPack["guards"], "month" | "before">,
): readonly string[] {
  const notes = [
    now.unwritten ? `without ${numberOf(now.unwritten.length, "kind")} nobody ever wrote` : "",
    direction ?? "",
    now.missing.count > 0 ? `${whole(now.missing.count)} not known` : "",
    now.provisional > 0 ? `${whole(now.provisional)} provisional` : "",
    ...onePersonWords(guards.month, measure.id),
    ...onePersonWords(guards.before, measure.id).map((words) => `before, ${words}`),
  ].filter((note) => note !== "");
  const clock = measure.clock === "calendar line-days, both ends" ? ", calendar days" : "";
  return [
    `${sayMeasure(measure.id)}${clock}`,
    countedWords(now),
    limitedWords(now, measure),
    past(before, measure),
    notes.join("; "),
  ];
}

/** One share of lines: this month and the twelve before, a percentage only beside its numbers and only of many. */
export const packShareRow = ({ now, before }: MonthFigure, measure: Measure): readonly string[] => [
  sayMeasure(measure.id),
  figureWords(now, measure),
  past(before, measure),
];

const list = (parts: readonly string[]): string =>
  parts.length < 2 ? parts.join("") : `${parts.slice(0, -1).join(", ")} and ${parts.at(-1)}`;

/** Every sentence of the pack's first page. */
export const monthWords = {
  lastAction: "Last month's action",
  noAction: "None was written down.",
  what: ({ what }: NonNullable<MonthPack["action"]>): string => what.replace(/\.?$/, "."),
  who: (action: NonNullable<MonthPack["action"]>): string =>
    `${action.owner}, due ${sayDay(action.dueOn)}: ${outcomeOf(action)}.`,
  moved: ({ measure, moved }: NonNullable<MonthPack["action"]>): string => {
    const direction = moved?.direction;
    const name = sayMeasure(measure);
    if (!moved || moved.neverWritten || direction === undefined) return `${name}: nothing to compare.`;
    const told =
      direction === "cannot tell"
        ? "cannot tell it from the twelve months before"
        : `${direction} than the twelve months before`;
    const unit = moved.now.interval.name === "exact binomial" ? "" : " line-days";
    return `${name}: ${told}. ${countedWords(moved.now)}${unit}; before, ${moved.before ? countedWords(moved.before) : "none"}.`;
  },
  placed: "Lines placed",
  removed: "Lines out",
  inPlace: "Still in",
  lost: "End not known",
  days: "Line-days",
  ofPeriod: ({ denominator }: Figure): string => (denominator === undefined ? "" : `of ${over(denominator)} lines`),
  byCalendar: ({ numerator }: Figure): string => `${whole(numerator)} by the calendar`,
  bare: ({ now }: MonthFigure, measure: Measure): string => `${sayMeasure(measure.id)}: ${countedWords(now)}.`,
  instead: (pack: MonthPack): string =>
    `Instead of a PICC: ${pack.declinedInstead.map(({ instead, referrals }) => `${instead} ${referrals}`).join(", ")}.`,
  events: "What happened, against the twelve months before",
  apart: (figures: readonly MonthFigure[]): string => {
    const compared = figures.filter(({ direction }) => direction !== undefined);
    if (compared.length === 0) return "Nothing lies before this month to hold it against.";
    const told = (word: "higher" | "lower") =>
      compared.filter(({ direction }) => direction === word).map(({ now }) => together(now.measure));
    const [higher, lower] = [told("higher"), told("lower")];
    if (higher.length + lower.length === 0) return "Nothing can be told apart from the twelve months before.";
    return [
      ...(higher.length > 0 ? [`Higher: ${list(higher.map(small))}.`] : []),
      ...(lower.length > 0 ? [`Lower: ${list(lower.map(small))}.`] : []),
    ].join(" ");
  },
  eventHead: ["", "This month", "Per 1,000 (95 %)", "Twelve months before", "Read"] as const,
  never: (ids: readonly string[]): string =>
    `Never written down: ${ids.map((id) => small(sayMeasure(id))).join("; ")}. A zero there may mean that nobody asks.`,
  enough: (enough: MonthPack["enough"]): string =>
    enough
      .map(
        ({ measure, expectedInMonth, events }) =>
          `${sayMeasure(measure)}: ${amount(expectedInMonth, "", 1)} expected a month; ${events} would be noticed.`,
      )
      .join(" "),
  guards: monthGuardLines,
  /** The rules by which a figure of these rows was refused. */
  refused: (figures: readonly Figure[], fewest: number): readonly string[] =>
    figures.some(({ form }) => form === "count only, interval first")
      ? [`Under ${fewest} events no rate is told, only its limits (common practice, your policy).`]
      : [],
  fewLines: (figures: readonly Figure[]): readonly string[] =>
    figures.some(({ denominator = FEW }) => denominator > 0 && denominator < FEW)
      ? [`Of fewer than ${FEW} lines no percentage is told: the limits are lines too (common practice).`]
      : [],
  shares: "How they were placed, and how they went",
  shareHead: ["", "This month (95 %)", "Twelve months before (95 %)"] as const,
  record: "What the record lacks",
  /** Of the measures of completeness: how many lack it, of how many. */
  lacking: (figures: readonly Figure[]): readonly string[] => {
    const groups = new Map<number, string[]>();
    for (const { measure, numerator, denominator = 0 } of figures) {
      if (denominator <= numerator) continue;
      const own = groups.get(denominator) ?? [];
      groups.set(denominator, [
        ...own,
        `${LACKS[measure] ?? small(sayMeasure(measure))} ${whole(denominator - numerator)}`,
      ]);
    }
    return [...groups].map(([denominator, parts]) => `Not written, of ${over(denominator)} lines: ${list(parts)}.`);
  },
  nothingLacks: "Diameter, lot, tip, attempts and reason are written for every line.",
  unknown: (figures: readonly Figure[]): string =>
    `Known for no line: ${figures.map(({ measure, given }) => `${small(sayMeasure(measure))} (${whole(given)})`).join("; ")}.`,
  /** The most frequent faults; the others are on the Count page. */
  faults: (issues: readonly QualityIssue[], mostFaults: number): readonly string[] => {
    const most = [...issues].sort((a, b) => b.lines.length - a.lines.length);
    const rest = most.length - mostFaults;
    return [
      ...most
        .slice(0, mostFaults)
        .map(
          ({ code, lines }) =>
            `${whole(lines.length)} ${lines.length === 1 ? "line" : "lines"}, ${code}: ${qualityWords[code]}`,
        ),
      ...(rest > 0 ? [`${rest} more kinds of fault: see the Count page.`] : []),
    ];
  },
} as const;

const LACKS: Readonly<Record<string, string>> = {
  "complete-vein-diameter": "vein diameter",
  "complete-lot": "lot",
  "complete-tip": "tip",
  "complete-end-reason": "reason of removal",
  "complete-attempts": "attempts",
};
