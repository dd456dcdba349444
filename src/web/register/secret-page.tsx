import { useState, type FormEvent, type ReactNode } from "react";
import { lockWords } from "../../language/index.ts";
import type { Register } from "./register.ts";
import { saySecretFault } from "./say-secret-fault.ts";
import { SecretField } from "./secret-field.tsx";
import { Told } from "./told.tsx";

/** Sets the first secret and shows the recovery key once; afterwards, gives another person a secret of their own. */
export function SecretPage({ register, done }: { readonly register: Register; readonly done: () => void }): ReactNode {
  const [recovery, setRecovery] = useState<string>();
  if (recovery !== undefined) return <RecoverySheet recovery={recovery} device={register.device} done={done} />;
  return (
    <main className="door-page lock-page">
      {register.lock.state === "clear" ? (
        <FirstSecret setUp={register.lock.setUp} show={setRecovery} shared={register.contact.kind === "secret first"} />
      ) : (
        <AnotherPerson lock={register.lock} />
      )}
    </main>
  );
}

function FirstSecret({
  setUp,
  show,
  shared,
}: {
  /** A server's record waits for this secret. */
  readonly shared: boolean;
  readonly setUp: Register["lock"]["setUp"];
  readonly show: (recovery: string) => void;
}): ReactNode {
  const [person, setPerson] = useState("");
  const [secret, setSecret] = useState("");
  const [again, setAgain] = useState("");
  const [told, tell] = useState<string>();
  const [busy, setBusy] = useState(false);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const fault = personFault(person) ?? saySecretFault(secret) ?? (secret === again ? undefined : lockWords.differ);
    tell(fault);
    if (fault !== undefined) return;
    setBusy(true);
    setUp(person.trim(), secret)
      .then(show)
      .catch(() => tell(lockWords.notSecure))
      .finally(() => setBusy(false));
  };
  return (
    <form onSubmit={submit}>
      <h1 className="headline">{lockWords.setUpHeadline}</h1>
      <p className="lead">{lockWords.setUpWhy}</p>
      {shared ? <p data-lock="shared">{lockWords.sharedWhy}</p> : null}
      {/* without a secure context the browser gives no key, so nothing is asked for that could not be kept */}
      {globalThis.isSecureContext ? null : <p role="alert">{lockWords.notSecure}</p>}
      <SecretField label={lockWords.yourName} value={person} type={setPerson} name="person" hidden={false} focus />
      <SecretField
        label={lockWords.secret}
        value={secret}
        type={setSecret}
        name="secret"
        complete="new-password"
        how={lockWords.setUpHow}
      />
      <SecretField label={lockWords.again} value={again} type={setAgain} name="again" complete="new-password" />
      <button type="submit" className="act" disabled={busy || !globalThis.isSecureContext} data-lock="set">
        {busy ? lockWords.working : lockWords.set}
      </button>
      <Told words={told} />
    </form>
  );
}

function AnotherPerson({ lock }: { readonly lock: Register["lock"] }): ReactNode {
  const [own, setOwn] = useState({ person: lock.people[0] ?? "", secret: "" });
  const [person, setPerson] = useState("");
  const [secret, setSecret] = useState("");
  const [told, tell] = useState<string>();
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const fault = personFault(person) ?? saySecretFault(secret);
    tell(fault);
    if (fault !== undefined) return;
    lock
      .giveSecret(own, person.trim(), secret)
      .then((given) => {
        tell(given ? lockWords.added : lockWords.wrong);
        setOwn({ ...own, secret: "" });
        if (given) setSecret("");
      })
      .catch(() => tell(lockWords.notSecure));
  };
  return (
    <form onSubmit={submit}>
      <h1 className="headline">{lockWords.addHeadline}</h1>
      <fieldset className="choice">
        <legend>{lockWords.who}</legend>
        {lock.people.map((one) => (
          <label key={one} className={one === own.person ? "pressed" : undefined}>
            <input
              type="radio"
              name="own"
              checked={one === own.person}
              onChange={() => setOwn({ ...own, person: one })}
            />
            {one}
          </label>
        ))}
      </fieldset>
      <SecretField
        label={lockWords.secret}
        value={own.secret}
        type={(typed) => setOwn({ ...own, secret: typed })}
        name="own"
        complete="current-password"
      />
      <SecretField label={lockWords.person} value={person} type={setPerson} name="person" hidden={false} />
      <SecretField
        label={lockWords.theirs}
        value={secret}
        type={setSecret}
        name="secret"
        complete="new-password"
        how={lockWords.setUpHow}
      />
      <button type="submit" className="act" data-lock="add">
        {lockWords.add}
      </button>
      {told ? <output>{told}</output> : null}
    </form>
  );
}

/** The recovery key for a sheet of paper: it is shown once and kept nowhere. */
function RecoverySheet({
  recovery,
  device,
  done,
}: {
  readonly recovery: string;
  readonly device: string;
  readonly done: () => void;
}): ReactNode {
  return (
    <main className="door-page lock-page">
      <h1 className="headline">{lockWords.recoveryHeadline}</h1>
      <p className="recovery-key" data-lock="recovery-key">
        {recovery.split("-").map((group) => (
          <span key={group}>{group} </span>
        ))}
      </p>
      <p>{device}</p>
      <p>{lockWords.recoveryWhy}</p>
      <p>{lockWords.recoveryWhere}</p>
      <p className="presses">
        <button type="button" onClick={() => globalThis.print()}>
          {lockWords.print}
        </button>{" "}
        <button type="button" className="act" onClick={done} data-lock="kept">
          {lockWords.kept}
        </button>
      </p>
    </main>
  );
}

const personFault = (person: string): string | undefined => (person.trim() === "" ? lockWords.nameMissing : undefined);
