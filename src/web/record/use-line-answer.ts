import { useEffect, useMemo, useState } from "react";
import { instantMs, type Instant } from "../../core/calendar/index.ts";
import {
  careLimitsFrom,
  idleLimitsFrom,
  releasePolicyFrom,
  removalLimitsFrom,
  type LocalPolicy,
} from "../../policy/index.ts";
import {
  answerLine,
  valueIn,
  type LineAnswer,
  type LinePerson,
  type LineRules,
  type LineView,
} from "../../register/index.ts";
import type { Register } from "../register/register.ts";
import { patientFor, referralOf, useRecord } from "./record-context.tsx";

const MINUTE = 60_000;

/** The clock of the page, told anew each minute: a release grows old while nobody presses anything. */
export function useNow(register: Register): Instant {
  const [now, setNow] = useState(() => register.now());
  useEffect(() => {
    const timer = setInterval(() => setNow(register.now()), MINUTE);
    return () => clearInterval(timer);
  }, [register]);
  // something just written lies a moment after the last minute
  const present = register.now();
  return instantMs(now) > instantMs(present) ? now : present;
}

export const rulesFrom = ({ table }: LocalPolicy): LineRules => ({
  release: releasePolicyFrom(table),
  care: careLimitsFrom(table),
  idle: idleLimitsFrom(table),
  removal: removalLimitsFrom(table),
});

/**
 * When this device last knew: now while it is all there is (no server, or only invented patients) or in touch, else its
 * last contact. A server that went back to an older backup leaves nothing known.
 */
export function knownAt(register: Register, now: Instant): Instant | undefined {
  const { contact } = register;
  if (contact.kind === "alone" || register.rehearsing) return now;
  if (contact.kind === "in touch") return contact.at;
  return contact.kind === "server is older" ? undefined : register.lastContact;
}

/** What a plan on record says of the arm, and the number and birthday the person is known by. */
export function plannedFor(register: Register, line: LineView): LinePerson {
  const id = valueIn(line.said.referral);
  const history = id === undefined ? undefined : register.histories.get(`referral:${id}`);
  const person = patientFor(register, line.patient);
  return {
    arm: history && valueIn(referralOf(history).plan?.arm),
    number: person?.number === "" ? undefined : person?.number,
    bornOn: person?.bornOn,
  };
}

export const armsDiffer = ({ findings }: LineAnswer["sides"]): boolean =>
  findings.some(({ code }) => code === "sides-differ");

export function useLineAnswer(line: LineView): LineAnswer & { readonly now: Instant } {
  const { register, policy } = useRecord();
  const now = useNow(register);
  const rules = useMemo(() => rulesFrom(policy), [policy]);
  return { ...answerLine(line, plannedFor(register, line), knownAt(register, now), now, rules), now };
}
