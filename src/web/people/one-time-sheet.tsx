import type { ReactNode } from "react";
import { peopleWords, sayOneTime } from "../../language/index.ts";
import type { OneTime } from "./people-port.ts";

/** A password for one sign-in, shown until the page is left. */
export function OneTimeSheet({ one }: { readonly one: OneTime }): ReactNode {
  return (
    <output className="one-time">
      <p>
        {sayOneTime(one.account, one.until)} <b data-people="one-time">{one.oneTimePassword}</b>
      </p>
      <p>{peopleWords.once}</p>
    </output>
  );
}
