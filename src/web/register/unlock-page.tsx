import { useState, type FormEvent, type ReactNode } from "react";
import { lockWords, sayWait } from "../../language/index.ts";
import { saySecretFault } from "./say-secret-fault.ts";
import type { Opened, Register } from "./register.ts";
import { SecretField } from "./secret-field.tsx";
import { Told } from "./told.tsx";

/** The lock: who, and the secret; for a lost secret the recovery key from the paper. */
export function UnlockPage({ register }: { readonly register: Register }): ReactNode {
  const { lock } = register;
  const [recovering, setRecovering] = useState(false);
  const [person, setPerson] = useState("");
  const name = person || (lock.people[0] ?? "");
  return (
    <main className="door-page lock-page">
      <h1 className="headline">{lockWords.headline}</h1>
      {lock.state === "hidden" ? <p className="lead">{lockWords.hidden}</p> : null}
      {lock.people.length > 1 ? (
        <fieldset className="choice">
          <legend>{lockWords.who}</legend>
          {lock.people.map((one) => (
            <label key={one} className={one === name ? "pressed" : undefined}>
              <input type="radio" name="person" checked={one === name} onChange={() => setPerson(one)} />
              {one}
            </label>
          ))}
        </fieldset>
      ) : (
        <p className="lock-name">{name}</p>
      )}
      {recovering ? <Recover lock={lock} person={name} /> : <Open lock={lock} person={name} />}
      <button type="button" className="quiet" onClick={() => setRecovering(!recovering)} data-lock="other">
        {recovering ? lockWords.back : lockWords.lost}
      </button>
    </main>
  );
}

type Lock = Register["lock"];

function Open({ lock, person }: { readonly lock: Lock; readonly person: string }): ReactNode {
  const [secret, setSecret] = useState("");
  const { busy, told, run } = useOpening();
  const submit = (event: FormEvent) => {
    event.preventDefault();
    run(async () => {
      const opened = await lock.open(person, secret);
      setSecret("");
      return opened;
    });
  };
  return (
    <form onSubmit={submit}>
      <SecretField
        label={lockWords.secret}
        value={secret}
        type={setSecret}
        name="secret"
        complete="current-password"
        focus
      />
      <button type="submit" className="act" disabled={busy} data-lock="open">
        {busy ? lockWords.working : lockWords.open}
      </button>
      <Told words={told} />
    </form>
  );
}

function Recover({ lock, person }: { readonly lock: Lock; readonly person: string }): ReactNode {
  const [key, setKey] = useState("");
  const [secret, setSecret] = useState("");
  const { busy, told, tell, run } = useOpening();
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const fault = saySecretFault(secret);
    if (fault) tell(fault);
    else run(() => lock.recover(key, person, secret));
  };
  return (
    <form onSubmit={submit}>
      <SecretField label={lockWords.recoveryKey} value={key} type={setKey} name="recovery" hidden={false} focus />
      <SecretField
        label={lockWords.newSecret}
        value={secret}
        type={setSecret}
        name="new"
        complete="new-password"
        how={lockWords.setUpHow}
      />
      <button type="submit" className="act" disabled={busy} data-lock="recover">
        {busy ? lockWords.working : lockWords.open}
      </button>
      <Told words={told} />
    </form>
  );
}

function useOpening() {
  const [busy, setBusy] = useState(false);
  const [told, tell] = useState<string>();
  const run = (open: () => Promise<Opened>): void => {
    setBusy(true);
    tell(undefined);
    open()
      .then((opened) => tell(sayOpened(opened)))
      .catch(() => tell(lockWords.notSecure))
      .finally(() => setBusy(false));
  };
  return { busy, told, tell, run };
}

function sayOpened(opened: Opened): string | undefined {
  switch (opened.kind) {
    case "open":
      return undefined;
    case "wrong secret":
      return lockWords.wrong;
    case "wait":
      return sayWait(opened.seconds);
    case "typed wrong":
      return lockWords.typedWrong;
    case "another key":
      return lockWords.anotherKey;
    default:
      return opened satisfies never;
  }
}
