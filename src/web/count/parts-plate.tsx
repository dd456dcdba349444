import { useMemo, type ReactNode } from "react";
import type { Figure, Measure } from "../../audit/index.ts";
import { PAGE_INK, partsPlate, spanValueOf } from "../../figure/index.ts";
import { sayMeasure } from "../../language/index.ts";
import { Drawing } from "../plan/drawing.tsx";
import { useWidth } from "../plan/use-width.ts";
import { plateWidth } from "./plate-width.ts";
import { drawnAs } from "./plate-numbers.ts";

/** The parts of a pressed number side by side with their intervals; nothing where its parts have none. */
export function PartsPlate({
  parts,
  whole,
  measure,
}: {
  readonly parts: readonly Figure[];
  readonly whole: Figure;
  readonly measure: Measure;
}): ReactNode {
  const [ref, measured] = useWidth();
  const width = plateWidth(measured);
  const figure = useMemo(() => {
    const drawn = parts.flatMap((part) =>
      part.stratum === undefined || part.denominator === undefined || part.form === "never written down"
        ? []
        : [{ ...spanValueOf(part), name: `${part.stratum.by} ${part.stratum.value}` }],
    );
    return drawn.length < 2 || whole.interval.limits === undefined
      ? undefined
      : partsPlate({
          id: "count-parts",
          title: sayMeasure(measure.id),
          ...drawnAs(whole, measure),
          parts: drawn,
          width,
          ink: PAGE_INK,
        });
  }, [parts, whole, measure, width]);
  return (
    <section ref={ref} aria-label={`Parts: ${sayMeasure(measure.id)}`}>
      {figure ? <Drawing figure={figure} plate="" caption="" /> : null}
    </section>
  );
}
