import type { Guard, HazardAnswer, RateAnswer } from "../../audit/index.ts";
import { numberOf } from "./number.ts";

const whole = (value: number): string => value.toLocaleString("en-GB", { maximumFractionDigits: 0 });
const inHundred = (share: number): string => `${Number((share * 100).toFixed(1))} in 100`;

const GUARDS: Readonly<Record<Guard["guard"], (part: string, whole: string) => string>> = {
  daysOfOneLine: (part, all) => `One line has ${part} of ${all} days. Look at it alone.`,
  eventsOfOnePerson: (part, all) => `One person has ${part} of ${all} events. Read that story first.`,
  otherEnds: (part, all) => `${part} of ${all} ended another way first. The chance here counts them.`,
  unknownEnds: (part, all) => `Nobody knows how ${part} of ${all} ended. Ask before you read on.`,
};

/** What must be said before a figure of few lines is read: what was found, the rule, what to do. */
export const sparseLines = (guards: readonly Guard[]): readonly string[] =>
  guards.map(({ guard, part, whole: all, limit }) => {
    const rule = `The limit is ${inHundred(limit)} (common practice, your policy).`;
    return `${GUARDS[guard](whole(part), whole(all))} ${rule}`;
  });

/** Instead of a chance by a day. */
export const tooFewToTell = (events: number, fewest: number): string =>
  `${numberOf(events, "event")}: too few for a chance by day. The least is ${fewest} (common practice).`;

/** Two groups compared on few events: that no difference shows is then no news. */
export const doublingNeeds = (needed: number, events: number): string =>
  events >= needed
    ? `${numberOf(events, "event")}; a doubling takes about ${whole(needed)} to show (Schoenfeld 1983).`
    : `A doubling takes about ${whole(needed)} events to show (Schoenfeld 1983); there are ${whole(events)}.`;

const RULE = "Peduzzi 1996, a habit and no law";

/** Why a model was refused, penalised, or is to be read with care; nothing where events are many. */
export function modelGuard(
  { perParameter, verdict }: Extract<HazardAnswer, { kind: "too few events" }>["guard"],
  { events, factors }: { readonly events: number; readonly factors: number },
  separated = false,
): readonly string[] {
  const each = `${numberOf(events, "event")} for ${numberOf(factors, "factor")}, ${Number(perParameter.toFixed(1))} each`;
  return [
    ...(verdict === "penalise" ? [`${each}: penalised, ratios drawn towards one (${RULE}).`] : []),
    ...(verdict === "caution" ? [`${each}: read the limits, not the ratio (${RULE}).`] : []),
    ...(separated
      ? ["A factor parts all events from the rest: plain ratios have no end; penalised (Heinze 2001)."]
      : []),
  ];
}

/** Instead of a model. */
const modelRefused = (
  { events, mostFactors, least }: { readonly events: number; readonly mostFactors: number; readonly least: number },
  factors: number,
): readonly string[] => [
  `${numberOf(events, "event")}: too few for ${numberOf(factors, "factor")}. No ratio is told.`,
  `The rule is ${least} events for each factor (${RULE}).`,
  mostFactors > 0 ? `Ask for ${mostFactors} at most, or wait for more events.` : "Read each event as a case.",
];

/** Instead of a model of either kind: what was found, the rule, what to do; and the lines that were used. */
export function modelUnanswered(
  answer: Exclude<HazardAnswer | RateAnswer, { kind: "fitted" }>,
  factors: number,
  used: string,
): readonly string[] {
  if (answer.kind === "too few events") return [...modelRefused(answer, factors), used];
  if (answer.kind === "too much missing")
    return [
      `Missing too often for a model of several: ${answer.factors.map(({ factor, missing, of }) => `${factor} in ${missing} of ${of} lines`).join(", ")}.`,
      "Ask for one factor alone, or write the missing down.",
      used,
    ];
  return [`No model could be fitted: ${answer.kind}. Ask for other factors.`, used];
}
