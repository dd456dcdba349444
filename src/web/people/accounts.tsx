import { useCallback, useEffect, useState, type ReactNode } from "react";
import { peopleWords } from "../../language/index.ts";
import type { AccountRole } from "../../register/index.ts";
import { SecretField } from "../register/secret-field.tsx";
import { AccountRow } from "./account-row.tsx";
import { OneTimeSheet } from "./one-time-sheet.tsx";
import { peoplePort, type Account, type OneTime } from "./people-port.ts";
import { RoleChoice } from "./role-choice.tsx";
import { Told } from "../register/told.tsx";
import { useAsking } from "../register/use-asking.ts";

/** Every account and the making of one. */
export function Accounts({ own }: { readonly own: string }): ReactNode {
  const [people, setPeople] = useState<readonly Account[]>([]);
  const [oneTime, setOneTime] = useState<OneTime>();
  const { ask, told } = useAsking();
  const read = useCallback(() => ask(peoplePort.list(), ({ people }) => setPeople(people)), [ask]);
  useEffect(read, [read]);
  const show = (one: OneTime) => {
    setOneTime(one);
    read();
  };
  return (
    <section>
      <h2>{peopleWords.accounts}</h2>
      {oneTime ? <OneTimeSheet one={oneTime} /> : null}
      <Told words={told} />
      <ul className="people">
        {people.map((one) => (
          <AccountRow key={one.account} one={one} own={one.account === own} read={read} show={show} />
        ))}
      </ul>
      <MakeAccount show={show} />
    </section>
  );
}

function MakeAccount({ show }: { readonly show: (one: OneTime) => void }): ReactNode {
  const [account, setAccount] = useState("");
  const [units, setUnits] = useState("");
  const [roles, setRoles] = useState<readonly AccountRole[]>([]);
  const { ask, told, tell, busy } = useAsking();
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault();
        if (roles.length === 0) return tell(peopleWords.rolesMissing);
        const wards = units
          .split(",")
          .map((unit) => unit.trim())
          .filter((unit) => unit !== "");
        ask(peoplePort.make(account.trim(), roles, wards), (one) => {
          setAccount("");
          setUnits("");
          setRoles([]);
          show(one);
        });
      }}
    >
      <h3>{peopleWords.makeHeadline}</h3>
      <SecretField label={peopleWords.account} value={account} type={setAccount} name="new-account" hidden={false} />
      <RoleChoice roles={roles} choose={setRoles} />
      <SecretField label={peopleWords.units} value={units} type={setUnits} name="units" hidden={false} />
      <button type="submit" className="act" disabled={busy} data-people="make">
        {peopleWords.make}
      </button>
      <Told words={told} />
    </form>
  );
}
