import type { NoShare, WardMonthDays } from "../../audit/index.ts";

const noShare: Readonly<Record<NoShare, string>> = {
  "patient-days not written": "patient-days not written, so no share of days.",
  "no patient-days": "no patient-days, so no share of days.",
  "more line-days than patient-days": "more days with a line than days. Look which is wrong.",
  "half of it not written": "one of the two sampled numbers is not written.",
};

/** How much a ward used lines in a month, and what may be said of its way of counting. */
export function wardMonthLines({
  ward,
  month,
  lineDays,
  countedBy,
  patientDays,
  utilisation,
  machineFrom,
  agreementMonths,
  sampled,
}: WardMonthDays): readonly string[] {
  const place = `${ward}, ${month}: `;
  const machine =
    machineFrom === undefined
      ? `Machine and hand have not yet agreed for ${agreementMonths} months in a row.`
      : `Machine and hand agreed up to ${machineFrom}: the machine's count may stand.`;
  return [
    typeof utilisation === "string"
      ? `${place}${noShare[utilisation]}`
      : `${place}a line on ${lineDays} of ${patientDays} patient-days, counted by ${countedBy}. Device utilisation ${utilisation.toFixed(2)}.`,
    `  ${machine}`,
    ...(sampled ? [`  ${sampledWords(sampled)}`] : []),
  ];
}

function sampledWords({ lineDays, may, leastLineDays }: NonNullable<WardMonthDays["sampled"]>): string {
  const days =
    typeof lineDays === "string"
      ? `Sampled on one weekday: ${noShare[lineDays]}`
      : `Sampled on one weekday: about ${Math.round(lineDays)} line-days.`;
  const allowed: Readonly<Record<MayWords, string>> = {
    "may sample": `The ward has the ${leastLineDays} a month that sampling asks.`,
    "too few line-days": `Fewer than ${leastLineDays} a month: count every day.`,
    "not known": `Whether ${leastLineDays} a month are reached is not known: count every day.`,
  };
  return `${days} ${allowed[may]}`;
}

type MayWords = NonNullable<WardMonthDays["sampled"]>["may"];
