import { useMemo, type ReactNode } from "react";
import { glance, type AuditReport, type AuditRules, type AuditTable, type Measure } from "../../audit/index.ts";
import { PAGE_INK, thenAndNowPlate } from "../../figure/index.ts";
import { countWords, glanceContext, glanceHeadline, glanceMend } from "../../language/index.ts";
import { Drawing } from "../plan/drawing.tsx";
import { useWidth } from "../plan/use-width.ts";
import { Fold } from "./fold.tsx";
import { thenAndNowOf } from "./plate-numbers.ts";
import { plateWidth } from "./plate-width.ts";

/** What a person in a hurry needs of the period: what stands apart, what to mend, its plate; the rest folds away. */
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
  const [ref, measured] = useWidth();
  const width = plateWidth(measured);
  const seen = useMemo(() => glance(report, table, measures, rules), [report, table, measures, rules]);
  const apart = seen.rates.some(({ direction }) => direction !== "cannot tell");
  const sentence = glanceHeadline(seen);
  const { level } = rules.limits;
  const figure = useMemo(() => {
    const rates = thenAndNowOf(seen);
    return rates.length === 0
      ? undefined
      : thenAndNowPlate({ id: "count-glance", sentence: countWords.glancePlate, level, rates, width, ink: PAGE_INK });
  }, [seen, level, width]);
  return (
    <section ref={ref} className="glance" aria-label="At a glance">
      <p className="headline" data-apart={apart}>
        {sentence}
      </p>
      {glanceMend(seen).map((line) => (
        <p key={line} className="mend">
          {line}
        </p>
      ))}
      {figure ? <Drawing figure={figure} plate="" caption="" /> : null}
      <Fold name={countWords.more} part="more">
        <ul>
          {glanceContext(seen).map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </Fold>
    </section>
  );
}
