import { useState, type ReactNode } from "react";
import { useLocation } from "wouter";
import { sayWrite } from "../../language/index.ts";
import { fieldsOf, measured, type EventType, type Subject } from "../../register/index.ts";
import { EntryForm } from "./entry-form.tsx";
import { LINE_PARTS } from "./line-parts.ts";
import { patientFor, useRecord } from "./record-context.tsx";
import { Who } from "./who.tsx";

const STARTS: Readonly<Record<string, { readonly type: EventType; readonly title: string }>> = {
  patient: { type: "PatientRegistered", title: "A person new to this record" },
  referral: { type: "ReferralReceived", title: sayWrite("ReferralReceived") },
  line: { type: "LineFound", title: "A line without a plan here" },
  lot: { type: "LotReceived", title: sayWrite("LotReceived") },
};

/** Writes the first event of a new subject. */
export function NewPage({ kind, of }: { readonly kind: string; readonly of?: string | undefined }): ReactNode {
  const { register } = useRecord();
  const [, go] = useLocation();
  const [id] = useState(() => register.newId());
  const start = Object.hasOwn(STARTS, kind) ? STARTS[kind] : undefined;
  const fields = start && fieldsOf(kind, start.type);
  if (!start || !fields) return <p className="headline">Nothing of this kind can be written here.</p>;
  return (
    <>
      {of === undefined ? null : <Who patient={patientFor(register, of)} />}
      <main className="write">
        <h1 className="headline">{start.title}</h1>
        <EntryForm
          draftKey={`new ${kind} ${of ?? ""}`}
          fields={fields}
          start={of === undefined ? {} : { patient: measured(of) }}
          {...(kind === "line" && LINE_PARTS["LineInserted"] ? { parts: LINE_PARTS["LineInserted"] } : {})}
          sign={async ({ entry, happenedAt, author }) => {
            const subject = `${kind}:${id}` as Subject;
            await register.write([{ subject, type: start.type, data: entry, happenedAt, author }]);
            go(kind === "line" ? `/line/${id}` : kind === "lot" ? "/lots" : "/record");
            return undefined;
          }}
        />
      </main>
    </>
  );
}
