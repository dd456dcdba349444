import { useState, type ReactNode } from "react";
import { sayAside, sayEvent, sayMoment, settleWords } from "../../language/index.ts";
import { eventsOfText, textOfEvents, type SealedEvent } from "../../register/index.ts";
import { DisputeEntry } from "./dispute-entry.tsx";
import { openDisputes } from "./open-disputes.ts";
import type { Register, ToSettle } from "./register.ts";
import { UnseenEntry } from "./unseen-entry.tsx";

/** Everything on this device that waits for a person: differences, decisions made unknowing, refusals, what is not kept. */
export function SettlePage({
  register,
  nameOf,
}: {
  readonly register: Register;
  /** What a subject is called on a page ("name, number"); a person has to know whose line it is. */
  readonly nameOf: (subject: SealedEvent["subject"]) => string;
}): ReactNode {
  const { toSettle } = register;
  const differing = openDisputes(register.histories);
  const nothing =
    differing.length === 0 &&
    toSettle.unseenDecisions.length === 0 &&
    toSettle.aside.length === 0 &&
    toSettle.returned.length === 0 &&
    toSettle.unkept.length === 0;
  return (
    <main className="door-page settle-page">
      <h1>{settleWords.headline}</h1>
      {nothing ? <p className="lead">{settleWords.nothing}</p> : null}
      {toSettle.unkept.length > 0 ? <Unkept toSettle={toSettle} /> : null}
      {differing.map((dispute) => (
        <DisputeEntry
          key={`${dispute.first.id} ${dispute.second.id}`}
          dispute={dispute}
          register={register}
          name={nameOf(dispute.history.subject)}
        />
      ))}
      {toSettle.unseenDecisions.length > 0 ? (
        <section>
          <h2>{settleWords.decisions}</h2>
          {toSettle.unseenDecisions.map((one) => (
            <UnseenEntry key={one.decision.id} unseen={one} name={nameOf(one.decision.subject)} />
          ))}
        </section>
      ) : null}
      {toSettle.aside.length > 0 ? (
        <section>
          <h2>{settleWords.refused}</h2>
          <ul className="plain">
            {toSettle.aside.map(({ event, code }) => (
              <li key={event.id}>
                <EntryLine event={event} name={nameOf(event.subject)} />
                <p>{sayAside[code]}</p>
                <button type="button" onClick={() => void toSettle.offerAgain(event.id).catch(() => undefined)}>
                  {settleWords.offerAgain}
                </button>
              </li>
            ))}
          </ul>
        </section>
      ) : null}
      {toSettle.returned.length > 0 ? (
        <section data-settle="returned">
          <h2>{settleWords.returned}</h2>
          <p>{settleWords.returnedHow}</p>
          <ul className="plain">
            {toSettle.returned.map((event) => (
              <li key={event.id}>
                <EntryLine event={event} name={nameOf(event.subject)} />
              </li>
            ))}
          </ul>
          <button type="button" onClick={() => void toSettle.returnedSeen().catch(() => undefined)}>
            {settleWords.returnedSeen}
          </button>
        </section>
      ) : null}
      <TakeEntries takeEntries={toSettle.takeEntries} />
    </main>
  );
}

/** One entry in a list: what, whose, when, by whom. */
function EntryLine({ event, name }: { readonly event: SealedEvent; readonly name: string }): ReactNode {
  return (
    <p className="entry-line">
      <b>{sayEvent(event.type)}</b> <span data-name="">{name}</span>{" "}
      <span className="soft">
        {sayMoment(event.happenedAt)}, {event.author.initials}, {event.author.role}
      </span>
    </p>
  );
}

function Unkept({ toSettle }: { readonly toSettle: ToSettle }): ReactNode {
  const [copied, setCopied] = useState(false);
  const text = textOfEvents(toSettle.unkept);
  return (
    <section data-settle="unkept">
      <h2>{settleWords.unkept}</h2>
      <p>{settleWords.unkeptHow}</p>
      <textarea className="entry-text" readOnly value={text} rows={6} aria-label={settleWords.unkept} />
      <p className="presses">
        <button
          type="button"
          onClick={() =>
            void navigator.clipboard
              .writeText(text)
              .then(() => setCopied(true))
              .catch(() => undefined)
          }
        >
          {settleWords.copy}
        </button>{" "}
        <button type="button" onClick={() => void toSettle.keepAgain().catch(() => undefined)} data-settle="keep">
          {settleWords.keepAgain}
        </button>
        {copied ? <output> {settleWords.copied}</output> : null}
      </p>
    </section>
  );
}

/** Takes the text that a device which could not keep its entries gave out: whole, or not at all. */
function TakeEntries({ takeEntries }: Pick<ToSettle, "takeEntries">): ReactNode {
  const [text, setText] = useState("");
  const [told, tell] = useState<string>();
  const take = (): void => {
    const events = eventsOfText(text);
    if (!events) return tell(settleWords.takeWrong);
    takeEntries(events)
      .then(() => {
        setText("");
        tell(settleWords.taken);
      })
      .catch(() => undefined); // not kept: the device's own line tells it, and the text stays in the field
    return undefined;
  };
  return (
    <details data-settle="take">
      <summary>{settleWords.take}</summary>
      <p>{settleWords.takeHow}</p>
      <textarea
        className="entry-text"
        rows={4}
        value={text}
        aria-label={settleWords.take}
        onChange={({ target }) => setText(target.value)}
      />
      <p className="presses">
        <button type="button" onClick={take}>
          {settleWords.takePress}
        </button>
        {told ? <output> {told}</output> : null}
      </p>
    </details>
  );
}
