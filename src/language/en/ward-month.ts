import type { NoShare, WardMonthDays } from "../../audit/index.ts";
import type { WardMonthRefusal } from "../../register/index.ts";
import { amount, numberOf } from "./number.ts";

const noShare: Readonly<Record<NoShare, string>> = {
  "patient-days not written": "patient-days not written, so no share of days.",
  "no patient-days": "no patient-days, so no share of days.",
  "more line-days than patient-days": "more days with a line than days. Look which is wrong.",
  "half of it not written": "one of the two sampled numbers is not written.",
  "its own count may not stand": "every central line, but no count of it may stand. Count every day.",
};

const days = (value: number): string => value.toLocaleString("en-GB", { maximumFractionDigits: 0 });

const countedWords: Readonly<Record<WardMonthDays["countedBy"], (sampledDays: number | undefined) => string>> = {
  hand: () => "counted daily by hand",
  sample: (sampledDays) =>
    sampledDays === undefined ? "sampled on one weekday" : `sampled on ${numberOf(sampledDays, "day")}`,
  machine: () => "counted by machine",
};

/** How much a ward used lines in a month, and what may be said of its way of counting. */
export function wardMonthLines(month: WardMonthDays): readonly string[] {
  const { sampled } = month;
  return [
    `${month.ward}, ${month.month}: ${wardMonthWords(month)}`,
    ...[...wardMonthNotes(month), ...agreementWords(month)].map((line) => `  ${line}`),
    ...(sampled ? [`  ${sampledWords(sampled)}`] : []),
  ];
}

/** Whether the count by machine may stand alone by this month; nothing where the two count different lines. */
export const agreementWords = ({
  machineFrom,
  agreementMonths,
  everyCentralLine,
}: Pick<WardMonthDays, "machineFrom" | "agreementMonths" | "everyCentralLine">): readonly string[] =>
  everyCentralLine
    ? []
    : machineFrom === undefined
      ? [`Machine and hand have not yet agreed for ${agreementMonths} months in a row.`]
      : [`Machine and hand agreed up to ${machineFrom}: the machine's count may stand.`];

/** The month in one sentence: over what, counted how, and the share. */
export function wardMonthWords({ lineDays, countedBy, patientDays, utilisation, sampled }: WardMonthDays): string {
  if (typeof utilisation === "string") return noShare[utilisation];
  const how = countedWords[countedBy](sampled?.days);
  return `a line on ${days(lineDays)} of ${days(patientDays ?? 0)} patient-days, ${how}. Device utilisation ${amount(utilisation, "", 2)}.`;
}

/** What the record counts of the same month, and whether the two may be held against each other. */
export function wardMonthNotes({ byRecord, everyCentralLine }: WardMonthDays): readonly string[] {
  if (everyCentralLine) return ["Every central line was counted; the record holds this service's alone."];
  if (byRecord === undefined) return [];
  const { days: found, apart, agrees } = byRecord;
  if (apart === undefined) return [`By the record ${days(found)}.`];
  const way = apart === 0 ? "the same" : `${amount(Math.abs(apart) * 100, "%")} ${apart > 0 ? "more" : "fewer"}`;
  return [`By the record ${days(found)}, ${way}: ${agrees ? "within" : "beyond"} the limit you set.`];
}

function sampledWords({ lineDays, may, leastLineDays }: NonNullable<WardMonthDays["sampled"]>): string {
  const about =
    typeof lineDays === "string"
      ? `Sampled on one weekday: ${noShare[lineDays]}`
      : `Sampled on one weekday: about ${days(lineDays)} line-days.`;
  const allowed: Readonly<Record<MayWords, string>> = {
    "may sample": `The ward has the ${leastLineDays} a month that sampling asks.`,
    "too few line-days": `Fewer than ${leastLineDays} a month: count every day.`,
    "not known": `Whether ${leastLineDays} a month are reached is not known: count every day.`,
  };
  return `${about} ${allowed[may]}`;
}

type MayWords = NonNullable<WardMonthDays["sampled"]>["may"];

const REFUSALS: Readonly<Record<WardMonthRefusal, string>> = {
  "ward-missing": "Which ward? Type its name as the lines have it.",
  "month-unreadable": "A month is typed as 2026-04.",
  "month-not-over": "This month is not over. Count it when it is.",
  "month-counted": "This ward and month are in the record. Correct that entry.",
  "lines-counted-missing": "Which lines were counted? Press one of the two.",
  "patient-days-missing": "The patient-days of the whole month are missing.",
  "line-days-missing": "Type the days counted daily, or those of one weekday.",
  "sample-incomplete": "A sample is three numbers: days, patients with a line, all patients.",
  "more-with-line-than-all": "More patients with a line than patients. Look which is wrong.",
};

export const sayWardMonthRefusal = (code: WardMonthRefusal): string => REFUSALS[code];
