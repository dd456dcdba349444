import { useState, type ReactNode } from "react";
import { sayMoment } from "../../language/index.ts";
import { measured, possibleDuplicates, standing, type PatientView } from "../../register/index.ts";
import { idOf, patientOf, useAll, useRecord } from "./record-context.tsx";
import { Signer } from "../register/signer.tsx";

/** Records that may be one person: a person decides, two names sign, and it can be taken apart again. */
export function DuplicatesPage(): ReactNode {
  const patients = useAll("patient", patientOf);
  const pairs = possibleDuplicates(patients);
  const merged = patients.filter(({ sameAs }) => sameAs.length > 0);
  return (
    <main className="door-page">
      <h1>One person twice?</h1>
      {pairs.length === 0 ? <p className="soft">No two records look like one person.</p> : null}
      {pairs.map(({ a, b, reasons }) => (
        <Pair key={`${a.subject} ${b.subject}`} a={a} b={b} reasons={reasons} joined={false} />
      ))}
      {merged.map((patient) =>
        patient.sameAs.map((other) => {
          const second = patients.find(({ subject }) => subject === other);
          return second ? (
            <Pair key={`${patient.subject} ${other}`} a={patient} b={second} reasons={[]} joined />
          ) : null;
        }),
      )}
    </main>
  );
}

function Pair({
  a,
  b,
  reasons,
  joined,
}: {
  readonly a: PatientView;
  readonly b: PatientView;
  readonly reasons: readonly string[];
  readonly joined: boolean;
}): ReactNode {
  const { register } = useRecord();
  const [why, setWhy] = useState("");
  const [second, setSecond] = useState("");
  const [question, setQuestion] = useState<string>();
  const [busy, setBusy] = useState(false);
  return (
    <section className="pair">
      <table className="beside">
        <tbody>
          {(["name", "number", "bornOn"] as const).map((name) => (
            <tr key={name}>
              <th scope="row">{name === "bornOn" ? "born" : name}</th>
              <td>{a[name] || "missing"}</td>
              <td>{b[name] || "missing"}</td>
            </tr>
          ))}
          <tr>
            <th scope="row">since</th>
            {[a, b].map((one) => {
              const [first] = standing(one.happenings);
              return <td key={one.subject}>{first ? sayMoment(first.event.happenedAt) : ""}</td>;
            })}
          </tr>
        </tbody>
      </table>
      {reasons.length > 0 ? <p className="soft">Asked because of: {reasons.join(", ")}.</p> : null}
      <label className="search">
        Why?
        <input value={why} autoComplete="off" onChange={({ target }) => setWhy(target.value)} />
      </label>
      <label className="search">
        Second name
        <input value={second} autoComplete="off" onChange={({ target }) => setSecond(target.value)} />
      </label>
      <Signer
        register={register}
        busy={busy}
        question={question}
        word={joined ? "Take apart again" : "Join as one person"}
        sign={(author) => {
          if (why.trim() === "") return setQuestion("Why? Joining carries its reason.");
          if (second.trim() === "" || second.trim().toLowerCase() === author.initials.toLowerCase()) {
            return setQuestion("Two different people must put their names.");
          }
          setBusy(true);
          const data = {
            other: measured(idOf(b.subject)),
            why: measured(why.trim()),
            secondName: measured(second.trim()),
          };
          register
            .write([
              {
                subject: a.subject,
                type: joined ? "MergeUndone" : "PatientsMerged",
                data,
                happenedAt: register.now(),
                author,
              },
            ])
            .catch(() => setQuestion("This device could not keep it. Write it on paper now."))
            .finally(() => setBusy(false));
        }}
      />
    </section>
  );
}
