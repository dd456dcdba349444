import { useEffect, useMemo, useState } from "react";
import {
  audit,
  auditInSteps,
  checkInSteps,
  isChecked,
  lineCount,
  type AuditReport,
  type AuditRules,
  type AuditTable,
  type Measure,
  type Period,
} from "../../audit/index.ts";

/** A smaller table is counted before an eye could see it wait. */
const MANY_LINES = 5_000;
/** How long the counting may hold the page at a time. */
const SLICE_MS = 30;

interface Asked {
  readonly table: AuditTable;
  readonly measures: readonly Measure[];
  readonly period: Period;
  readonly rules: AuditRules;
}
type First = Omit<Asked, "measures"> & { readonly report: AuditReport };

function* inSteps({ table, measures, period, rules }: Asked): Generator<undefined, AuditReport, undefined> {
  yield* checkInSteps(table, rules.limits, rules.surveillance);
  return yield* auditInSteps(table, measures, period, [], rules);
}

/**
 * Every measure of a period. The first time, a large table is checked and counted in slices, and the page answers
 * between them; then its columns are warm, and another period is counted at once. Undefined until there is an answer.
 */
export function useReport(
  table: AuditTable,
  measures: readonly Measure[],
  period: Period,
  rules: AuditRules | undefined,
): AuditReport | undefined {
  const [first, setFirst] = useState<First>();
  const ready =
    rules !== undefined && (lineCount(table) <= MANY_LINES || isChecked(table, rules.limits, rules.surveillance));
  useEffect(() => {
    if (ready || rules === undefined) return undefined;
    const steps = inSteps({ table, measures, period, rules });
    let timer: ReturnType<typeof setTimeout> | undefined;
    const go = (): void => {
      const until = performance.now() + SLICE_MS;
      let step = steps.next();
      while (!step.done && performance.now() < until) step = steps.next();
      if (step.done) setFirst({ table, period, rules, report: step.value });
      else timer = setTimeout(go);
    };
    timer = setTimeout(go);
    return () => clearTimeout(timer);
  }, [table, measures, period, rules, ready]);
  return useMemo(() => {
    if (!ready || rules === undefined) return undefined;
    return first?.table === table && first.period === period && first.rules === rules
      ? first.report
      : audit(table, measures, period, [], rules);
  }, [ready, first, table, measures, period, rules]);
}
