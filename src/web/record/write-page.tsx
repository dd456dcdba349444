import type { ReactNode } from "react";
import { Link, useLocation } from "wouter";
import type { Finding } from "../../core/reason/index.ts";
import { TIP_STOP } from "../../core/release/index.ts";
import { sayLineFinding, sayLineRefusal, sayRoleRefused, sayWrite } from "../../language/index.ts";
import {
  answerLine,
  decideLine,
  fieldsOf,
  mayWrite,
  measured,
  subjectKind,
  valueIn,
  type Entry,
  type EventType,
  type Subject,
} from "../../register/index.ts";
import { EntryForm } from "./entry-form.tsx";
import { LINE_PARTS } from "./line-parts.ts";
import { historyOf, idOf, lineOf, patientFor, referralOf, useRecord } from "./record-context.tsx";
import { TipStop } from "./tip-stop.tsx";
import { plannedFor, rulesFrom } from "./use-line-answer.ts";
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
      <Who patient={patientFor(register, patientId)} arm={valueIn(line?.said.arm)} />
      <h1 className="headline">{sayWrite(type)}</h1>
      {stopped && type === "LineReleased" ? <TipStop stop={stopped} id={idOf(subject)} /> : null}
      {stopped && type === "StopOverridden" ? <p data-stop={stopped.code}>{sayLineFinding(stopped)}</p> : null}
      <EntryForm
        key={`${subject} ${type}`}
        draftKey={`${subject} ${type}`}
        fields={fields}
        start={known}
        {...(LINE_PARTS[type] ? { parts: LINE_PARTS[type] } : {})}
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

/** What the record already knows and a person would otherwise type again; it is shown, and changed if it is wrong. */
function knownFor(type: EventType, line: ReturnType<typeof lineOf>, stop: Finding | undefined): Entry {
  if (type === "StopOverridden" && stop) return { code: measured(TIP_STOP) };
  if (type === "OwnerNamed" && line.owner) {
    const { place, setting, phone } = line.owner;
    return { place: measured(place), phone: measured(phone), ...(setting ? { setting: measured(setting) } : {}) };
  }
  return {};
}
