import { FILE_LIMITS } from "../file/index.ts";
import type { RowFault, RowFaultCode } from "./row-fault.ts";

/** Counts every fault by its kind and keeps the first of each kind, so that what is kept does not grow with a file. */
export interface FaultTally {
  readonly add: (fault: RowFault) => void;
  readonly counts: ReadonlyMap<RowFaultCode, number>;
  /** Those kept, in the order of the rows. */
  readonly kept: () => readonly RowFault[];
}

export function faultTally(): FaultTally {
  const counts = new Map<RowFaultCode, number>();
  const kept: RowFault[] = [];
  return {
    counts,
    add: (fault) => {
      const before = counts.get(fault.code) ?? 0;
      counts.set(fault.code, before + 1);
      if (before < FILE_LIMITS.faultsKept) kept.push(fault);
    },
    kept: () => kept.toSorted((a, b) => a.row - b.row),
  };
}
