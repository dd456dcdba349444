import type { ReactNode } from "react";
import { sayEvent, sayLineRefusal, sayMoment, settleWords } from "../../language/index.ts";
import type { UnseenDecision } from "../../register/index.ts";

/** A decision somebody made before another device's entries had come: what was not known then, and whether it would stand. */
export function UnseenEntry({ unseen, name }: { readonly unseen: UnseenDecision; readonly name: string }): ReactNode {
  const { decision, refusal } = unseen;
  return (
    <div data-settle="unseen">
      <p className="entry-line">
        <b>{sayEvent(decision.type)}</b> <span data-name="">{name}</span>{" "}
        <span className="soft">
          {sayMoment(decision.happenedAt)}, {decision.author.initials}, {decision.author.role}
        </span>
      </p>
      <ul>
        {unseen.unseen.map((event) => (
          <li key={event.id}>
            {sayEvent(event.type)}, {sayMoment(event.happenedAt)}, {event.author.initials}
          </li>
        ))}
      </ul>
      {refusal ? (
        <p>
          <b>{settleWords.wouldBeRefused}</b> {sayLineRefusal(refusal)}
        </p>
      ) : null}
      <p className="soft">{settleWords.decisionKept}</p>
    </div>
  );
}
