import { countPlateWords } from "./count-plate.ts";
import { amount } from "./number.ts";

const whole = (value: number): string => value.toLocaleString("en-GB", { maximumFractionDigits: 0 });
const percentOf = (level: number): string => `${Number((100 * level).toFixed(1))}\u202f%`;

interface Value {
  readonly counted: number;
  readonly over: number;
  readonly value: number | undefined;
  readonly lower: number | undefined;
  readonly upper: number | undefined;
}

/** The sentence, the axes and the table of a rate or a share by its spans. */
export function spanWords({
  title,
  kind,
  overName,
  each,
  interval,
  spans,
  whole: all,
}: {
  readonly title: string;
  readonly kind: "rate" | "share";
  readonly overName: string;
  readonly each: "month" | "quarter" | "year" | "five years";
  readonly interval: { readonly name: string; readonly level: number };
  readonly spans: readonly (Value & { readonly name: string; readonly provisional: boolean })[];
  readonly whole: Value;
}) {
  const say = (value: number | undefined): string =>
    value === undefined ? "none" : kind === "share" ? amount(100 * value, "%", 1) : amount(value, "", 2);
  const range = all.lower === undefined ? "" : `: ${say(all.value)} (${say(all.lower)} to ${say(all.upper)})`;
  const overs = spans.map(({ over }) => over);
  const spread = overs.length > 1 ? `${whole(Math.min(...overs))} to ${whole(Math.max(...overs))} each` : "";
  return {
    sentence: `${title}, ${EACH[each]}: ${whole(all.counted)} in ${whole(all.over)} ${overName}${kind === "share" ? range : ""}.`,
    unit: kind === "share" ? `of ${overName}` : "per 1,000 days",
    tick: (value: number): string => (kind === "share" ? `${value}\u202f%` : countPlateWords.tick(value)),
    whole: `all ${say(all.value)}`,
    under: [
      `${kind === "share" ? "counted" : "events"} in ${overName}`,
      ...(spread === "" ? [] : [spread]),
      `strokes: ${interval.name}, ${percentOf(interval.level)}`,
      "open: none",
    ].join("; "),
    columns: [
      SPAN_NAME[each],
      kind === "share" ? "Counted" : "Events",
      kind === "share" ? "Of" : "Days",
      kind === "share" ? "Share" : "Per 1,000",
      "Lower",
      "Upper",
      "Still provisional",
    ],
    rows: spans.map(({ name, counted, over, value, lower, upper, provisional }) => [
      name,
      whole(counted),
      whole(over),
      say(value),
      say(lower),
      say(upper),
      provisional ? "yes" : "no",
    ]),
  };
}

const EACH = {
  month: "month by month",
  quarter: "by the quarter",
  year: "year by year",
  "five years": "by five years",
} as const;
const SPAN_NAME = { month: "Month", quarter: "Quarter", year: "Year", "five years": "Years" } as const;

/** The words of the plate of a measure's parts; told by `spanWords`, named by their parts. */
export function partsWords({
  parts,
  ...input
}: Omit<Parameters<typeof spanWords>[0], "each" | "spans"> & {
  readonly parts: readonly (Value & { readonly name: string })[];
}) {
  const { kind, overName, interval, title, whole: all } = input;
  const told = spanWords({ ...input, each: "month", spans: parts.map((part) => ({ ...part, provisional: false })) });
  return {
    sentence: `${title} by its parts, in no order of merit: ${whole(all.counted)} in ${whole(all.over)} ${overName}.`,
    tick: told.tick,
    over: (counted: number, over: number): string => `${whole(counted)} in ${whole(over)}`,
    under: `${kind === "share" ? "share" : "per 1,000 days"}; dashes: all; strokes: ${interval.name}, ${percentOf(interval.level)}`,
    columns: ["Part", ...told.columns.slice(1, -1)],
    rows: told.rows.map((row) => row.slice(0, -1)),
  };
}

interface Timed {
  readonly events: number;
  readonly days: number;
  readonly perThousand: number | undefined;
  readonly lower: number | undefined;
  readonly upper: number | undefined;
}

/** The words of the plate that stands first: the compared rates of a period and of the time before it. */
export function thenAndNowWords({
  rates,
  level,
}: {
  readonly level: number;
  readonly rates: readonly {
    readonly name: string;
    readonly now: Timed;
    readonly before: Timed;
    readonly direction: "higher" | "lower" | "cannot tell";
  }[];
}) {
  const two = (value: number | undefined): string => (value === undefined ? "none" : amount(value, "", 2));
  const row = (name: string, when: string, { events, days, perThousand, lower, upper }: Timed, told: string) => [
    name,
    when,
    whole(events),
    whole(days),
    two(perThousand),
    two(lower),
    two(upper),
    told,
  ];
  return {
    title: "This period and as long a time before",
    tick: countPlateWords.tick,
    now: "now",
    before: "before",
    directions: { higher: "higher", lower: "lower" },
    over: (events: number, days: number): string => `${whole(events)} in ${whole(days)}`,
    under: `per 1,000 days; strokes: exact Poisson, ${percentOf(level)}`,
    columns: ["Kind", "When", "Events", "Days", "Per 1,000", "Lower", "Upper", "Against before"],
    rows: rates.flatMap(({ name, now, before, direction }) => [
      row(name, "now", now, direction),
      row(name, "before", before, ""),
    ]),
  };
}
