import { caseFromDraft, readCase, type Draft, type Fault } from "../../contract/index.ts";
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
  const first = readCase(caseFromDraft(draft), demoShelf);
  const faults = first.kind === "faults" ? first.faults : [];
  const second = first.kind === "case" ? first : readCase(caseFromDraft(without(draft, faults)), demoShelf);
  const said = Object.fromEntries(
    faults.map((fault) => [typedPath(fault.path), sayFault({ ...fault, path: "" }).replace("The file", "This")]),
  );
  if (second.kind === "faults") return { input: undefined, plan: undefined, echoes: [], faults: said };
  return { input: second.input, plan: bedsidePlan(second.input, policy), echoes: second.echoes, faults: said };
}

const typedPath = (path: string): string => path.replace(/^patient\.weight(Kg|Lb)$/, "patient.weight");

function without(draft: Draft, faults: readonly Fault[]): Draft {
  const wrong = new Set(faults.map(({ path }) => typedPath(path)));
  return Object.fromEntries(Object.entries(draft).filter(([path]) => !wrong.has(path)));
}
