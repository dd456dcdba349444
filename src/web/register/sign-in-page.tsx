import { useState, type FormEvent, type ReactNode } from "react";
import { useLocation } from "wouter";
import { peopleWords, signInWords } from "../../language/index.ts";
import { ChoosePassword } from "./choose-password.tsx";
import type { Register, SignedIn } from "./register.ts";
import { sayReply } from "./say-reply.ts";
import { SecretField } from "./secret-field.tsx";
import { Told } from "./told.tsx";

type SignedNow = Extract<SignedIn, { readonly kind: "signed in" }>;

/** Signs in at the server: account, password and, where it is on, the second factor. What waits here waits on meanwhile. */
export function SignInPage({ register, done }: { readonly register: Register; readonly done: () => void }): ReactNode {
  const [account, setAccount] = useState("");
  const [password, setPassword] = useState("");
  const [code, setCode] = useState("");
  const [codeWanted, wantCode] = useState(false);
  const [change, setChange] = useState<SignedNow>();
  const [told, tell] = useState<string>();
  const [busy, setBusy] = useState(false);
  const [, go] = useLocation();
  const goOn = ({ me, secretFirst }: SignedNow) => {
    if (me.actions.includes("keep people")) go("/people");
    else if (secretFirst) go("/secret");
    else done();
  };
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setBusy(true);
    register
      .signIn({ account: account.trim(), password, code: code.replaceAll(" ", "") })
      .then((came) => {
        setCode("");
        tell(sayReply(came));
        if (came.kind === "sign in" && came.code === "second-factor-wanted") return wantCode(true);
        if (came.kind === "signed in" && came.me.changeWanted) return setChange(came);
        setPassword("");
        if (came.kind === "signed in") goOn(came);
      })
      .catch(() => tell(signInWords.unreachable))
      .finally(() => setBusy(false));
  };
  if (change) {
    return (
      <main className="door-page lock-page">
        <h1 className="headline">{peopleWords.changeHeadline}</h1>
        <p className="lead">{peopleWords.changeWhy}</p>
        <ChoosePassword typed={password} choose={register.choosePassword} done={() => goOn(change)} />
      </main>
    );
  }
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
        {codeWanted ? (
          <SecretField
            label={signInWords.code}
            value={code}
            type={setCode}
            name="code"
            hidden={false}
            complete="one-time-code"
            how={signInWords.codeHow}
            focus
          />
        ) : null}
        <button type="submit" className="act" disabled={busy} data-lock="sign-in">
          {signInWords.enter}
        </button>
        <Told words={told} />
      </form>
      <HouseSignIn />
    </main>
  );
}

/** Leads to the house's sign-in where the server has one; only a press asks, for asking begins one. */
function HouseSignIn(): ReactNode {
  const [none, setNone] = useState(false);
  const ask = () => {
    // a redirect that may not be followed says that there is one
    fetch("/api/openid/start", { redirect: "manual", cache: "no-store" })
      .then(({ type }) => (type === "opaqueredirect" ? globalThis.location.assign("/api/openid/start") : setNone(true)))
      .catch(() => setNone(true));
  };
  return (
    <p>
      <button type="button" className="plain-press" onClick={ask} data-lock="house">
        {signInWords.houseSignIn}
      </button>{" "}
      {none ? <output>{signInWords.outsideFailed}</output> : null}
    </p>
  );
}
