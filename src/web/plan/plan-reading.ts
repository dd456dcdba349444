import { caseFromDraft, readCase, readReferral, referralFromDraft, type Draft } from "../../contract/index.ts";
import type { CivilDate } from "../../core/calendar/index.ts";
import { answerReferral, type ReferralAnswer, type ReferralPolicy } from "../../core/device-choice/index.ts";
import type { Infusate } from "../../core/infusate/index.ts";
import { bedsidePlan, type BedsidePlan, type PlanInput, type PlanPolicy } from "../../core/line-plan/index.ts";
import type { Finding } from "../../core/reason/index.ts";
import { sayFault } from "../../language/index.ts";
import { demoShelf } from "../../practice/index.ts";

export interface PlanReading {
  readonly input: PlanInput | undefined;
  readonly plan: BedsidePlan | undefined;
  readonly echoes: readonly Finding[];
  /** One question for each field that cannot be read, by the path it was typed at. */
  readonly faults: Readonly<Record<string, string>>;
}

/**
 * From typed text to an answer. A field that cannot be read is asked about and left out, so that one slip does not blank
 * the rest of the page; what it would have decided is then missing, and the plan says so.
 */
export function readPlan(draft: Draft, policy: PlanPolicy): PlanReading {
  const { json, typedPath } = caseFromDraft(draft);
  const first = readCase(json, demoShelf);
  const faults = first.kind === "faults" ? first.faults : [];
  const wrong = new Set(faults.map(({ path }) => typedPath(path)));
  const second = first.kind === "case" ? first : readCase(caseFromDraft(without(draft, wrong)).json, demoShelf);
  const said = Object.fromEntries(
    faults.map((fault) => [typedPath(fault.path), sayFault({ ...fault, path: "" }).replace("The file", "This")]),
  );
  if (second.kind === "faults") return { input: undefined, plan: undefined, echoes: [], faults: said };
  return { input: second.input, plan: bedsidePlan(second.input, policy), echoes: second.echoes, faults: said };
}

export interface ReferralPageReading {
  /** Undefined while nothing of the need was typed. */
  readonly answer: ReferralAnswer | undefined;
  readonly faults: Readonly<Record<string, string>>;
}

/** The need before the arm, read like the plan: a field that cannot be read is asked about and left out. */
export function readNeed(
  draft: Draft,
  drugs: readonly Infusate[],
  policy: ReferralPolicy,
  armBars: PlanPolicy["armBars"],
  today: CivilDate,
): ReferralPageReading {
  const typed = referralFromDraft(draft, armBars, today);
  if (!typed) return { answer: undefined, faults: {} };
  const first = readReferral(typed.json, drugs);
  const faults = first.kind === "faults" ? first.faults : [];
  const said = Object.fromEntries(
    faults.map((fault) => [typed.typedPath(fault.path), sayFault({ ...fault, path: "" }).replace("The file", "This")]),
  );
  const wrong = new Set(Object.keys(said));
  const again = first.kind === "referral" ? undefined : referralFromDraft(without(draft, wrong), armBars, today);
  const second = again ? readReferral(again.json, drugs) : first;
  return {
    answer: second.kind === "referral" ? answerReferral(second.referral, policy, today) : undefined,
    faults: said,
  };
}

/** A field that cannot be read, and everything typed inside it where the fault is about a whole row. */
const without = (draft: Draft, wrong: ReadonlySet<string>): Draft =>
  Object.fromEntries(
    Object.entries(draft).filter(
      ([path]) => ![...wrong].some((place) => path === place || path.startsWith(`${place}.`)),
    ),
  );
