import { lazy, Suspense, type ReactNode } from "react";
import { releasedUncorrected, sayFilm, sayLineFinding } from "../../language/index.ts";
import { tipPolicyFrom } from "../../policy/index.ts";
import { filmOfLine, valueIn, type EntryOf, type LineView } from "../../register/index.ts";
import { Reason } from "../plan/reasons.tsx";
import { patientFor, useRecord } from "./record-context.tsx";
import { useLineAnswer } from "./use-line-answer.ts";

const TipPlate = lazy(() => import("./tip-plate.tsx").then((module) => ({ default: module.TipPlate })));

/** What the last film asks for, until it is corrected: one sentence with three numbers, and the spread behind it. */
export function FilmPart({ line }: { readonly line: LineView }): ReactNode {
  const { register, policy } = useRecord();
  const { release, sides } = useLineAnswer(line);
  if (!line.tip || line.end) return null;
  const said = line.tip.entry as EntryOf<"TipRead">;
  const place = valueIn(said.tipPlace);
  // while the sources name two arms the tip is drawn from neither
  const arms = [...new Set(sides.sources.flatMap(({ arm }) => (arm === undefined ? [] : [arm])))];
  const settled = sides.agree ? sides.sources.findLast(({ from }) => from === "settled by two people")?.arm : undefined;
  const drawn = settled ? [settled] : arms;
  // a film of another day, or a tip moved since, is shown as a place and no number
  const picture = place ? (
    <Suspense fallback={null}>
      <TipPlate arms={drawn} place={place} answer={undefined} />
    </Suspense>
  ) : null;
  const bornOn = patientFor(register, line.patient)?.bornOn ?? "";
  const film = filmOfLine(line, bornOn, tipPolicyFrom(policy.table));
  if (typeof film === "string") return picture;
  const { answer, releasedOnIt } = film;
  return (
    <section className="film">
      <h2>The film</h2>
      <p className="film-sentence" data-film={answer.kind}>
        {sayFilm(answer)}
      </p>
      {releasedOnIt && !release.stop ? (
        <p className="fault" role="alert">
          {releasedUncorrected}
        </p>
      ) : null}
      <ul className="reasons">
        {answer.findings.map((finding) => (
          <Reason key={finding.code} finding={finding} policy={policy} say={sayLineFinding} />
        ))}
      </ul>
      {place ? (
        <Suspense fallback={null}>
          <TipPlate arms={drawn} place={place} answer={answer} />
        </Suspense>
      ) : null}
      {answer.targets.length > 0 ? (
        <details className="numbers">
          <summary>Carina to junction, as published; those that count here</summary>
          <table>
            <tbody>
              {answer.targets.map(({ name, source, people, cm, sdCm, enabled }) => (
                <tr key={name}>
                  <th scope="row">{cm === undefined ? "no scale" : `${cm.toFixed(2)} cm`}</th>
                  <td>{sdCm === undefined ? "" : `SD ${sdCm.toFixed(2)}`}</td>
                  <td>{people}</td>
                  <td>{source}</td>
                  <td>{enabled ? "counts here" : "shown only"}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </details>
      ) : null}
    </section>
  );
}
