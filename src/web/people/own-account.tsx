import { useState, type ReactNode } from "react";
import { peopleWords } from "../../language/index.ts";
import { ChoosePassword } from "../register/choose-password.tsx";
import type { Me } from "../register/server-port.ts";
import { peoplePort } from "./people-port.ts";
import { SecondFactor } from "./second-factor.tsx";

/** What a person changes about their own account. */
export function OwnAccount({ me, read }: { readonly me: Me; readonly read: () => void }): ReactNode {
  const [chosen, setChosen] = useState(false);
  return (
    <>
      <section>
        <h2>{me.changeWanted ? peopleWords.changeHeadline : peopleWords.ownPassword}</h2>
        <ChoosePassword
          choose={peoplePort.password}
          done={() => {
            setChosen(true);
            read();
          }}
        />
        {chosen ? <output>{peopleWords.chosen}</output> : null}
      </section>
      {me.changeWanted ? null : <SecondFactor on={me.secondFactor} read={read} />}
    </>
  );
}
