import "../register/device.css";
import "./people.css";
import { useState, type ReactNode } from "react";
import { peopleWords, sayEvent, sayField, sayMoment, sayOpenedInNeed, sayRecorded } from "../../language/index.ts";
import { fieldsOf, type Entry, type StoredEvent } from "../../register/index.ts";
import { SecretField } from "../register/secret-field.tsx";
import { peoplePort } from "./people-port.ts";
import { Told } from "../register/told.tsx";
import { useAsking } from "../register/use-asking.ts";

type Opened = Extract<Awaited<ReturnType<typeof peoplePort.record>>, { readonly kind: "answer" }>["value"];

/** One patient's record for an account that has no copy: of the own wards, or in need with a reason. Nothing is kept. */
export function NeedPage({ patient = "" }: { readonly patient?: string | undefined }): ReactNode {
  const [number, setNumber] = useState(patient);
  const [reason, setReason] = useState("");
  const [password, setPassword] = useState("");
  const [opened, setOpened] = useState<Opened>();
  const { ask, told, busy } = useAsking();
  const take = (record: Opened) => {
    setPassword("");
    setOpened(record);
  };
  return (
    <main className="door-page people-page">
      <h1>{peopleWords.needHeadline}</h1>
      {opened?.banner ? (
        <output className="in-need-banner" data-people="in-need">
          {sayOpenedInNeed(opened.banner.until, opened.banner.reason)}
        </output>
      ) : (
        <p className="lead">{peopleWords.needWhy}</p>
      )}
      {opened ? (
        <ul>
          {opened.events.map((event) => (
            <li key={event.id} data-event={event.type}>
              {sayMoment(event.happenedAt)}: {sayEvent(event.type)}, {event.author.initials}, {event.author.role}
              <Values event={event} />
            </li>
          ))}
        </ul>
      ) : (
        <form
          onSubmit={(event) => {
            event.preventDefault();
            ask(peoplePort.openInNeed(number.trim(), reason, password), take);
          }}
        >
          <SecretField label={peopleWords.patient} value={number} type={setNumber} name="patient" hidden={false} />
          <SecretField label={peopleWords.reason} value={reason} type={setReason} name="reason" hidden={false} />
          <SecretField
            label={peopleWords.current}
            value={password}
            type={setPassword}
            name="password"
            complete="current-password"
          />
          <button type="submit" className="act" disabled={busy} data-people="open">
            {peopleWords.openNow}
          </button>{" "}
          <button
            type="button"
            disabled={busy}
            data-people="open-own"
            onClick={() => ask(peoplePort.record(number.trim()), take)}
          >
            {peopleWords.openOwn}
          </button>
          <Told words={told} />
        </form>
      )}
    </main>
  );
}

/** What one entry says, field by field, as it was written. */
function Values({ event }: { readonly event: StoredEvent }): ReactNode {
  const fields = fieldsOf(event.subject.slice(0, event.subject.indexOf(":")), event.type) ?? {};
  const entry = event.data as unknown as Entry;
  const said = Object.entries(fields).filter(
    ([name, field]) => entry[name] !== undefined && field.kind !== "reference",
  );
  return (
    <dl>
      {said.map(([name, field]) => (
        <div key={name}>
          <dt>{sayField(name)}</dt>
          <dd>{sayRecorded(field, entry[name])}</dd>
        </div>
      ))}
    </dl>
  );
}
