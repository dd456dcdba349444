import { useMemo, type ReactNode } from "react";
import {
  silenceOf,
  type AuditRules,
  type AuditTable,
  type Figure as Counted,
  type Measure,
  type Period,
} from "../../audit/index.ts";
import { sayMeasure } from "../../language/index.ts";
import { Drawing } from "../plan/drawing.tsx";
import { useWidth } from "../plan/use-width.ts";
import { drawnAs } from "./plate-numbers.ts";
import { plateWidth } from "./plate-width.ts";
import { plateCount } from "./plates.ts";
import { usePlates } from "./use-plates.ts";

const ROMAN = ["I", "II", "III", "IV", "V", "VI"];

/** The plates of a pressed measure, one after the other: none holds up the number that was pressed. */
export function MeasurePlates({
  table,
  figure,
  measure,
  period,
  rules,
}: {
  readonly table: AuditTable;
  readonly figure: Counted;
  readonly measure: Measure;
  readonly period: Period;
  readonly rules: AuditRules;
}): ReactNode {
  const [ref, measured] = useWidth();
  const width = plateWidth(measured);
  const drawn = useMemo(() => drawnAs(figure, measure), [figure, measure]);
  const asked = useMemo(() => ({ measure, period, drawn, width }), [measure, period, drawn, width]);
  const { plates, notes } = usePlates(table, rules, asked);
  // plates of what nobody ever wrote would draw noughts where nobody asked: the number itself says so
  if (plateCount(asked) === 0 || silenceOf(table, measure).neverWritten) return null;
  return (
    <section ref={ref} className="count-plates" aria-label={`Plates: ${sayMeasure(measure.id)}`}>
      {plates.map((plate, at) =>
        plate ? <Drawing key={ROMAN[at]} figure={plate} plate={`${ROMAN[at]}.`} caption="" /> : null,
      )}
      {notes === undefined ? (
        <p className="waiting">Drawing ...</p>
      ) : (
        notes.map(({ about, text }) => (
          <p key={text} className="soft" {...{ [`data-${about}`]: true }}>
            {text}
          </p>
        ))
      )}
    </section>
  );
}
