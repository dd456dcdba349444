import { useState, type ReactNode } from "react";
import { peopleWords } from "../../language/index.ts";
import { SecretField } from "../register/secret-field.tsx";
import { peoplePort } from "./people-port.ts";
import { Told } from "../register/told.tsx";
import { useAsking } from "../register/use-asking.ts";

/** Turns the second factor on, with its secret as text and its recovery codes once, and off. */
export function SecondFactor({ on, read }: { readonly on: boolean; readonly read: () => void }): ReactNode {
  const [password, setPassword] = useState("");
  const [code, setCode] = useState("");
  const [begun, setBegun] = useState<{ readonly secret: string; readonly uri: string }>();
  const [recovery, setRecovery] = useState<readonly string[]>();
  const { ask, told, busy } = useAsking();
  const typed = code.replaceAll(" ", "");
  const clear = () => {
    setPassword("");
    setCode("");
    setBegun(undefined);
    read();
  };
  const submit = () => {
    if (on) return ask(peoplePort.factorOff(password, typed), clear);
    if (!begun) return ask(peoplePort.beginFactor(password), setBegun);
    return ask(peoplePort.factorOn(typed), ({ recoveryCodes }) => {
      setRecovery(recoveryCodes);
      clear();
    });
  };
  return (
    <section>
      <h2>{peopleWords.factor}</h2>
      <p data-people="factor">{on ? peopleWords.factorOn : peopleWords.factorOff}</p>
      {recovery ? (
        <output className="one-time">
          <p>{peopleWords.recovery}</p>
          {recovery.map((one) => (
            <b key={one} data-people="recovery">
              {one}
            </b>
          ))}
        </output>
      ) : null}
      <form
        onSubmit={(event) => {
          event.preventDefault();
          submit();
        }}
      >
        {begun ? (
          <div className="one-time">
            <p>{peopleWords.factorHow}</p>
            <b data-people="factor-secret">{begun.secret.match(/.{1,4}/g)?.join(" ")}</b>
            <p>
              <a href={begun.uri}>{begun.uri}</a>
            </p>
          </div>
        ) : (
          <SecretField
            label={peopleWords.current}
            value={password}
            type={setPassword}
            name="factor-password"
            complete="current-password"
          />
        )}
        {on || begun ? (
          <SecretField
            label={peopleWords.factorCode}
            value={code}
            type={setCode}
            name="factor-code"
            hidden={false}
            complete="one-time-code"
          />
        ) : null}
        <button type="submit" disabled={busy} data-people="factor-go">
          {on ? peopleWords.factorTurnOff : begun ? peopleWords.factorTurnOn : peopleWords.factorBegin}
        </button>
        <Told words={told} />
      </form>
    </section>
  );
}
