import { useMemo, useState, type ReactNode } from "react";
import { Link } from "wouter";
import { sayField } from "../../language/index.ts";
import { shownUnder, valueIn, type LineView, type PatientView, type ReferralView } from "../../register/index.ts";
import type { Plans } from "../storage/use-plans.ts";
import {
  otherRecordsOf,
  patientFor,
  idOf,
  lineOf,
  patientOf,
  referralOf,
  useAll,
  useRecord,
} from "./record-context.tsx";
import { lineWord } from "./line-word.ts";

/** The Record door: find a person, take a referral, write a line from its plan. */
export function RecordDoor({ plans }: { readonly plans: Plans }): ReactNode {
  const { register } = useRecord();
  const patients = useAll("patient", patientOf);
  const lines = useAll("line", lineOf);
  const referrals = useAll("referral", referralOf);
  const [asked, setAsked] = useState("");
  const found = useMemo(() => {
    const known = new Map(patients.map((patient) => [patient.subject, patient]));
    // records that two people joined are one person: found by either, shown once
    const roots = find(asked, patients).map(({ subject }) => known.get(shownUnder(subject, known)));
    return [...new Set(roots)].filter((patient) => patient !== undefined);
  }, [asked, patients]);
  const open = referrals.filter(({ standing }) => standing === "open" || standing === "waiting");
  const toPlace = referrals.filter(
    ({ standing, said }) =>
      standing === "to place" &&
      !lines.some((line) => line.patient === valueIn(said.patient) && line.end === undefined && line.placed),
  );
  const ready = [...plans.plans.values()].filter(({ voided, startedAt }) => voided === undefined && startedAt !== "");
  return (
    <main className="door-page">
      <h1>Record</h1>
      <label className="search">
        Find a person or a lot
        <input
          type="search"
          value={asked}
          autoComplete="off"
          data-search="people"
          onChange={({ target }) => setAsked(target.value)}
        />
      </label>
      {asked.trim() === "" ? null : (
        <ul className="people">
          {found.length === 0 ? <li>Nobody of that name or number here.</li> : null}
          {found.map((patient) => (
            <Person key={patient.subject} patient={patient} lines={lines} />
          ))}
        </ul>
      )}
      <p className="presses">
        <Link href="/new/patient">A person not here yet</Link> <Link href="/lots">Lots</Link>{" "}
        <Link href="/duplicates">One person twice?</Link>
      </p>
      <h2>Referrals that cannot be decided yet</h2>
      <Referrals list={open} empty="None waits." />
      <h2>To be placed</h2>
      <Referrals list={toPlace} empty="None waits." />
      <h2>Write a line from its plan</h2>
      {ready.length === 0 ? <p className="soft">No plan on this device yet.</p> : null}
      <ul className="people">
        {ready.map((plan) => (
          <li key={plan.planId}>
            <Link href={`/place/${plan.planId}`} data-place={plan.planId}>
              <b>{plan.fields["patient.name"] || "name missing"}</b>
              <span>no. {plan.fields["patient.identifier"] || "missing"}</span>
            </Link>
          </li>
        ))}
      </ul>
      <h2>Placed, not released</h2>
      <ul className="people">
        {lines
          .filter(({ placed, released, end }) => placed && !released && !end)
          .map((line) => (
            <LineItem key={line.subject} line={line} patient={patientFor(register, line.patient)} />
          ))}
      </ul>
      <Declined list={referrals.filter(({ standing }) => standing === "declined")} />
    </main>
  );
}

function Person({ patient, lines }: { readonly patient: PatientView; readonly lines: readonly LineView[] }): ReactNode {
  const { register } = useRecord();
  const id = idOf(patient.subject);
  const others = otherRecordsOf(register, patient);
  const ids = new Set([patient, ...others].map(({ subject }) => idOf(subject)));
  const own = lines.filter((line) => line.patient !== undefined && ids.has(line.patient) && line.placed);
  return (
    <li>
      <b>{patient.name || "name missing"}</b>
      <span>
        no. {patient.number || "missing"} · born {patient.bornOn || "not known"}
        {others.map(({ name, number }) => ` · also ${name || "name missing"}, no. ${number || "missing"}`)}
      </span>
      {own.map((line) => (
        <LineItem key={line.subject} line={line} patient={undefined} />
      ))}
      <Link href={`/new/referral/${id}`}>Take a referral</Link>{" "}
      <Link href={`/new/line/${id}`}>Write a line without a plan</Link>{" "}
      <Link href={`/write/patient/${id}/ArmBarred`}>Bar an arm</Link>
    </li>
  );
}

export function LineItem({
  line,
  patient,
}: {
  readonly line: LineView;
  readonly patient: PatientView | undefined;
}): ReactNode {
  return (
    <li>
      <Link href={`/line/${idOf(line.subject)}`} data-line={idOf(line.subject)}>
        {patient ? (
          <b>
            {patient.name} · no. {patient.number}
          </b>
        ) : null}
        <span>{lineWord(line)}</span>
      </Link>
    </li>
  );
}

function Referrals({ list, empty }: { readonly list: readonly ReferralView[]; readonly empty: string }): ReactNode {
  const { register } = useRecord();
  if (list.length === 0) return <p className="soft">{empty}</p>;
  return (
    <ul className="people">
      {list.map((referral) => {
        const patient = patientFor(register, valueIn(referral.said.patient));
        const id = idOf(referral.subject);
        return (
          <li key={referral.subject} data-referral={id}>
            <b>
              {patient?.name ?? "name missing"} · {valueIn(referral.said.fromWard) ?? "ward not known"}
            </b>
            <span>
              {referral.missing.length > 0
                ? `Cannot decide: ask for ${referral.missing.map(({ field }) => sayField(field).toLowerCase()).join(", ")}.`
                : (valueIn(referral.decision?.why) ?? "Everything to decide is there.")}
            </span>
            <Link href={`/write/referral/${id}/ReferralReceived`}>Add what is known</Link>{" "}
            <Link href={`/write/referral/${id}/ReferralDecided`}>Decide</Link>{" "}
            {referral.standing === "to place" ? (
              <>
                <Link href={`/write/referral/${id}/ConsentTaken`}>
                  {referral.consent ? "Consent: written" : "Consent"}
                </Link>{" "}
                <Link href={`/write/referral/${id}/TimeOutDone`}>
                  {referral.timeOut ? "Time-out: written" : "Time-out"}
                </Link>
              </>
            ) : null}
          </li>
        );
      })}
    </ul>
  );
}

function Declined({ list }: { readonly list: readonly ReferralView[] }): ReactNode {
  const { register } = useRecord();
  if (list.length === 0) return null;
  return (
    <>
      <h2>Not placed, for a good reason</h2>
      <ul className="people">
        {list.map(({ subject, said, decision }) => (
          <li key={subject}>
            <b>{patientFor(register, valueIn(said.patient))?.name ?? "name missing"}</b>
            <span>
              {valueIn(decision?.instead) ?? "nothing instead"}: {valueIn(decision?.why) ?? "no reason written"}
            </span>
          </li>
        ))}
      </ul>
    </>
  );
}

/** Names, numbers and dates that begin as asked, in any order of words, and look-alikes of what was typed. */
function find(asked: string, patients: readonly PatientView[]): readonly PatientView[] {
  const words = plain(asked).split(/\s+/).filter(Boolean);
  if (words.length === 0) return [];
  return patients
    .filter(({ name, number, bornOn }) => {
      const known = [...plain(name).split(/[\s,]+/), plain(number), plain(number).replaceAll(/\W/g, ""), bornOn];
      return words.every((word) => known.some((one) => one.startsWith(word)));
    })
    .slice(0, 20);
}

const plain = (text: string): string =>
  text
    .toLowerCase()
    .normalize("NFD")
    .replaceAll(/\p{Mark}/gu, "");
