import { useId, useState, type ReactNode } from "react";
import { sayEvent, sayField, sayMoment, sayRecorded, settleWords } from "../../language/index.ts";
import { fieldsOf, subjectKind, type Author, type Happening, type Json, type Recorded } from "../../register/index.ts";
import type { OpenDispute } from "./open-disputes.ts";
import type { Register, Writing } from "./register.ts";
import { Signer } from "./signer.tsx";

/** Two entries that say the same thing differently, side by side; a person says with a reason which one holds. */
export function DisputeEntry({
  dispute,
  register,
  name,
}: {
  readonly dispute: OpenDispute;
  readonly register: Register;
  readonly name: string;
}): ReactNode {
  const { history, happenings, fields } = dispute;
  const known = fieldsOf(subjectKind(history.subject), dispute.first.type) ?? {};
  const [holds, setHolds] = useState<0 | 1>();
  const [mistake, setMistake] = useState(false);
  const [why, setWhy] = useState("");
  const [asked, setAsked] = useState<string>();
  const [busy, setBusy] = useState(false);
  const id = useId();

  const settle = (author: Author): void => {
    if (holds === undefined) return setAsked(settleWords.chooseMissing);
    if (why.trim() === "") return setAsked(settleWords.whyMissing);
    setAsked(undefined);
    setBusy(true);
    register
      .write(settling(dispute, holds, mistake, why.trim(), author, register))
      .catch(() => undefined) // not kept: the device's own line tells it, and both entries stay
      .finally(() => setBusy(false));
    return undefined;
  };

  return (
    <section className="dispute" data-settle="dispute">
      <h2>{settleWords.differs}</h2>
      <p>
        <b>{sayEvent(dispute.first.type)}</b> <span data-name="">{name}</span>
      </p>
      <table>
        <thead>
          <tr>
            <th scope="col">{settleWords.answer}</th>
            {happenings.map(({ event }) => (
              <th key={event.id} scope="col">
                {event.author.initials}, {event.author.role}
                <span className="soft">
                  {sayMoment(event.happenedAt)}, {event.device}
                </span>
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {fields.map((field) => (
            <tr key={field}>
              <th scope="row">{sayField(field)}</th>
              {happenings.map(({ event, entry }) => (
                <td key={event.id}>{known[field] ? sayRecorded(known[field], entry[field]) : settleWords.notAsked}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      <fieldset className="choice">
        <legend>{settleWords.holds}</legend>
        {happenings.map(({ event }, at) => (
          <label key={event.id} className={holds === at ? "pressed" : undefined}>
            <input
              type="radio"
              name={id}
              checked={holds === at}
              data-settle={`holds-${at}`}
              onChange={() => setHolds(at as 0 | 1)}
            />
            {settleWords.entryOf} {event.author.initials}
          </label>
        ))}
      </fieldset>
      <label className="tick">
        <input type="checkbox" checked={mistake} onChange={({ target }) => setMistake(target.checked)} />
        {settleWords.neverHappened}
      </label>
      <p className="soft">{mistake ? settleWords.voidHow : settleWords.both}</p>
      <p className="secret-field">
        <label htmlFor={`${id}-why`}>{settleWords.why}</label>
        <input
          id={`${id}-why`}
          value={why}
          autoComplete="off"
          data-settle="why"
          onChange={({ target }) => setWhy(target.value)}
        />
      </p>
      <Signer register={register} busy={busy} question={asked} sign={settle} word={settleWords.settle} />
    </section>
  );
}

/** What is written: each differing value of the entry that does not hold is corrected, or the whole entry voided. */
function settling(
  { history, happenings, fields }: OpenDispute,
  holds: 0 | 1,
  mistake: boolean,
  why: string,
  author: Author,
  register: Register,
): readonly Writing[] {
  const held = happenings[holds];
  const other = happenings[holds === 0 ? 1 : 0];
  const about = { subject: history.subject, happenedAt: register.now(), author };
  if (mistake) return [{ ...about, type: "EventVoided", data: { event: other.event.id, why } }];
  return fields.map((field) => ({
    ...about,
    type: "ValueCorrected",
    data: { event: other.event.id, field, value: valueOf(held, field), why },
  }));
}

const valueOf = ({ entry }: Happening, field: string): Json =>
  (entry[field] ?? ({ missing: "not asked" } satisfies Recorded<Json>)) as unknown as Json;
