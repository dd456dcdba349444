import { useState, type ReactNode } from "react";
import { Link, useLocation } from "wouter";
import { draftOfEntry, readEntryDraft, type Typed } from "../../contract/index.ts";
import { sayEvent, sayFault, sayField, sayMoment, sayRecorded } from "../../language/index.ts";
import { fieldsOf, readHistory, subjectKind, valueIn, type Json, type Subject } from "../../register/index.ts";
import { FieldInput } from "./field-input.tsx";
import { historyOf, lineOf, patientFor, useRecord } from "./record-context.tsx";
import { Signer } from "../register/signer.tsx";
import { Who } from "./who.tsx";

/** Corrects one value of an entry of a line or of the service, or voids it; what stood before stays, struck. */
export function CorrectPage({
  subject,
  event: eventId,
  back,
}: {
  readonly subject: Subject;
  readonly event: string;
  /** The page the entry is read on. */
  readonly back: string;
}): ReactNode {
  const { register } = useRecord();
  const [, go] = useLocation();
  const kind = subjectKind(subject);
  const history = historyOf(register, subject);
  const line = kind === "line" ? lineOf(history) : undefined;
  const happening = readHistory(history).find(({ event }) => event.id === eventId);
  const [field, setField] = useState("");
  const [typed, setTyped] = useState<Typed>({ text: "" });
  const [why, setWhy] = useState("");
  if (!happening) return <p className="headline">This entry is not on this device.</p>;
  const fields = fieldsOf(kind, happening.event.type) ?? {};
  const chosen = fields[field];
  const write = async (
    type: "ValueCorrected" | "EventVoided",
    data: Readonly<Record<string, Json>>,
    author: Parameters<Parameters<typeof Signer>[0]["sign"]>[0],
  ) => {
    await register.write([{ subject, type, data, happenedAt: register.now(), author }]);
    go(back);
  };
  const old = (line?.papers ?? []).filter(({ outdatedBy }) => outdatedBy === undefined);
  return (
    <>
      {line ? <Who patient={patientFor(register, line.patient)} arm={valueIn(line.said.arm)} /> : null}
      <main className="write">
        <h1 className="headline">
          Correct: {sayEvent(happening.event.type)}, {sayMoment(happening.event.happenedAt)}
        </h1>
        <label className="search">
          Which answer is wrong?
          <select
            value={field}
            data-correct="field"
            onChange={({ target }) => {
              setField(target.value);
              setTyped(draftOfEntry(happening.entry)[target.value] ?? { text: "" });
            }}
          >
            <option value="">choose</option>
            <option value="all of it">all of it: this never happened here</option>
            {Object.entries(fields)
              .filter(([, { kind }]) => kind !== "reference")
              .map(([name, described]) => (
                <option key={name} value={name}>
                  {sayField(name)}: {sayRecorded(described, happening.entry[name])}
                </option>
              ))}
          </select>
        </label>
        {chosen ? <FieldInput name={field} field={chosen} typed={typed} set={setTyped} /> : null}
        {field === "" ? null : (
          <>
            <label className="search">
              Why?
              <input
                value={why}
                data-correct="why"
                autoComplete="off"
                onChange={({ target }) => setWhy(target.value)}
              />
            </label>
            {old.length > 0 ? (
              <p className="soft">
                Printed and to be printed again: {old.map(({ paper, issue }) => `${paper} ${issue}`).join(", ")}.
              </p>
            ) : null}
            <CorrectionSigning
              ready={() => {
                if (why.trim() === "") return "Why? A correction carries its reason.";
                if (!chosen) return undefined;
                const { entry, faults } = readEntryDraft(
                  { [field]: chosen },
                  { [field]: { ...typed, from: "measured" } },
                );
                const [fault] = faults;
                if (fault) return sayFault({ ...fault, path: sayField(field) });
                return entry[field] === undefined ? "Type the value, or say why it is absent." : undefined;
              }}
              sign={(author) => {
                if (!chosen) return write("EventVoided", { event: eventId, why: why.trim() }, author);
                const { entry } = readEntryDraft({ [field]: chosen }, { [field]: { ...typed, from: "measured" } });
                const value = entry[field] as unknown as Json;
                return write("ValueCorrected", { event: eventId, field, value, why: why.trim() }, author);
              }}
            />
          </>
        )}
        <p>
          <Link href={back}>Back without correcting</Link>
        </p>
      </main>
    </>
  );
}

type SignProps = Parameters<typeof Signer>[0];

function CorrectionSigning({
  ready,
  sign,
}: {
  readonly ready: () => string | undefined;
  readonly sign: (author: Parameters<SignProps["sign"]>[0]) => Promise<void>;
}): ReactNode {
  const { register } = useRecord();
  const [question, setQuestion] = useState<string>();
  const [busy, setBusy] = useState(false);
  return (
    <Signer
      register={register}
      busy={busy}
      question={question}
      word="Sign the correction"
      sign={(author) => {
        const asked = ready();
        setQuestion(asked);
        if (asked !== undefined) return;
        setBusy(true);
        sign(author)
          .catch(() => setQuestion("This device could not keep the correction. Copy it to paper now."))
          .finally(() => setBusy(false));
      }}
    />
  );
}
