import { Fragment, type ReactNode } from "react";
import { Link } from "wouter";
import {
  caseWords,
  peopleWords,
  sayEvent,
  sayLineFinding,
  sayMissing,
  sayMoment,
  sayWrite,
} from "../../language/index.ts";
import { LINE_PAPER_NAMES, valueIn, type EventType, type LineView, type Subject } from "../../register/index.ts";
import { FilmPart } from "./film-part.tsx";
import { LengthPlate } from "./length-plate.tsx";
import { LyticPart } from "./lytic-part.tsx";
import { LineAnswer } from "./line-answer.tsx";
import { historyOf, lineOf, patientFor, useRecord } from "./record-context.tsx";
import { Timeline } from "./timeline.tsx";
import { armsDiffer, useLineAnswer } from "./use-line-answer.ts";
import { Who } from "./who.tsx";

/** What is written about a line, in the order of its life. */
const WRITES: readonly (readonly [title: string, types: readonly EventType[]])[] = [
  ["Tip and release", ["TipRead", "TipCorrected", "LineReleased", "SideSettled", "StopOverridden"]],
  ["Care", ["CareGiven", "LineUsed", "OwnerNamed", "LotAttached"]],
  ["Trouble", ["PatencyStepTaken", "InfectionSuspected", "CulturesTaken", "InfectionConcluded", "ClotLookedFor"]],
  ["The end", ["LineRemoved", "LineHandedOn", "EndUnknown"]],
];

/** A line's own page: may it be used, what is due, then and now, and everything that was written. */
export function LinePage({ id }: { readonly id: string }): ReactNode {
  const { register } = useRecord();
  const subject: Subject = `line:${id}`;
  const line = lineOf(historyOf(register, subject));
  const { release, sides } = useLineAnswer(line);
  const { stop } = release;
  if (!line.placed && line.happenings.length === 0) {
    return (
      <main className="line-page">
        <p className="headline">This line is not on this device.</p>
        {register.account === "" ? null : <InNeed />}
      </main>
    );
  }
  return (
    <>
      <Who patient={patientFor(register, line.patient)} arm={valueIn(line.said.arm)} differ={armsDiffer(sides)} />
      <main className="line-page">
        {register.account !== "" && line.patient !== undefined && !patientFor(register, line.patient) ? (
          <InNeed patient={line.patient} />
        ) : null}
        <LyticPart line={line} />
        <LineAnswer line={line} />
        <FilmPart line={line} />
        <LengthPlate line={line} />
        {line.disputes.length > 0 ? <Disputes line={line} id={id} /> : null}
        <nav className="writes" aria-label="Write">
          {WRITES.map(([title, types]) => (
            <div key={title}>
              <h2>{title}</h2>
              {types
                .filter((type) => fits(line, type))
                .map((type) => (
                  <Fragment key={type}>
                    <Link href={`/write/line/${id}/${type}`} data-write={type}>
                      {sayWrite(type)}
                    </Link>
                    {type === "LineReleased" && stop && line.tip ? (
                      <span className="stop-word">Stop. {sayLineFinding(stop)}</span>
                    ) : null}
                  </Fragment>
                ))}
            </div>
          ))}
        </nav>
        <section>
          <h2>From first to last</h2>
          <Timeline line={line} />
          {line.placed && line.missing.length > 0 ? <p className="soft">{sayMissing(line.missing)}</p> : null}
        </section>
        <Papers line={line} id={id} />
      </main>
    </>
  );
}

/** The way to a record this account has no copy of; the server asks for the reason and tells the lead. */
function InNeed({ patient }: { readonly patient?: string }): ReactNode {
  return (
    <p className="presses">
      <Link href={patient === undefined ? "/in-need" : `/in-need/${patient}`} data-in-need="">
        {peopleWords.needHeadline}
      </Link>
    </p>
  );
}

function fits(line: LineView, type: EventType): boolean {
  const out = line.end !== undefined && line.end.kind !== "unknown";
  if (out) return ["InfectionConcluded", "CulturesTaken", "LotAttached"].includes(type);
  if (type === "TipCorrected" || type === "LineReleased") return line.tip !== undefined;
  return type !== "LotAttached" || valueIn(line.said.lotNumber) === undefined;
}

function Disputes({ line, id }: { readonly line: LineView; readonly id: string }): ReactNode {
  return (
    <section className="disputes" role="alert">
      <h2>Two people wrote this, neither knowing of the other</h2>
      <ul className="plain">
        {line.disputes.map(({ first, second, fields }) => (
          <li key={second.id}>
            {sayEvent(first.type)} by {first.author.initials} and by {second.author.initials}: they differ in{" "}
            {fields.length === 1 ? "one answer" : `${fields.length} answers`}.{" "}
            <Link href={`/settle/${id}/${second.id}`}>Put them side by side</Link>
          </li>
        ))}
      </ul>
    </section>
  );
}

function Papers({ line, id }: { readonly line: LineView; readonly id: string }): ReactNode {
  const old = line.papers.filter(({ outdatedBy }) => outdatedBy !== undefined);
  return (
    <section className="papers">
      <h2>Paper</h2>
      {old.length > 0 ? (
        <output className="again-print">
          Printed before something changed:{" "}
          {old.map(({ paper, issue, at }) => `${paper} ${issue} of ${sayMoment(at)}`).join("; ")}. Print these again.
        </output>
      ) : null}
      <p className="presses">
        {LINE_PAPER_NAMES.filter((paper) => line.placed && (paper !== "removal slip" || line.end !== undefined)).map(
          (paper) => (
            <Link key={paper} href={`/paper/${id}/${encodeURIComponent(paper)}`} data-paper-link={paper}>
              {paper}
            </Link>
          ),
        )}
        {line.placed ? (
          <Link href={`/case/${id}`} data-paper-link="case">
            {caseWords.link}
          </Link>
        ) : null}
      </p>
    </section>
  );
}
