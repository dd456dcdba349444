import type { Beginning, BeginningOf, Guard, Measure, MonthPack, PackGuard } from "../../audit/index.ts";
import { addDays, type CivilDate } from "../../core/calendar/index.ts";
import { toShowSentence } from "./count-more.ts";
import { sayMeasure } from "./count.ts";
import { sparseLines } from "./guard.ts";
import { sayDay } from "./moment.ts";
import { amount, numberOf } from "./number.ts";
import { countedWords, limitedWords, small } from "./pack-figure.ts";

const whole = (value: number): string => value.toLocaleString("en-GB", { maximumFractionDigits: 0 });
const inHundred = (share: number): string => `${Number((share * 100).toFixed(1))} in 100`;
const POLICY = "common practice, your policy";

const guardOf = (guards: readonly PackGuard[], measure: string): readonly Guard[] =>
  guards.find((one) => one.measure === measure)?.guards ?? [];

/** The person's guard of a figure in few words, to stand in its own row. */
export const onePersonWords = (guards: readonly PackGuard[], measure: string): readonly string[] =>
  guardOf(guards, measure)
    .filter(({ guard }) => guard === "eventsOfOnePerson")
    .map(({ part, whole: all }) => `one person has ${whole(part)} of ${whole(all)}`);

/** Under the events of the month: one line with too much of the days, said once for a clock, and what the rows' words mean. */
export function monthGuardLines({ month, before }: Pick<MonthPack["guards"], "month" | "before">): readonly string[] {
  const ofDays = (guards: readonly PackGuard[], when: string): readonly string[] => {
    const clocks = new Map(
      guards.flatMap(({ clock, guards: own }) =>
        own.filter(({ guard }) => guard === "daysOfOneLine").map((one) => [clock, one] as const),
      ),
    );
    return [...clocks].map(
      ([clock, { part, whole: all, limit }]) =>
        `${when} one line has ${whole(part)} of ${whole(all)} ${clock}: look at it alone. The limit is ${inHundred(limit)} (${POLICY}).`,
    );
  };
  const person = [...month, ...before]
    .flatMap(({ guards }) => guards)
    .find(({ guard }) => guard === "eventsOfOnePerson");
  return [
    ...ofDays(month, "This month"),
    ...ofDays(before, "In the twelve months before"),
    ...(person
      ? [`Where one person has more than ${inHundred(person.limit)} of the events, read that story first (${POLICY}).`]
      : []),
  ];
}

/** Under a plate of time: what must be said of its twelve months, and of the base. */
export const timeGuardLines = (
  { year, base }: Pick<MonthPack["guards"], "year" | "base">,
  measure: string,
  ownBase: boolean,
): readonly string[] => [
  ...sparseLines(guardOf(year, measure)).map((line) => `These months: ${small(line)}`),
  ...(ownBase ? sparseLines(guardOf(base, measure)).map((line) => `The base: ${small(line)}`) : []),
];

/** Under the parts of the year: who holds too much of what, the first few by name. */
export function partGuardLines(parts: MonthPack["guards"]["parts"], most: number): readonly string[] {
  const told = (guard: Guard["guard"], lead: string, doing: string, name: (part: (typeof parts)[number]) => string) => {
    const found = new Map<string, Guard>();
    for (const part of parts) {
      const own = part.guards.find((one) => one.guard === guard);
      if (own) found.set(name(part), own);
    }
    const [first] = found.values();
    if (!first) return [];
    const named = [...found]
      .slice(0, most)
      .map(([words, { part, whole: all }]) => `${words} ${whole(part)} of ${whole(all)}`);
    const rest = found.size - named.length;
    return [
      `* ${lead} (over ${inHundred(first.limit)}, ${POLICY}; ${doing}): ${named.join("; ")}${rest > 0 ? `; and ${whole(rest)} more, on the Count page` : ""}.`,
    ];
  };
  return [
    ...told(
      "eventsOfOnePerson",
      "One person has many of the events",
      "read that story first",
      (part) => `${small(sayMeasure(part.measure))}, ${partWords(part)},`,
    ),
    ...told("daysOfOneLine", "One line has much of the days", "look at it alone", (part) => `${partWords(part)},`),
  ];
}

const ITSELF: ReadonlySet<string> = new Set(["size", "third", "vein", "side"]);
const partWords = ({ by, value }: MonthPack["guards"]["parts"][number]): string =>
  ITSELF.has(by) && value !== "not known" ? value : `${by === "ratio band" ? "catheter over vein" : by} ${value}`;

/** "Mar 2026": a month is as near as a pace can tell. */
const monthOf = (day: CivilDate): string => sayDay(day).split(" ").slice(2).join(" ");
const FAR_DAYS = 7305;
const after = (until: CivilDate, days: number): string | undefined =>
  days > FAR_DAYS ? undefined : monthOf(addDays(until, Math.ceil(days)));

/** Page 2 of a first year: what can be said before there is a chart. */
export const beginningWords = {
  early: "Too early for a chart: no line lies before these twelve months.",
  none: "No line is written yet. The first one starts the count.",
  counted: ({ period, linesPlaced, firstPack }: Beginning): string =>
    period === undefined || firstPack === undefined
      ? ""
      : `Counted from ${sayDay(period.from)}: ${numberOf(linesPlaced, "line")} placed. The first pack that can have a chart is that of ${monthOf(firstPack)}.`,
  under: `events in line-days; strokes: exact Poisson, 95\u202f%; open: none`,
  title: (one: BeginningOf): string => sayMeasure(one.measure),
  /** Count and limits, the way to a base, how soon a doubling would show, and what one month would have to hold. */
  of: (one: BeginningOf, measure: Measure, { period, needed }: Beginning, alarmFrom: number): readonly string[] => [
    soFar(one, measure),
    ...wayToBase(one, needed, (period as NonNullable<typeof period>).to),
    ...(one.plan?.alarm ? [`At this pace: ${small(toShowSentence({ plan: one.plan }))}`] : []),
    ...(one.plan && !one.plan.alarm
      ? [`Under ${alarmFrom} a year no alarm is set (${POLICY}): read each as a case.`]
      : []),
    ...(one.noticed === undefined
      ? []
      : [`${amount(one.expectedInMonth, "", 1)} expected a month; ${one.noticed} in one month would be noticed.`]),
  ],
  now: "What can be done now",
  steps: (needed: number): readonly string[] => [
    "Agree on a rate from outside: the sum that keeps watch runs from that day.",
    `Or wait until a base of ${needed} events is full, then set it on the pack's page.`,
    "Until then read each event as a case, and write each with its day.",
  ],
} as const;

/** The count on its clock with its limits; of few events the limits alone, and the rule. */
function soFar({ figure }: BeginningOf, measure: Measure): string {
  const limits = limitedWords(figure, measure);
  return `So far ${countedWords(figure)} ${measure.clock}${limits === "" ? "" : `: ${limits} per 1,000, 95 %`}.`;
}

function wayToBase(one: BeginningOf, needed: number, until: CivilDate): readonly string[] {
  const rule = `A base needs ${needed} (${POLICY})`;
  const missing = needed - one.figure.numerator;
  if (missing <= 0) return [`${rule}: there are enough. Set a base on the pack's page.`];
  if (!one.daysToGo) return [`${rule}: without an event nothing can be foretold.`];
  const { pace, soonest, latest } = one.daysToGo;
  const [reached, first, last] = [pace, soonest, latest].map((days) => after(until, days));
  const lines = one.linesToGo === undefined ? "" : `, about ${numberOf(Math.ceil(one.linesToGo), "line")} more`;
  return [
    `${rule}: ${missing} more${reached ? `, at this pace by ${reached}` : ", at this pace not within twenty years"}${lines}.`,
    ...(first
      ? [last ? `By its limits between ${first} and ${last}.` : `By its limits from ${first} on, without an end.`]
      : []),
  ];
}

/** The same as lines, for the command. */
export function beginningLines(
  beginning: Beginning | undefined,
  measures: ReadonlyMap<string, Measure>,
  alarmFrom: number,
): readonly string[] {
  if (!beginning) return [];
  if (!beginning.period) return [beginningWords.none, ...beginningWords.steps(beginning.needed)];
  return [
    beginningWords.early,
    beginningWords.counted(beginning),
    ...beginning.measures.flatMap((one) => [
      `${beginningWords.title(one)}:`,
      ...beginningWords.of(one, measures.get(one.measure) as Measure, beginning, alarmFrom).map((line) => `  ${line}`),
    ]),
    ...beginningWords.steps(beginning.needed),
  ];
}
