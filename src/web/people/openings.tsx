import { useCallback, useEffect, useState, type ReactNode } from "react";
import { peopleWords, sayOpening } from "../../language/index.ts";
import { keepSeenOpenings, seenOpenings } from "../register/seen-openings.ts";
import { SecretField } from "../register/secret-field.tsx";
import { peoplePort } from "./people-port.ts";
import { Told } from "../register/told.tsx";
import { useAsking } from "../register/use-asking.ts";

type Opening = Extract<
  Awaited<ReturnType<typeof peoplePort.openings>>,
  { readonly kind: "answer" }
>["value"]["opened"][number];

/** The records that were opened in need, each with its review or the field for one. */
export function Openings(): ReactNode {
  const [opened, setOpened] = useState<readonly Opening[]>([]);
  const [unread, setUnread] = useState<ReadonlySet<string>>(new Set());
  const { ask, told } = useAsking();
  const read = useCallback(
    () =>
      ask(peoplePort.openings(), ({ opened: list }) => {
        const seen = seenOpenings();
        setUnread(new Set(list.filter(({ id, reviewedBy }) => reviewedBy === "" && !seen.has(id)).map(({ id }) => id)));
        keepSeenOpenings(list.map(({ id }) => id));
        // what nobody reviewed stands first
        setOpened([...list].sort((a, b) => Number(a.reviewedBy !== "") - Number(b.reviewedBy !== "")));
      }),
    [ask],
  );
  useEffect(read, [read]);
  return (
    <section>
      <h2>{peopleWords.openings}</h2>
      {opened.length === 0 ? <p>{peopleWords.noOpenings}</p> : null}
      <Told words={told} />
      {opened.map((one) => (
        <div key={one.id} data-opening={one.id}>
          <p>
            {unread.has(one.id) ? <b>{peopleWords.unread} </b> : null}
            {sayOpening(one.account, one.patient, one.openedAt)} {one.reason}
          </p>
          {one.reviewedBy === "" ? (
            <Review id={one.id} read={read} />
          ) : (
            <p>
              {peopleWords.reviewedBy} {one.reviewedBy}: {one.finding}
            </p>
          )}
        </div>
      ))}
    </section>
  );
}

function Review({ id, read }: { readonly id: string; readonly read: () => void }): ReactNode {
  const [finding, setFinding] = useState("");
  const { ask, told, busy } = useAsking();
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        ask(peoplePort.review(id, finding), read);
      }}
    >
      <SecretField label={peopleWords.finding} value={finding} type={setFinding} name="finding" hidden={false} />
      <button type="submit" disabled={busy} data-people="review">
        {peopleWords.review}
      </button>
      <Told words={told} />
    </form>
  );
}
