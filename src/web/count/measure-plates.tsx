import { useEffect, useMemo, useState, type ReactNode } from "react";
import {
  armMap,
  audit,
  wardFunnel,
  type AuditRules,
  type AuditTable,
  type Figure as Counted,
  type Measure,
  type Period,
} from "../../audit/index.ts";
import {
  armMapPlate,
  controlChart,
  eventCurve,
  lineStatesPlate,
  PAGE_INK,
  spanPlate,
  wardFunnelPlate,
  type Figure,
} from "../../figure/index.ts";
import { countPlateWords, sayMeasure, sparseLines, statesRefused, tooFewToTell } from "../../language/index.ts";
import { Drawing } from "../plan/drawing.tsx";
import { useWidth } from "../plan/use-width.ts";
import { chartOf, curveOf, drawnAs, spansOf, statesOf } from "./plate-numbers.ts";
import { plateWidth } from "./plate-width.ts";

interface Asked {
  readonly figure: Counted;
  readonly table: AuditTable;
  readonly measure: Measure;
  readonly period: Period;
  readonly rules: AuditRules;
}

/** A span's column is at least this wide, and beside the columns stand the scale and the name of the line of all. */
const COLUMN = 20;
const BESIDE = 68;
const LAST_DAY = countPlateWords.curveDays.at(-1) ?? 90;

interface Drawn extends Asked {
  readonly width: number;
}
type Draw = (asked: Drawn) => Figure | undefined;
/** The plates in their order; one that has nothing to draw is left out. A share has its first alone. */
const PLATES: readonly Draw[] = [
  (asked) => {
    const most = Math.floor((asked.width - BESIDE) / COLUMN);
    return spanPlate({
      id: "count-rate",
      ...drawnAs(asked.figure, asked.measure),
      ...spansOf(asked, most),
      ...shared(asked),
    });
  },
  (asked) => {
    const chart = chartOf(asked);
    return chart && controlChart({ id: "count-chart", ...chart, ...shared(asked) });
  },
  (asked) => {
    const curve = curveOf(asked, LAST_DAY);
    return curve && !curve.tooFew ? eventCurve({ id: "count-curve", ...curve, ...shared(asked) }) : undefined;
  },
  ({ table, measure, period, rules, width }) => {
    const map = armMap(table, measure, period, "position along the arm", rules);
    return armMapPlate({ id: "count-map", ...map, ...shared({ measure, width }) });
  },
  ({ table, measure, period, rules, width }) => {
    const funnel = wardFunnel(audit(table, [measure], period, ["ward"], rules).figures, measure, rules.limits);
    return funnel && wardFunnelPlate({ ...funnel, id: "count-wards", ...shared({ measure, width }) });
  },
  (asked) => {
    const states = statesOf(asked, LAST_DAY);
    return states?.kind === "told"
      ? lineStatesPlate({ ...states, id: "count-states", width: asked.width, ink: PAGE_INK })
      : undefined;
  },
];

const shared = ({ measure, width }: Pick<Drawn, "measure" | "width">) => ({
  title: sayMeasure(measure.id),
  clock: measure.clock,
  width,
  ink: PAGE_INK,
});

/** The plates of a measure of events, one after the other: none holds up the number that was pressed. */
export function MeasurePlates(asked: Asked): ReactNode {
  const [ref, measured] = useWidth();
  const width = plateWidth(measured);
  const { table, measure, period } = asked;
  const wanted =
    measure.numerator.count === "events" ? PLATES.length : asked.figure.interval.name === "exact binomial" ? 1 : 0;
  const question = `${measure.id} ${period.from} ${period.to}`;
  const [ready, setReady] = useState({ table, question, plates: 0 });
  const plates = ready.table === table && ready.question === question ? ready.plates : 0;
  useEffect(() => {
    if (plates >= wanted) return undefined;
    const next = setTimeout(() => setReady({ table, question, plates: plates + 1 }));
    return () => clearTimeout(next);
  }, [table, question, plates, wanted]);
  if (wanted === 0) return null;
  return (
    <section ref={ref} className="count-plates" aria-label={`Plates: ${sayMeasure(measure.id)}`}>
      {PLATES.slice(0, plates).map((draw, at) => (
        <Plate key={ROMAN[at]} draw={draw} name={`${ROMAN[at]}.`} asked={asked} width={width} />
      ))}
      {plates < wanted ? <p className="waiting">Drawing ...</p> : wanted > 1 ? <PlateNotes {...asked} /> : null}
    </section>
  );
}

/** What the curves rest on, and why one was not drawn: what was found, the rule, what to do. */
function PlateNotes(asked: Asked): ReactNode {
  const curve = curveOf(asked, LAST_DAY);
  const states = statesOf(asked, LAST_DAY);
  return (
    <>
      {curve?.tooFew ? (
        <p className="soft" data-no-curve>
          {tooFewToTell(curve.events, asked.rules.limits.fewestForEstimate)}
        </p>
      ) : null}
      {curve && !curve.tooFew
        ? sparseLines(curve.guards).map((line) => (
            <p key={line} className="soft" data-guard>
              {line}
            </p>
          ))
        : null}
      {states && states.kind !== "told" ? (
        <p className="soft" data-no-states>
          {statesRefused(states).join(" ")}
        </p>
      ) : null}
    </>
  );
}

const ROMAN = ["I", "II", "III", "IV", "V", "VI"];

function Plate({
  draw,
  name,
  asked: { table, figure: counted, measure, period, rules },
  width,
}: {
  readonly draw: Draw;
  readonly name: string;
  readonly asked: Asked;
  readonly width: number;
}): ReactNode {
  const figure = useMemo(
    () => draw({ table, figure: counted, measure, period, rules, width }),
    [draw, table, counted, measure, period, rules, width],
  );
  return figure ? <Drawing figure={figure} plate={name} caption="" /> : null;
}
