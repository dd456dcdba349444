import "../../src/web/page.css";
import { useEffect, useState, type ReactNode } from "react";
import { createRoot } from "react-dom/client";
import { Route, Router, Switch, useLocation } from "wouter";
import { useHashLocation } from "wouter/use-hash-location";
import { DeviceLine } from "../../src/web/register/device-line.tsx";
import { LockCover } from "../../src/web/register/lock-cover.tsx";
import { NamesCover } from "../../src/web/register/names-cover.tsx";
import type { Register } from "../../src/web/register/register.ts";
import { SecretPage } from "../../src/web/register/secret-page.tsx";
import { SettlePage } from "../../src/web/register/settle-page.tsx";
import { SignInPage } from "../../src/web/register/sign-in-page.tsx";
import { useRegister } from "../../src/web/register/use-register.ts";

/** The device's parts on a page of their own, for the browser tests: nothing of it is shipped. */
function Page(): ReactNode {
  const register = useRegister("policy of the test");
  const [, go] = useLocation();
  const home = () => go("/");
  useEffect(() => {
    Object.assign(globalThis, { register });
  }, [register]);
  if (!register.ready) return <p>Opening ...</p>;
  return (
    <>
      {register.trouble ? <p className="trouble">{register.trouble}</p> : null}
      <LockCover register={register}>
        <Switch>
          <Route path="/secret">
            <SecretPage register={register} done={home} />
          </Route>
          <Route path="/sign-in">
            <SignInPage register={register} done={home} />
          </Route>
          <Route path="/settle">
            <SettlePage register={register} nameOf={() => "Ana Example, no. 4711"} />
          </Route>
          <Route>
            <Entries register={register} />
          </Route>
        </Switch>
      </LockCover>
      <DeviceLine register={register} />
      <NamesCover afterMinutes={register.lock.settings.hideNamesAfterMinutes} />
    </>
  );
}

function Entries({ register }: { readonly register: Register }): ReactNode {
  const [typed, setTyped] = useState("");
  return (
    <main className="door-page">
      <h1>Entries</h1>
      <p data-name="">Ana Example</p>
      <label>
        Half typed <input value={typed} data-typed="" onChange={({ target }) => setTyped(target.value)} />
      </label>
      <p data-entries="">{register.histories.size} subjects</p>
    </main>
  );
}

createRoot(document.getElementById("page") as HTMLElement).render(
  <Router hook={useHashLocation}>
    <Page />
  </Router>,
);
