import "../register/device.css";
import "./people.css";
import { useCallback, useEffect, useState, type ReactNode } from "react";
import { Link, useLocation } from "wouter";
import { peopleWords } from "../../language/index.ts";
import type { Me } from "../register/server-port.ts";
import { Accounts } from "./accounts.tsx";
import { Machine } from "./machine.tsx";
import { Openings } from "./openings.tsx";
import { OwnAccount } from "./own-account.tsx";
import { peoplePort } from "./people-port.ts";
import { Told } from "../register/told.tsx";
import { Trail } from "./trail.tsx";
import { useAsking } from "../register/use-asking.ts";

/** One's own account, and beside it what the account's roles may look after; the server decides, this shows. */
export function PeoplePage(): ReactNode {
  const [me, setMe] = useState<Me>();
  const { ask, told, busy } = useAsking();
  const [, go] = useLocation();
  const read = useCallback(() => ask(peoplePort.me(), setMe), [ask]);
  useEffect(read, [read]);
  if (!me) {
    return (
      <main className="door-page people-page">
        <h1>{peopleWords.headline}</h1>
        {busy ? <p className="waiting">{peopleWords.opening}</p> : <Told words={told} />}
        {told ? (
          <p>
            <Link href="/sign-in">{peopleWords.signIn}</Link>
          </p>
        ) : null}
      </main>
    );
  }
  const may = (action: Me["actions"][number]) => !me.changeWanted && me.actions.includes(action);
  return (
    <main className="door-page people-page">
      <h1>{peopleWords.headline}</h1>
      <p className="lead" data-people="me">
        {me.account}: {me.roles.join(", ")}
      </p>
      {me.units.length > 0 ? (
        <p>
          {peopleWords.wards} {me.units.join(", ")}. <Link href="/in-need">{peopleWords.needHeadline}</Link>
        </p>
      ) : null}
      <p>
        <button
          type="button"
          disabled={busy}
          data-people="sign-out"
          onClick={() => ask(peoplePort.signOut(), () => go("/sign-in"))}
        >
          {peopleWords.signOut}
        </button>
      </p>
      <Told words={told} />
      {may("keep people") ? <Accounts own={me.account} /> : null}
      {may("keep the machine") ? <Machine /> : null}
      {may("review opened records") ? <Openings /> : null}
      {may("read the technical trail") ? <Trail /> : null}
      <OwnAccount me={me} read={read} />
    </main>
  );
}
