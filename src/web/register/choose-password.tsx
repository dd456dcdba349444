import { useState, type FormEvent, type ReactNode } from "react";
import { peopleWords } from "../../language/index.ts";
import { SecretField } from "./secret-field.tsx";
import { Told } from "./told.tsx";
import { useAsking } from "./use-asking.ts";
import type { Reply } from "./server-port.ts";

/** Chooses a password of one's own; the one until now is asked where it was not just typed. */
export function ChoosePassword({
  typed,
  choose,
  done,
}: {
  readonly typed?: string;
  readonly choose: (now: string, next: string) => Promise<Reply<unknown>>;
  readonly done: () => void;
}): ReactNode {
  const [current, setCurrent] = useState("");
  const [next, setNext] = useState("");
  const [again, setAgain] = useState("");
  const { ask, tell, told, busy } = useAsking();
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (next !== again) return tell(peopleWords.differ);
    ask(choose(typed ?? current, next), () => {
      for (const empty of [setCurrent, setNext, setAgain]) empty("");
      done();
    });
  };
  return (
    <form onSubmit={submit}>
      {typed === undefined ? (
        <SecretField
          label={peopleWords.current}
          value={current}
          type={setCurrent}
          name="current"
          complete="current-password"
        />
      ) : null}
      <SecretField
        label={peopleWords.next}
        value={next}
        type={setNext}
        name="next"
        complete="new-password"
        how={peopleWords.rule}
        focus={typed !== undefined}
      />
      <SecretField
        label={peopleWords.nextAgain}
        value={again}
        type={setAgain}
        name="next-again"
        complete="new-password"
        how={peopleWords.ruleMore}
      />
      <button type="submit" className="act" disabled={busy} data-lock="choose">
        {peopleWords.choose}
      </button>
      <Told words={told} />
    </form>
  );
}
