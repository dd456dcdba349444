import type { ProposedBase } from "../../audit/index.ts";
import type { CivilDate } from "../../core/calendar/index.ts";
import { valueIn, type KeptAction, type KeptBase, type MemoryRefusal } from "../../register/index.ts";
import { sayMeasure } from "./count.ts";
import { sayDay } from "./moment.ts";
import { amount } from "./number.ts";

const two = (value: number): string => amount(value, "", 2);
const days = (value: number): string => value.toLocaleString("en-GB", { maximumFractionDigits: 1 });
const month = (day: CivilDate): string => sayDay(day).split(" ").slice(2).join(" ");

const REFUSALS: Readonly<Record<MemoryRefusal, string>> = {
  "reason-missing": "A base is changed only by a name and with a reason. Type both.",
  "base-incomplete": "The base lacks its days or its numbers. Choose other days.",
  "base-not-kept": "This base is not in the record. Set the base first.",
  "signal-already-kept": "This signal is in the record already.",
  "signal-not-kept": "Keep the signal first, then look at it.",
  "month-unreadable": "A month is typed as 2026-04.",
  "action-missing": "An action needs its words, an owner, a day and a measure.",
  "action-not-agreed": "No action of that month is in the record.",
  "words-missing": "A change needs its day and a sentence.",
};

export const sayMemoryRefusal = (code: MemoryRefusal): string => REFUSALS[code];

/** What the page on time says of the service's own numbers, and its presses. */
export const memoryWords = {
  title: "What the record keeps of these numbers",
  own: "These lines are this service's own",
  typedStays: "What is typed stays in this tab until it is written.",
  written: (contact: string): string =>
    contact === "alone" || contact === "in touch"
      ? "Written."
      : "Written on this device. It waits here until the server answers.",
  fileAction: (whole: boolean): string =>
    whole ? "It opens the first page." : "Type what, who and the day: then it opens the first page.",
  bases: "Bases",
  base: (measure: string, base: KeptBase | undefined): string =>
    base === undefined
      ? `${sayMeasure(measure)}: none is set, so it moves on each month.`
      : `${sayMeasure(measure)}: ${base.events} in ${days(base.lineDays)} line-days, look at ${two(base.decision)}.`,
  baseWhy: ({ by, why, from, to }: KeptBase): string =>
    `${sayDay(from)} to ${sayDay(to)}, set by ${by}: ${why.replace(/\.?$/, ".")}`,
  baseFrom: "Base from",
  baseTo: "Watched from",
  baseTarget: "Agreed rate per 1,000, if there is one",
  proposal: ({ measure, entry, noAlarm }: ProposedBase): string => {
    if (!entry)
      return noAlarm === "too few events expected"
        ? `${sayMeasure(measure)}: too few events for an alarm. Each is looked at as a case.`
        : `${sayMeasure(measure)}: these days hold too few events. Agree on a rate.`;
    const events = valueIn(entry.baseEvents) ?? 0;
    return `${sayMeasure(measure)}: ${events} in ${days(valueIn(entry.baseLineDays) ?? 0)} line-days, look at ${two(valueIn(entry.decision) ?? 0)}.`;
  },
  noProposal: "These days hold no line-days on one side. Choose other days.",
  setBase: (measure: string): string => `Set the base: ${sayMeasure(measure)}`,
  signals: "Signals",
  noSignals: "No signal in these twelve months.",
  keepSignal: "Keep this signal",
  lookAt: "Write what was found",
  noBaseForSignal: "Set the base first: a signal is kept against a base that stands.",
  changes: "Changes of practice",
  noChanges: "None in these twelve months.",
  thisAction: (day: CivilDate): string => `Action agreed in ${month(day)}`,
  lastAction: (day: CivilDate): string => `Last month's action, agreed in ${month(day)}`,
  noAction: "None is in the record.",
  action: ({ action, ownerRole, dueOn, measure, outcome }: KeptAction): string =>
    `${action.replace(/\.?$/, ".")} ${ownerRole}, due ${sayDay(dueOn)}. ${sayMeasure(measure)}.${outcome ? ` ${outcome.outcome}${outcome.words === "" ? "." : `: ${outcome.words.replace(/\.?$/, ".")}`}` : ""}`,
  keptHere: "This was kept on this device alone. Sign it into the record.",
  keptHereRehearsing: "This is kept on this device alone. Sign it when the record is real.",
  rehearsal: "A rehearsal: it is gone once a real person is in the record.",
  letGo: "Let it go",
  measure: "Measure",
} as const;
