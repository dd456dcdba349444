import {
  dayOf,
  foldedLine,
  countedWardMonths,
  foldedReferral,
  momentOfInstant,
  namedBy,
  type AuditTable,
  type FoldedLine,
  type FoldRules,
  type LineRow,
  type ReferralRow,
} from "../../audit/index.ts";
import type { Instant } from "../../core/calendar/index.ts";
import { cultureLimitsFrom, type LocalPolicy } from "../../policy/index.ts";
import { lineRulesFrom } from "../../paper/line/index.ts";
import { serviceSubject, type History, type Subject } from "../../register/index.ts";
import { lineOf, patientOf, referralOf } from "../record/record-context.tsx";

type Histories = ReadonlyMap<Subject, History>;

/** A line as it was folded last, with the very histories it was folded from. */
interface KeptLine extends FoldedLine {
  readonly policy: LocalPolicy;
  readonly patientHistory: History | undefined;
  readonly referralHistory: History | undefined;
  readonly subjects: readonly [patient: Subject, referral: Subject];
  readonly day: string;
}
interface KeptReferral {
  readonly policy: LocalPolicy;
  readonly isPlaced: boolean;
  readonly row: ReferralRow | undefined;
}

const LINES = new WeakMap<History, KeptLine>();
const REFERRALS = new WeakMap<History, KeptReferral>();

/**
 * The line table of the record on this device at a moment. Histories never change, a new event makes a new one: only a
 * line whose own, whose patient's or whose referral's history is another is folded anew, and one that is still in when
 * the day has changed. A line keeps its own identifier, so that its page can be opened.
 */
export function recordTable(histories: Histories, policy: LocalPolicy, now: Instant, rehearsing = false): AuditTable {
  const rules = { rules: lineRulesFrom(policy), cultures: cultureLimitsFrom(policy.table) };
  const day = dayOf(now);
  const lines: LineRow[] = [];
  const placedFor = new Set<string>();
  const referralHistories: History[] = [];
  for (const [subject, history] of histories) {
    if (subject.startsWith("referral:")) referralHistories.push(history);
    if (!subject.startsWith("line:")) continue;
    const before = LINES.get(history);
    const kept =
      before && holds(before, histories, policy, day)
        ? before
        : folded(history, histories, { policy, rules, now, day });
    LINES.set(history, kept);
    if (kept.row) lines.push(kept.row);
    if (kept.referral !== "") placedFor.add(kept.referral);
  }
  const referrals = referralHistories.flatMap((history): readonly ReferralRow[] => {
    const isPlaced = placedFor.has(history.subject.slice("referral:".length));
    const before = REFERRALS.get(history);
    const kept =
      before?.policy === policy && before.isPlaced === isPlaced
        ? before
        : { policy, isPlaced, row: foldedReferral(referralOf(history), isPlaced, rules, now) };
    REFERRALS.set(history, kept);
    return kept.row ? [kept.row] : [];
  });
  const service = histories.get(serviceSubject(rehearsing));
  const wardMonths = service ? countedWardMonths(service, now) : [];
  return { asOf: momentOfInstant(now), lines, referrals, ...(wardMonths.length > 0 && { wardMonths }) };
}

const holds = (kept: KeptLine, histories: Histories, policy: LocalPolicy, day: string): boolean =>
  kept.policy === policy &&
  kept.restless !== 2 &&
  (kept.restless === 0 || kept.day === day) &&
  histories.get(kept.subjects[0]) === kept.patientHistory &&
  histories.get(kept.subjects[1]) === kept.referralHistory;

function folded(
  history: History,
  histories: Histories,
  {
    policy,
    rules,
    now,
    day,
  }: { readonly policy: LocalPolicy; readonly rules: FoldRules; readonly now: Instant; readonly day: string },
): KeptLine {
  const line = lineOf(history);
  const { patient, referral } = namedBy(line);
  const subjects = [`patient:${patient}`, `referral:${referral}`] as const;
  const [patientHistory, referralHistory] = [histories.get(subjects[0]), histories.get(subjects[1])];
  return {
    ...foldedLine(
      line,
      patientHistory && patientOf(patientHistory),
      referralHistory && referralOf(referralHistory),
      rules,
      now,
    ),
    policy,
    patientHistory,
    referralHistory,
    subjects,
    day,
  };
}
