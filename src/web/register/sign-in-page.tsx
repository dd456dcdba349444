import { useState, type FormEvent, type ReactNode } from "react";
import { signInWords } from "../../language/index.ts";
import type { Register, SignedIn } from "./register.ts";
import { SecretField } from "./secret-field.tsx";

/** Signs in at the server: account, password and the second factor. What waits here waits on meanwhile. */
export function SignInPage({ register, done }: { readonly register: Register; readonly done: () => void }): ReactNode {
  const [account, setAccount] = useState("");
  const [password, setPassword] = useState("");
  const [code, setCode] = useState("");
  const [told, tell] = useState<string>();
  const [busy, setBusy] = useState(false);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setBusy(true);
    register
      .signIn({ account: account.trim(), password, code: code.replaceAll(" ", "") })
      .then((came) => {
        setPassword("");
        setCode("");
        tell(SAID[came]);
        if (came === "signed in") done();
      })
      .catch(() => tell(signInWords.unreachable))
      .finally(() => setBusy(false));
  };
  return (
    <main className="door-page lock-page">
      <h1 className="headline">{signInWords.headline}</h1>
      <p className="lead">{signInWords.meanwhile}</p>
      <form onSubmit={submit}>
        <SecretField
          label={signInWords.account}
          value={account}
          type={setAccount}
          name="account"
          hidden={false}
          complete="username"
          focus
        />
        <SecretField
          label={signInWords.password}
          value={password}
          type={setPassword}
          name="password"
          complete="current-password"
        />
        <SecretField
          label={signInWords.code}
          value={code}
          type={setCode}
          name="code"
          hidden={false}
          complete="one-time-code"
          how={signInWords.codeHow}
        />
        <button type="submit" className="act" disabled={busy} data-lock="sign-in">
          {signInWords.enter}
        </button>
        {told ? (
          <p className="fault" role="alert">
            {told}
          </p>
        ) : null}
      </form>
    </main>
  );
}

const SAID: Readonly<Record<SignedIn, string | undefined>> = {
  "signed in": undefined,
  wrong: signInWords.wrong,
  unreachable: signInWords.unreachable,
  "no server": signInWords.noServer,
};
