import { lazy, Suspense, type ReactNode } from "react";
import { completedYears, parseCivilDate, civilDateOf } from "../../core/calendar/index.ts";
import { missing } from "../../core/missing/index.ts";
import { centimetre } from "../../core/quantity/index.ts";
import { correctFilm, type FilmReading } from "../../core/tip/index.ts";
import { releasedUncorrected, sayFilm, sayLineFinding } from "../../language/index.ts";
import { tipPolicyFrom } from "../../policy/index.ts";
import { confirmedIn, valueIn, type EntryOf, type LineView } from "../../register/index.ts";
import { Reason } from "../plan/reasons.tsx";
import { patientFor, useRecord } from "./record-context.tsx";

const none = missing("not asked");
const TipPlate = lazy(() => import("./tip-plate.tsx").then((module) => ({ default: module.TipPlate })));

/** What the last film asks for, until it is corrected: one sentence with three numbers, and the spread behind it. */
export function FilmPart({ line }: { readonly line: LineView }): ReactNode {
  const { register, policy } = useRecord();
  if (!line.tip || line.end) return null;
  const said = line.tip.entry as EntryOf<"TipRead">;
  const place = valueIn(said.tipPlace);
  const side = valueIn(said.arm) ?? valueIn(line.said.arm);
  // a film of another day, or a tip moved since, is shown as a place and no number
  const picture = place ? (
    <Suspense fallback={null}>
      <TipPlate side={side} place={place} answer={undefined} />
    </Suspense>
  ) : null;
  if (line.tipCorrected) return picture;
  // once its length was read again, the film's numbers are of another day; a release alone corrects nothing
  const readSince = line.outside.at(-1)?.event !== line.tip.event.id;
  const releasedOnIt = line.released !== undefined && line.released.event.happenedAt >= line.tip.event.happenedAt;
  if (readSince || valueIn(said.method) !== "film") return picture;
  const born = parseCivilDate(patientFor(register, line.patient)?.bornOn ?? "");
  const length = (cm: number | undefined) => (cm === undefined ? none : centimetre(cm));
  const reading: FilmReading = {
    place: valueIn(said.tipPlace) ?? none,
    filmCm: length(confirmedIn(said.filmCm)),
    magnification: confirmedIn(said.magnification) ?? none,
    unitOnFilmCm: length(confirmedIn(said.unitOnFilmCm)),
    ageYears: born ? completedYears(born, civilDateOf(line.tip.event.happenedAt)) : none,
    arm: valueIn(said.armPosition) ?? none,
    armConfirmedBy: "",
    outsideCm: length(confirmedIn(said.outsideCm)),
    insideCm: length(confirmedIn(said.insideCm)),
    symptoms: none,
  };
  const answer = correctFilm(reading, tipPolicyFrom(policy.table));
  // what was left where it lies needs no sentence after its release
  if (releasedOnIt && answer.kind !== "withdraw") return picture;
  return (
    <section className="film">
      <h2>The film</h2>
      <p className="film-sentence" data-film={answer.kind}>
        {sayFilm(answer)}
      </p>
      {releasedOnIt ? (
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
          <TipPlate side={side} place={place} answer={answer} />
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
