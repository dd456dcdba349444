import type { RegisterEvent, Subject } from "../event/index.ts";

const PRACTICE = "practice-";

/**
 * The subjects of an invented patient: those named so, and those that any of their events ties to such a patient or
 * referral. They may be written about to learn the tool; they never leave the device and never stand among real ones.
 */
export function practiceSubjects(events: Iterable<Pick<RegisterEvent, "subject" | "data">>): ReadonlySet<Subject> {
  const found = new Set<Subject>();
  for (const { subject, data } of events) {
    const named = subject.slice(subject.indexOf(":") + 1).startsWith(PRACTICE);
    if (named || namesPractice(data["patient"]) || namesPractice(data["referral"])) found.add(subject);
  }
  return found;
}

const namesPractice = (recorded: unknown): boolean => {
  const value = (recorded as { readonly value?: unknown } | null | undefined)?.value;
  return typeof value === "string" && value.startsWith(PRACTICE);
};
