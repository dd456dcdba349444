import {
  answerLine,
  evolveHistory,
  initialHistory,
  lineView,
  patientView,
  type History,
  type StoredEvent,
  type Subject,
} from "../src/register/index.ts";
import type { CivilDate, Instant } from "../src/core/calendar/index.ts";
import { lineRulesFrom, type ListedLine } from "../src/paper/line/index.ts";
import { defaultPolicy, type LocalPolicy } from "../src/policy/index.ts";
import { practiceRecord } from "../src/practice/index.ts";

export const NOW = "2026-11-26T11:02+00:00" as Instant;
export const practiceEvents = practiceRecord("2026-11-26" as CivilDate, "+00:00");

/** Every invented line of the practice service with its person and what its events mean at a moment. */
export function practiceLines(policy: LocalPolicy = defaultPolicy, knownAt: Instant = NOW): readonly ListedLine[] {
  const histories = new Map<Subject, History>();
  for (const [at, event] of practiceEvents.entries()) {
    const history = histories.get(event.subject) ?? initialHistory(event.subject);
    const stored: StoredEvent = { ...event, position: at + 1, version: history.version + 1, chainHash: "" };
    histories.set(event.subject, evolveHistory(history, stored));
  }
  return [...histories.values()]
    .filter(({ subject }) => subject.startsWith("line:"))
    .map((history) => {
      const line = lineView(history);
      const person = histories.get(`patient:${line.patient ?? ""}`);
      const patient = person && patientView(person);
      const planned = { arm: undefined, number: patient?.number, bornOn: patient?.bornOn };
      return { line, patient, answer: answerLine(line, planned, knownAt, NOW, lineRulesFrom(policy)) };
    });
}

export function practiceLine(id: string, policy?: LocalPolicy, knownAt?: Instant): ListedLine {
  const found = practiceLines(policy, knownAt).find(({ line }) => line.subject === `line:practice-${id}`);
  if (!found) throw new Error(`no practice line ${id}`);
  return found;
}
