import {
  lastDay,
  type Figure,
  type FunnelUnit,
  type ListGap,
  type MonthPack,
  type ServiceChart,
} from "../../audit/index.ts";
import type { CivilDate } from "../../core/calendar/index.ts";
import { budgetSentence } from "./count-more.ts";
import { sayMeasure } from "./count.ts";
import { amount } from "./number.ts";
import { sayDay } from "./moment.ts";

const whole = (value: number): string => value.toLocaleString("en-GB", { maximumFractionDigits: 1 });

const amountOf = (denominator: number): string => denominator.toLocaleString("en-GB", { maximumFractionDigits: 0 });

/** "3 in 1,204" or "12 of 14"; empty where nothing was there to count over. */
export function splitCell(figure: Figure | undefined): string {
  if (!figure || figure.denominator === undefined || figure.denominator === 0) return "none";
  if (figure.form === "never written down") return "never written";
  const over = figure.interval.name === "exact binomial" ? "of" : "in";
  return `${whole(figure.numerator)} ${over} ${amountOf(figure.denominator)}`;
}

export const funnelCell = ({ events, expected, limits, judged }: FunnelUnit): string =>
  judged
    ? `${events}; ${amount(expected, "", 1)} expected, limits ${amount(limits[0] ?? 0, "", 1)} to ${amount(limits.at(-1) ?? 0, "", 1)}`
    : `${events}; ${amount(expected, "", 1)} expected, too few to judge`;

/** What came of last month's action, as the record has it or as it was ticked. */
export const outcomeOf = ({ done, outcome }: NonNullable<MonthPack["action"]>): string =>
  outcome
    ? `${outcome.outcome}${outcome.words === "" ? "" : `, ${outcome.words.replace(/\.$/, "")}`}`
    : done
      ? "done"
      : "not done";

/** Every word of the printed pack that is not a figure. */
export const packWords = {
  titles: ["The month", "Time", "Where and with what", "People and things to do"] as const,
  captions: [
    "Rates per 1,000 line-days and shares in per cent, each with its exact interval, 95 %.",
    "Each event as a stroke, its rate against the base, and under it the sum that keeps watch.",
    "Counts over what they came from. No order of merit.",
    "As the table stood when this was printed.",
  ] as const,
  name: (pack: MonthPack): string => `Monthly pack, ${sayDay(pack.month.from).split(" ").slice(2).join(" ")}`,
  identifiers: (pack: MonthPack): string =>
    `${sayDay(pack.month.from)} to ${sayDay(lastDay(pack.month))} · ${whole(pack.linesUsed)} of ${whole(pack.linesGiven)} lines used`,
  elsewhere: "What others published",
  noBase: "No lines before this year: no base to watch by.",
  budget: budgetSentence,
  noAlarm: (chart: ServiceChart): string =>
    chart.noAlarm === "base too small and no target agreed"
      ? "No alarm is kept: the base has too few events. Agree on a target rate."
      : "",
  noChart: (measure: string): string => `${sayMeasure(measure)}: no event in the base, no chart.`,
  splitHead: ["", " ", "Infections, ward's word", "Clots", "Blocked", "First attempt", "Short stay"] as const,
  splitNames: {
    size: "Size",
    lumens: "Lumens",
    third: "Third",
    "ratio band": "Catheter over vein",
    vein: "Vein",
    side: "Side",
    attempts: "Attempts",
  },
  funnelHead: ["Ward", "Infections, ward's word", "Clots", "Blocked"] as const,
  funnel: "By ward, against the rate of all wards",
  split: "By what was placed, and where on the arm",
  idle: (figure: Figure): string =>
    `Idle days: ${whole(figure.numerator)} in ${amountOf(figure.denominator ?? 0)} line-days of known use.`,
  year: (pack: MonthPack): string =>
    `${sayDay(pack.year.period.from)} to ${sayDay(lastDay(pack.year.period))}. Events in exact line-days; lines of lines.`,
  more: (count: number): string => `${whole(count)} more: ask the Count page or the command.`,
  moreLines: (count: number): string => `${whole(count)} more on the page of the lots`,
  lists: {
    noOwner: "Nobody answers for, to be called",
    unknownEnds: "End not known",
    overdue: "Care overdue",
    lowFiltration: "Placed with a low eGFR, twelve months",
    shortStays: "Short stays, twelve months",
    overrides: "Stops overridden, twelve months",
    recalled: "Lots called back, lines to reach",
    expiring: "Lots near their date",
  },
  noneListed: ({ notKnown, given }: ListGap): string =>
    notKnown === 0
      ? "None."
      : notKnown === given
        ? `Not known for any of ${whole(given)} lines.`
        : `None known. Not known for ${whole(notKnown)} of ${whole(given)} lines.`,
  gap: ({ notKnown, given }: ListGap): string => `Not known for ${whole(notKnown)} of ${whole(given)} lines.`,
  lastSeen: (day: CivilDate | undefined): string => (day ? `last known ${sayDay(day)}` : "not known"),
  lotsElsewhere: "Not in a line table. See the lots of the record, or add a table of lots.",
  recalledNone: (lot: string): string => `${lot}: no line of it is in`,
  lotMissing: (lines: number): string => `${lines} more in with no lot written: each may be one`,
  expires: (day: CivilDate | undefined, daysLeft: number | undefined): string =>
    day === undefined || daysLeft === undefined
      ? "date not written"
      : daysLeft < 0
        ? `past its date, ${sayDay(day)}`
        : `until ${sayDay(day)}`,
  left: (count: number): string => (count < 0 ? `${-count} more used than received` : `${count} left`),
  inPlace: "still in",
  endNotKnown: "end not known",
  handedOn: "handed on",
  nextAction: "This month's action",
  nextItems: ["Action", "Owner", "By", "Measure"] as const,
  cases: "Two cases in depth go on a sheet of their own, without identities.",
} as const;
