import type { ReactNode } from "react";
import type { DeviceNeed } from "../../core/device-choice/index.ts";
import type { Candidate, PlanInput } from "../../core/line-plan/index.ts";
import { flowAssumptionsFrom, type LocalPolicy } from "../../policy/index.ts";
import { FlowLeft } from "./flow-left.tsx";
import { WithAndWithout } from "./with-and-without.tsx";

/** What stands beside a chosen plan and decides nothing: the flow it leaves, and what it costs in a hundred people. */
export function BesidePlan({
  chosen,
  input,
  planId,
  policy,
  need,
}: {
  readonly chosen: Candidate;
  readonly input: PlanInput;
  readonly planId: string;
  readonly policy: LocalPolicy;
  /** Undefined while the answer before the arm is not a PICC. */
  readonly need: DeviceNeed | undefined;
}): ReactNode {
  const lumens = input.shelf.find(({ id }) => id === chosen.catheterId)?.lumens ?? 1;
  return (
    <>
      <FlowLeft chosen={chosen} input={input} planId={planId} assumed={flowAssumptionsFrom(policy.table)} />
      {need ? <WithAndWithout chosen={chosen} lumenCount={lumens} need={need} /> : null}
    </>
  );
}
