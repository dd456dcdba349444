import type { ReactNode } from "react";
import type { AuditReport, Figure, Measure } from "../../audit/index.ts";
import { figureNumber, sayFigure, sayGaps, sayMeasure, sayProvisional } from "../../language/index.ts";
import { goToCount, type CountAddress } from "./count-address.ts";

/** One figure: its number to press, its name, its sentence, and what is missing or may still change. */
export function FigureRow({
  figure,
  measure,
  report,
  pressed,
  address,
  children,
}: {
  readonly figure: Figure;
  readonly measure: Measure;
  readonly report: AuditReport;
  readonly pressed: boolean;
  readonly address: CountAddress;
  readonly children: ReactNode;
}): ReactNode {
  const { value, over } = figureNumber(figure, measure);
  const name = sayMeasure(measure.id);
  const whole = sayFigure(figure, measure);
  const sentence = whole.slice(name.length + 2);
  const notes =
    figure.form === "never written down"
      ? []
      : [sayGaps(figure, measure), sayProvisional(figure, report)].filter((note) => note !== undefined);
  return (
    <li data-measure={measure.id}>
      <button
        type="button"
        className="figure-number"
        aria-expanded={pressed}
        data-press={measure.id}
        onClick={() => goToCount({ ...address, measure: pressed ? undefined : measure.id, part: undefined })}
      >
        <b>{value}</b>
        {over ? <span>{over}</span> : null}
        <span className="live">: {name}, its sum and its lines</span>
      </button>
      <div className="figure-words">
        <h3>{name}</h3>
        {figure.denominator === undefined ? null : <p>{sentence}</p>}
        {notes.map((note) => (
          <p key={note} className="soft">
            {note}
          </p>
        ))}
      </div>
      {children}
    </li>
  );
}
