import type { ReactNode } from "react";
import { Link, useLocation } from "wouter";
import type { Finding } from "../../core/reason/index.ts";
import { OPEN_SIGN, SIGN_STOP, TIP_STOP } from "../../core/release/index.ts";
import { lengthChange } from "../../core/tip/index.ts";
import { releasePolicyFrom, type LocalPolicy } from "../../policy/index.ts";
import { sayLineFinding, sayLineRefusal, sayRoleRefused, sayWrite } from "../../language/index.ts";
import {
  answerLine,
  confirmedIn,
  decideLine,
  fieldsOf,
  mayWrite,
  measured,
  outsideAtTip,
  subjectKind,
  valueIn,
  type Entry,
  type EntryOf,
  type EventType,
  type LineView,
  type Subject,
} from "../../register/index.ts";
import { BlockedSteps, forgetSteps } from "./blocked-steps.tsx";
import { EntryForm } from "./entry-form.tsx";
import { FilmLive } from "./film-live.tsx";
import { LengthLive } from "./length-live.tsx";
import { LyticPart } from "./lytic-part.tsx";
import { LINE_PARTS } from "./line-parts.ts";
import { historyOf, idOf, lineOf, patientFor, referralOf, useRecord } from "./record-context.tsx";
import { TipStop } from "./tip-stop.tsx";
import { armsDiffer, plannedFor, rulesFrom } from "./use-line-answer.ts";
import { Who } from "./who.tsx";

/** Writes one event about a subject that is already in the record. */
export function WritePage({ subject, type }: { readonly subject: Subject; readonly type: EventType }): ReactNode {
  const { register, policy } = useRecord();
  const [, go] = useLocation();
  const kind = subjectKind(subject);
  const fields = fieldsOf(kind, type);
  const history = historyOf(register, subject);
  const line = kind === "line" ? lineOf(history) : undefined;
  const patientId =
    kind === "patient"
      ? idOf(subject)
      : (line?.patient ?? valueIn(kind === "referral" ? referralOf(history).said.patient : undefined));
  const back = kind === "line" ? `/line/${idOf(subject)}` : "/record";
  if (!fields) return <p className="headline">Nothing of this kind can be written here.</p>;
  const judged =
    line && answerLine(line, plannedFor(register, line), register.now(), register.now(), rulesFrom(policy));
  const stop = judged?.release.stop;
  const known = line ? knownFor(type, line, stop) : {};
  const stopped = type === "LineReleased" || type === "StopOverridden" ? stop : undefined;
  return (
    <main className="write">
      <Who
        patient={patientFor(register, patientId)}
        arm={valueIn(line?.said.arm)}
        differ={judged ? armsDiffer(judged.sides) : false}
      />
      <h1 className="headline">{sayWrite(type)}</h1>
      {stopped && type === "LineReleased" ? <TipStop stop={stopped} id={idOf(subject)} /> : null}
      {stopped && type === "StopOverridden" ? <p data-stop={stopped.code}>{sayLineFinding(stopped)}</p> : null}
      <EntryForm
        key={`${subject} ${type}`}
        draftKey={`${subject} ${type}`}
        fields={fields}
        start={known}
        {...(LINE_PARTS[type] ? { parts: LINE_PARTS[type] } : {})}
        above={(put) => aboveEntry(type, subject, line, put)}
        {...(line ? { beside: (name, entry) => besideField(type, name, entry, line) } : {})}
        opens={(title, entry) => (line ? opensGroup(title, entry, line, policy) : false)}
        sign={async ({ entry, happenedAt, author }) => {
          if (!mayWrite([author.role], type)) return sayRoleRefused(author.role);
          if (line) {
            const now = register.now();
            const rules = rulesFrom(policy);
            const { sides, release } = answerLine(line, plannedFor(register, line), now, now, rules);
            const { overrideRoles } = rules.release;
            const decision = decideLine(
              line,
              type,
              entry,
              { happenedAt, writtenAt: now, author },
              { sidesAgree: sides.agree, stop: release.stop, overrideRoles },
            );
            if (decision.kind === "refused") return sayLineRefusal(decision.code);
          }
          await register.write([{ subject, type, data: entry, happenedAt, author }]);
          if (type === "PatencyStepTaken") forgetSteps(subject);
          go(back);
          return undefined;
        }}
      />
      <p>
        <Link href={back}>Back without writing</Link>
      </p>
    </main>
  );
}

/** A blocked line is led step by step; the entry under it fills as it goes. */
function aboveEntry(
  type: EventType,
  subject: Subject,
  line: LineView | undefined,
  put: Parameters<typeof BlockedSteps>[0]["put"],
): ReactNode {
  if (type !== "PatencyStepTaken") return null;
  return (
    <>
      {line ? <LyticPart line={line} /> : null}
      <BlockedSteps subject={subject} put={put} />
    </>
  );
}

/** What a length or a film says while it is typed. */
function besideField(type: EventType, name: string, entry: Entry, line: LineView): ReactNode {
  if (type === "TipRead" && name === "unitOnFilmCm") return <FilmLive line={line} entry={entry} />;
  const isLength = type === "CareGiven" && (name === "outsideCm" || name === "secondMeasureCm");
  const cm = isLength ? confirmedIn((entry as EntryOf<"CareGiven">)[name]) : undefined;
  return cm === undefined ? null : <LengthLive line={line} outsideCm={cm} />;
}

/** A second measurer is asked for once the length moved, the dressing once it was changed. */
function opensGroup(title: string, entry: Entry, line: LineView, { table }: LocalPolicy): boolean {
  const said = entry as EntryOf<"CareGiven">;
  if (title === "Which dressing is on now") return valueIn(said.dressingChanged) === true;
  const [base, now] = [outsideAtTip(line)?.value, confirmedIn(said.outsideCm)];
  if (title !== "A second person measured" || base === undefined || now === undefined) return false;
  return lengthChange(now - base, releasePolicyFrom(table)) !== "noise";
}

/** What the record already knows and a person would otherwise type again; it is shown, and changed if it is wrong. */
function knownFor(type: EventType, line: LineView, stop: Finding | undefined): Entry {
  if (type === "StopOverridden" && stop) {
    return { code: measured(stop.code === OPEN_SIGN ? SIGN_STOP : TIP_STOP) };
  }
  if (type === "OwnerNamed" && line.owner) {
    const { place, setting, phone } = line.owner;
    return { place: measured(place), phone: measured(phone), ...(setting ? { setting: measured(setting) } : {}) };
  }
  return {};
}
