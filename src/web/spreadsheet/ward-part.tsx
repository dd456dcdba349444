import { useEffect, useId, useRef, useState, type ReactNode } from "react";
import { sayAlikeWards, sayMatchingQuestion } from "../../language/index.ts";
import {
  answeredWards,
  wardOffers,
  wardQuestions,
  type WardAnswer,
  type WardName,
  type WardOffer,
} from "../../spreadsheet/index.ts";

const firstAnswer = ({ kept, whole }: WardOffer): WardAnswer => ({ ticked: whole, name: kept?.name ?? "" });

/** Spellings that may be one ward: a person ticks those that are and names the ward; nothing is merged by itself. */
export function WardPart({
  spellings,
  kept,
  busy,
  returned,
  merge,
}: {
  readonly spellings: ReadonlyMap<string, number>;
  readonly kept: readonly WardName[] | undefined;
  readonly busy: boolean;
  /** The rows were read again for what was pressed here: the keyboard goes on from here. */
  readonly returned: boolean;
  readonly merge: (wards: readonly WardName[]) => void;
}): ReactNode {
  const offers = wardOffers(spellings, kept);
  const [answers, setAnswers] = useState(() => offers.map(firstAnswer));
  const [asked, setAsked] = useState("");
  const heading = useRef<HTMLHeadingElement>(null);
  const id = useId();
  useEffect(() => {
    if (returned) heading.current?.focus();
  }, [returned]);
  // what was kept for wards that this file does not name stays kept, unseen
  const shown = offers.map(({ spellings: own }) => own.some(([, lines]) => lines > 0));
  if (!shown.includes(true)) return null;
  const answer = (place: number, said: Partial<WardAnswer>) => {
    setAsked("");
    setAnswers((now) => now.map((one, at) => (at === place ? { ...one, ...said } : one)));
  };
  const press = () => {
    const unnamed = answers.some(({ ticked, name }) => ticked && name.trim() === "");
    const wards = answeredWards(offers, answers);
    const [question] = wardQuestions(wards);
    setAsked(
      unnamed
        ? "What is the ward called? Name each one that is ticked."
        : question
          ? sayMatchingQuestion(question)
          : "",
    );
    if (!unnamed && !question) merge(wards);
  };
  return (
    <section className="wards" aria-labelledby={`${id} heading`} data-import="ward-offers">
      <h3 id={`${id} heading`} ref={heading} tabIndex={-1}>
        One ward in several spellings?
      </h3>
      <p>Tick what is one ward and name it. What is not ticked stays apart.</p>
      {offers.map(({ spellings: own }, at) =>
        shown[at] ? (
          <fieldset
            key={own.map(([spelling]) => spelling).join("|")}
            className="ward-offer"
            aria-label={sayAlikeWards(own)}
          >
            <label className="tick">
              <input
                type="checkbox"
                data-ward-tick={at}
                checked={answers[at]?.ticked ?? false}
                onChange={({ target }) => answer(at, { ticked: target.checked })}
              />
              <span>{sayAlikeWards(own)}</span>
            </label>
            <label className="ask">
              Name of the ward
              <input
                data-ward-name={at}
                autoComplete="off"
                maxLength={80}
                list={`${id} ${at}`}
                value={answers[at]?.name ?? ""}
                aria-invalid={asked !== "" && answers[at]?.ticked === true && answers[at]?.name.trim() === ""}
                onChange={({ target }) => answer(at, { name: target.value })}
              />
              <datalist id={`${id} ${at}`}>
                {own.map(([spelling]) => (
                  <option key={spelling} value={spelling}>
                    {spelling}
                  </option>
                ))}
              </datalist>
            </label>
          </fieldset>
        ) : null,
      )}
      <button type="button" data-import="merge-wards" disabled={busy} onClick={press}>
        Merge what is ticked and read again
      </button>
      {asked ? (
        <p className="fault" role="alert">
          {asked}
        </p>
      ) : null}
    </section>
  );
}
