import { useMemo, useState, type ReactNode } from "react";
import { Link, useLocation } from "wouter";
import { planPolicyFrom, tableWithValues } from "../../policy/index.ts";
import { lineEvents, measured, valueIn, type PlanState, type Subject } from "../../register/index.ts";
import { EntryForm } from "./entry-form.tsx";
import { LINE_PARTS } from "./line-parts.ts";
import { plannedLine } from "./plan-entry.ts";
import { idOf, patientOf, referralOf, useAll, useRecord } from "./record-context.tsx";
import { Who } from "./who.tsx";

/** Writes a line from its plan: what is as planned is confirmed, what differs is typed, the rest may wait. */
export function PlacePage({ plan }: { readonly plan: PlanState }): ReactNode {
  const { register, policy } = useRecord();
  const [, go] = useLocation();
  const patients = useAll("patient", patientOf);
  const referrals = useAll("referral", referralOf);
  const planned = useMemo(
    () => plannedLine(plan.fields, planPolicyFrom(tableWithValues(policy.table, plan.policyValues))),
    [plan, policy],
  );
  const known = patients.find(({ number }) => number !== "" && number === planned.number);
  // the identifiers are made once, so that a second try after a fault is the same line
  const [ids] = useState(() => ({ patient: register.newId(), referral: register.newId(), line: register.newId() }));
  const patient = known ? idOf(known.subject) : ids.patient;
  const open =
    known && referrals.find(({ said, standing }) => standing === "to place" && valueIn(said.patient) === patient);
  const referral: Subject = open ? open.subject : `referral:${ids.referral}`;
  return (
    <>
      <Who patient={known} arm={valueIn(planned.agreed.arm)}>
        {known ? null : (
          <p>
            {planned.name || "name missing"} · no. {planned.number || "missing"}: new to this record
          </p>
        )}
      </Who>
      <main className="write">
        <h1 className="headline">Write the line as it was placed</h1>
        <EntryForm
          draftKey={`place ${plan.planId}`}
          fields={lineEvents.LineInserted}
          start={{ ...planned.start, patient: measured(patient), referral: measured(idOf(referral)) }}
          {...(LINE_PARTS["LineInserted"] ? { parts: LINE_PARTS["LineInserted"] } : {})}
          sign={async ({ entry, happenedAt, author }) => {
            if (planned.number === "" || planned.name === "")
              return "Name and number are missing. Write both in the plan first.";
            const stamp = { happenedAt, author };
            await register.write([
              ...(known
                ? []
                : [
                    {
                      subject: `patient:${patient}` as Subject,
                      type: "PatientRegistered",
                      data: { number: measured(planned.number), name: measured(planned.name) },
                      ...stamp,
                    },
                  ]),
              {
                subject: referral,
                type: "PlanAgreed",
                data: { ...planned.agreed, plan: measured(plan.planId), agreedBy: measured(author.initials) },
                ...stamp,
              },
              { subject: `line:${ids.line}`, type: "LineInserted", data: entry, ...stamp },
            ]);
            go(`/line/${ids.line}`);
            return undefined;
          }}
        />
        <p>
          <Link href={`/plan/${plan.planId}`}>Back to the plan</Link>
        </p>
      </main>
    </>
  );
}
