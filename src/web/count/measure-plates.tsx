import { useMemo, type ReactNode } from "react";
import { armMap, type AuditRules, type AuditTable, type Measure, type Period } from "../../audit/index.ts";
import { armMapPlate, controlChart, eventCurve, PAGE_INK, rateByMonth, type Figure } from "../../figure/index.ts";
import { countPlateWords, sayMeasure } from "../../language/index.ts";
import { Drawing } from "../plan/drawing.tsx";
import { useWidth } from "../plan/use-width.ts";
import { chartOf, curveOf, ratesOf } from "./plate-numbers.ts";

interface Asked {
  readonly table: AuditTable;
  readonly measure: Measure;
  readonly period: Period;
  readonly rules: AuditRules;
}

const WIDEST = 880;

/** The plates of a measure of events: its months, its chart, its curve, its place along the arm. */
export function MeasurePlates(asked: Asked): ReactNode {
  const [ref, measured] = useWidth();
  const { measure } = asked;
  const width = Math.min(WIDEST, Math.max(300, measured));
  const events = measure.numerator.count === "events";
  const numbers = useNumbers(asked, events);
  if (!events || !numbers) return null;
  const title = sayMeasure(measure.id);
  const { clock } = measure;
  const shared = { title, clock, width, ink: PAGE_INK };
  const plates: (Figure | undefined)[] = [
    rateByMonth({ id: "count-rate", months: numbers.months, ...shared }),
    numbers.chart && controlChart({ id: "count-chart", ...numbers.chart, ...shared }),
    numbers.curve && eventCurve({ id: "count-curve", ...numbers.curve, title, width, ink: PAGE_INK }),
    armMapPlate({ id: "count-map", ...numbers.map, ...shared }),
  ];
  return (
    <section ref={ref} className="count-plates" aria-label={`Plates: ${title}`}>
      {plates
        .filter((figure) => figure !== undefined)
        .map((figure, at) => (
          <Drawing key={figure.table.columns.join(" ")} figure={figure} plate={`${ROMAN[at]}.`} caption="" />
        ))}
    </section>
  );
}

const ROMAN = ["I", "II", "III", "IV"];

function useNumbers({ table, measure, period, rules }: Asked, wanted: boolean) {
  return useMemo(
    () =>
      wanted
        ? {
            months: ratesOf(table, measure, period, rules),
            chart: chartOf(table, measure, period, rules),
            curve: curveOf(table, measure, rules, countPlateWords.curveDays.at(-1) ?? 90),
            map: armMap(table, measure, period, "position along the arm", rules),
          }
        : undefined,
    [table, measure, period, rules, wanted],
  );
}
