import { useMemo, type ReactNode } from "react";
import { glance, type AuditReport, type AuditRules, type AuditTable, type Measure } from "../../audit/index.ts";
import { glanceHeadline, glanceLines } from "../../language/index.ts";

/** What a person in a hurry needs of the period: the sentence first, then the few that carry it. */
export function GlanceLines({
  report,
  table,
  measures,
  rules,
}: {
  readonly report: AuditReport;
  readonly table: AuditTable;
  readonly measures: readonly Measure[];
  readonly rules: AuditRules;
}): ReactNode {
  const seen = useMemo(() => glance(report, table, measures, rules), [report, table, measures, rules]);
  const apart = seen.rates.some(({ direction }) => direction !== "cannot tell");
  return (
    <section className="glance" aria-label="At a glance">
      <p className="headline" data-apart={apart}>
        {glanceHeadline(seen)}
      </p>
      <ul>
        {glanceLines(seen).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </section>
  );
}
