import {
  lastDay,
  type Figure,
  type ListGap,
  type MonthPack,
  type ServiceChart,
  type WardFunnel,
  type WardPoint,
} from "../../audit/index.ts";
import type { CivilDate } from "../../core/calendar/index.ts";
import { budgetSentence } from "./count-more.ts";
import { sayMeasure } from "./count.ts";
import { amount, numberOf } from "./number.ts";
import { sayDay } from "./moment.ts";
import { splitCell } from "./pack-figure.ts";

const whole = (value: number): string => value.toLocaleString("en-GB", { maximumFractionDigits: 1 });

const amountOf = (denominator: number): string => denominator.toLocaleString("en-GB", { maximumFractionDigits: 0 });

/** What chance alone keeps a ward's count to, were all wards alike. */
export function chanceWords({ inner, days, expected, judged, stands }: WardPoint): string {
  const told = `${amount(expected, "", 1)} expected`;
  if (!judged) return `${told}: too few to judge`;
  const count = (rate: number): string => amount((rate * days) / PER, "", 1);
  const upper = inner.upper === undefined ? "all" : count(inner.upper);
  return `${told}; chance ${count(inner.lower ?? 0)} to ${upper}${stands === "within" ? "" : `: ${stands}`}`;
}

/** A ward's own count with its own limits, and under it what chance allows. */
export const wardCell = (figure: Figure | undefined, point: WardPoint | undefined, star: string): string =>
  point ? `${splitCell(figure, star)}\n${chanceWords(point)}` : splitCell(figure, star);

const PER = 1000;

/** What came of last month's action, as the record has it or as it was ticked. */
export const outcomeOf = ({ done, outcome }: NonNullable<MonthPack["action"]>): string =>
  outcome
    ? `${outcome.outcome}${outcome.words === "" ? "" : `, ${outcome.words.replace(/\.$/, "")}`}`
    : done
      ? "done"
      : "not done";

type AlarmRules = Readonly<Record<"baseEvents" | "alarmFrom", number>>;

/** Every word of the printed pack that is not a figure. */
export const packWords = {
  titles: ["The month", "Time", "Where and with what", "People and things to do"] as const,
  captions: [
    "Rates per 1,000 line-days and shares in per cent, each with its exact interval, 95 %.",
    "Each event as a stroke, its rate against the base, and under it the sum that keeps watch.",
    "Counts over what they came from. No order of merit.",
    "As the table stood when this was printed.",
  ] as const,
  /** Of the second page while there is no chart. */
  beginning: "What the first months say, and what a chart still needs.",
  name: (pack: MonthPack): string => `Monthly pack, ${sayDay(pack.month.from).split(" ").slice(2).join(" ")}`,
  identifiers: (pack: MonthPack): string =>
    `${sayDay(pack.month.from)} to ${sayDay(lastDay(pack.month))} · ${whole(pack.linesUsed)} of ${whole(pack.linesGiven)} lines used`,
  elsewhere: "What others published",
  elsewhereOnPage: "What others published stands on the Count page.",
  budget: budgetSentence,
  noAlarm: ({ noAlarm, plan }: ServiceChart, { baseEvents, alarmFrom }: AlarmRules): string =>
    noAlarm === "base too small and no target agreed"
      ? `No alarm is kept: the base has ${numberOf(plan.base.events, "event")}, the rule is ${baseEvents} (common practice, your policy). Agree on a target rate.`
      : noAlarm === "too few events expected"
        ? `No alarm is kept under ${alarmFrom} events a year (common practice, your policy): read each as a case.`
        : "",
  noChart: (measure: string): string => `${sayMeasure(measure)}: no event in the base, no chart.`,
  splitHead: ["", " ", "Infections, ward's word", "Clots", "Blocked", "First attempt", "Short stay"] as const,
  limits:
    "Behind each count its own exact limits, 95 %: events per 1,000 line-days, shares in per cent, of fewer than 30 lines in lines. None is drawn towards the others.",
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
  funnel: "By ward, each alone and against all wards",
  funnelFoot: (funnels: readonly WardFunnel[], leastExpected: number): string => {
    const widened = funnels.filter(({ spread }) => spread.widen).length;
    const judged = funnels.some(({ wards }) => wards.some((ward) => !ward.judged));
    return [
      "Chance: where a count falls 95 times in 100 were all wards alike, all events given.",
      ...(widened > 0 ? ["Widened where wards differ beyond chance."] : []),
      ...(funnels.length > 0
        ? [
            `By chance alone ${amount(
              funnels.reduce((sum, { byChance }) => sum + byChance, 0),
              "",
              1,
            )} cells would stand outside.`,
          ]
        : []),
      ...(judged ? [`Fewer than ${leastExpected} expected is not judged (common practice, your policy).`] : []),
    ].join(" ");
  },
  split: "By what was placed, and where on the arm",
  idle: (figure: Figure): string =>
    `Idle days: ${whole(figure.numerator)} in ${amountOf(figure.denominator ?? 0)} line-days of known use.`,
  year: (pack: MonthPack): string =>
    `${sayDay(pack.year.period.from)} to ${sayDay(lastDay(pack.year.period))}. Events in exact line-days; lines of lines.`,
  more: (count: number): string => `and ${whole(count)} more: ask the Count page or the command.`,
  moreWards: (count: number, outside: number): string =>
    `and ${numberOf(count, "ward")} more with fewer days${outside > 0 ? `, ${whole(outside)} of them outside` : ", none of them outside"}: ask the Count page.`,
  moreLines: (count: number): string => `and ${whole(count)} more on the page of the lots`,
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
