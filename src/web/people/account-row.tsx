import { useState, type ReactNode } from "react";
import { peopleWords } from "../../language/index.ts";
import { peoplePort, type Account, type OneTime } from "./people-port.ts";
import { RoleChoice } from "./role-choice.tsx";
import { Told } from "../register/told.tsx";
import { useAsking } from "../register/use-asking.ts";

/** One account: what it holds, and behind a press what may be changed. */
export function AccountRow({
  one,
  own,
  read,
  show,
}: {
  readonly one: Account;
  readonly own: boolean;
  readonly read: () => void;
  readonly show: (oneTime: OneTime) => void;
}): ReactNode {
  const [roles, setRoles] = useState(one.roles);
  const { ask, told, busy } = useAsking();
  return (
    <li data-account={one.account}>
      <b>{one.account}</b> {one.roles.join(", ")}
      {one.units.length > 0 ? ` (${one.units.join(", ")})` : ""} {one.disabled ? <i>{peopleWords.disabled}</i> : null}
      {own ? null : (
        <details>
          <summary>{peopleWords.roles}</summary>
          <RoleChoice roles={roles} choose={setRoles} />
          <p className="presses">
            <button
              type="button"
              disabled={busy || roles.length === 0}
              data-people="roles"
              onClick={() => ask(peoplePort.change(one.account, { roles }), read)}
            >
              {peopleWords.keepRoles}
            </button>{" "}
            <button
              type="button"
              disabled={busy}
              data-people="disable"
              onClick={() => ask(peoplePort.change(one.account, { disabled: !one.disabled }), read)}
            >
              {one.disabled ? peopleWords.enable : peopleWords.disable}
            </button>{" "}
            <button
              type="button"
              disabled={busy}
              data-people="reset"
              onClick={() => ask(peoplePort.reset(one.account, false), show)}
            >
              {peopleWords.reset}
            </button>{" "}
            {one.secondFactor ? (
              <button type="button" disabled={busy} onClick={() => ask(peoplePort.reset(one.account, true), show)}>
                {peopleWords.resetBoth}
              </button>
            ) : null}
          </p>
        </details>
      )}
      <Told words={told} />
    </li>
  );
}
