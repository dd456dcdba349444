import type { Instant } from "../../core/calendar/index.ts";
import type { EntryOf } from "../catalogue.ts";
import type { Subject } from "../event/index.ts";
import { missingFields, valueIn, type Entry, type MissingField } from "../field/index.ts";
import { readHistory, standing, type Happening, type History } from "../fold/index.ts";
import { referralEvents } from "./referral-events.ts";

/**
 * Where a referral stands.
 *   open        received, nothing decided
 *   waiting     decided to wait
 *   declined    no PICC for a good reason, and what instead: a good outcome
 *   to place    a PICC was decided on
 */
export type ReferralStanding = "open" | "waiting" | "declined" | "to place";

export interface ReferralView {
  readonly subject: Subject;
  readonly version: number;
  readonly happenings: readonly Happening[];
  readonly receivedAt: Instant | undefined;
  readonly said: EntryOf<"ReferralReceived">;
  readonly decision: EntryOf<"ReferralDecided"> | undefined;
  readonly plan: EntryOf<"PlanAgreed"> | undefined;
  readonly consent: boolean;
  readonly timeOut: EntryOf<"TimeOutDone"> | undefined;
  readonly standing: ReferralStanding;
  /** What is missing to decide; only what a decision cannot do without. */
  readonly missing: readonly MissingField[];
}

/** A referral as the record tells it. */
export function referralView(history: History): ReferralView {
  const happenings = readHistory(history);
  let receivedAt: Instant | undefined;
  let said: EntryOf<"ReferralReceived"> = {};
  let decision: EntryOf<"ReferralDecided"> | undefined;
  let plan: EntryOf<"PlanAgreed"> | undefined;
  let timeOut: EntryOf<"TimeOutDone"> | undefined;
  let consent = false;
  for (const { event, entry } of standing(happenings)) {
    if (event.type === "ReferralReceived") {
      receivedAt ??= event.happenedAt;
      said = { ...said, ...(entry as EntryOf<"ReferralReceived">) };
    } else if (event.type === "ReferralDecided") decision = entry;
    else if (event.type === "PlanAgreed") plan = entry;
    else if (event.type === "ConsentTaken") consent = true;
    else if (event.type === "TimeOutDone") timeOut = entry;
  }
  const outcome = valueIn(decision?.outcome);
  return {
    subject: history.subject,
    version: history.version,
    happenings,
    receivedAt,
    said,
    decision,
    plan,
    consent,
    timeOut,
    standing:
      outcome === undefined
        ? "open"
        : outcome === "wait"
          ? "waiting"
          : outcome === "not a PICC"
            ? "declined"
            : "to place",
    missing: missingFields(referralEvents.ReferralReceived, said as Entry).filter(({ need }) => need === "must"),
  };
}
