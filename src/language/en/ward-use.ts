import type { WardRate, WardsUse, WardUse } from "../../audit/index.ts";
import { sayMeasure } from "./count.ts";
import { amount, numberOf } from "./number.ts";

const days = (value: number): string => value.toLocaleString("en-GB", { maximumFractionDigits: 0 });
const two = (value: number): string => amount(value, "", 2);
const level = (share: number): string => amount(Number((share * 100).toFixed(1)), "%", 0);

const nameOf = ({ ward, everyCentralLine }: WardUse): string =>
  everyCentralLine ? `${ward}, every central line` : ward;

/** How the months of a ward were counted. */
function countedWords({ counted: { hand, sample, machine, sampledDays } }: WardUse): string {
  const parts = [
    ...(hand > 0 ? [`counted daily in ${numberOf(hand, "month")}`] : []),
    ...(sample > 0
      ? [
          `sampled ${sampledDays === undefined ? "" : `on ${numberOf(sampledDays, "day")} `}in ${numberOf(sample, "month")}`,
        ]
      : []),
    ...(machine > 0 ? [`by the record in ${numberOf(machine, "month")}`] : []),
  ];
  const [first = "", ...rest] = parts;
  return `${[first.charAt(0).toUpperCase() + first.slice(1), ...rest].join("; ")}.`;
}

/** A ward's share of days with its n, its limits or why there are none, and how it was counted. */
export function wardUseWords(use: WardUse, { level: asked, monthsForLimits }: WardsUse): readonly string[] {
  const { utilisation, limits, lineDays, patientDays, months } = use;
  if (utilisation === undefined)
    return [`${nameOf(use)}: ${numberOf(use.written, "month")} written, and no share of days can be made.`];
  const range = limits
    ? `Limits by its months, ${level(asked)}: ${two(limits.lower)} to ${two(limits.upper)}.`
    : `No limits: they need ${numberOf(monthsForLimits, "month")}.`;
  return [
    `${nameOf(use)}: device utilisation ${two(utilisation)}, ${days(lineDays)} of ${days(patientDays)} patient-days in ${numberOf(months, "month")}.`,
    range,
    countedWords(use),
  ];
}

/** Infections over the days the ward counted, or why there is no rate. */
export function wardRateWords({ rates, everyCentralLine }: WardUse): readonly string[] {
  if (rates === undefined)
    return [
      everyCentralLine
        ? "No rate: the record holds infections of this service's lines alone."
        : "No rate on the ward's days: only the record counted them.",
    ];
  return rates.flatMap(rateWords);
}

function rateWords({ measure, events, mayCount, lineDays, perThousand, limits, form }: WardRate): readonly string[] {
  const range = `${two(limits.lower)} to ${two(limits.upper)}`;
  const said: Readonly<Record<WardRate["form"], string>> = {
    "upper limit only": `At most ${two(limits.upper)} per 1,000 of the ward's own days, exact.`,
    "count only, interval first": `${range} per 1,000 of the ward's own days, exact, by few events.`,
    "estimate with interval": `${two(perThousand)} per 1,000 of the ward's own days (${range}, exact).`,
  };
  return [
    `${sayMeasure(measure)}: ${days(events)} in ${days(lineDays)} line-days.`,
    said[form],
    ...(mayCount > 0 ? [`${days(mayCount)} more may count: nobody said.`] : []),
  ];
}

export const notCountedWords = ({ notCounted }: WardsUse): readonly string[] =>
  notCounted.length === 0 ? [] : [`Not counted: ${notCounted.join(", ")}.`];

/** The wards' shares of days, line by line, as the command prints them. */
export const wardUseLines = (use: WardsUse): readonly string[] => [
  ...use.wards.flatMap((ward) => {
    const [first = "", ...rest] = wardUseWords(ward, use);
    return [first, ...[...rest, ...wardRateWords(ward)].map((line) => `  ${line}`)];
  }),
  ...notCountedWords(use),
];

/** The sentence, marks and table of the plate of wards. */
export const wardUsePlateWords = {
  sentence: ({ wards, notCounted }: WardsUse): string => {
    const told = wards.filter(({ utilisation }) => utilisation !== undefined).length;
    const missing = notCounted.length === 0 ? "" : ` ${numberOf(notCounted.length, "ward")} did not count.`;
    return `Share of patient-days with a line: ${numberOf(told, "ward")} told.${missing}`;
  },
  nameOf,
  over: ({ lineDays, patientDays }: WardUse): string => `${days(lineDays)} of ${days(patientDays)}`,
  notCounted: "not counted",
  noShare: "no share of days",
  unit: "line-days of patient-days",
  under: "dots: share over the months; strokes: limits by months",
  columns: ["Ward", "Line-days", "Patient-days", "Utilisation", "Lower", "Upper", "Months", "How counted"] as const,
  rows: ({ wards, notCounted }: WardsUse): readonly (readonly string[])[] => [
    ...wards.map((use) => [
      nameOf(use),
      days(use.lineDays),
      days(use.patientDays),
      use.utilisation === undefined ? "none" : two(use.utilisation),
      use.limits ? two(use.limits.lower) : "none",
      use.limits ? two(use.limits.upper) : "none",
      String(use.months),
      use.utilisation === undefined ? "none" : countedWords(use),
    ]),
    ...notCounted.map((ward) => [ward, "none", "none", "none", "none", "none", "0", "not counted"]),
  ],
} as const;

/** The words of the part of the page where wards write their months. */
export const wardPartWords = {
  title: "The wards' own days",
  lead: "How much each ward uses lines, by its own count.",
  none: "No ward has counted a month. Write one, and its share stands here.",
  noneInPeriod: "No counted month lies in this period.",
  months: (count: number): string => `The months, ${count}`,
  form: "A ward's month",
  ward: "Ward, as its lines have it",
  month: "Month",
  daily: "Counted every day at one hour",
  sampled: "Or sampled on one weekday",
  rule: "One weekday, not Saturday or Sunday. Not for cancer or newborn wards. A person with two lines counts once.",
  correct: (ward: string, month: string): string => `Correct ${ward}, ${month}`,
  again: (count: number): string => `Written ${count + 1} times. The first stands; void the others.`,
  by: (initials: string, role: string, countedBy: string): string =>
    `Signed by ${initials}, ${role}${countedBy === "" ? "" : `; counted by ${countedBy}`}.`,
  corrected: (count: number): string => `${numberOf(count, "value")} corrected.`,
} as const;
