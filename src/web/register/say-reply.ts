import { peopleWords, sayPeopleFault, sayServerRefusal, sayWaitSeconds, signInWords } from "../../language/index.ts";
import type { Reply } from "./server-port.ts";

/** What the server did not do, in words; undefined where it answered. */
export function sayReply(reply: Reply<unknown> | { readonly kind: "signed in" }): string | undefined {
  switch (reply.kind) {
    case "no server":
      return signInWords.noServer;
    case "unreachable":
      return peopleWords.unreachable;
    case "wait":
      return sayWaitSeconds(reply.seconds);
    case "sign in":
      return sayServerRefusal(reply.code);
    case "refused": {
      const faults = reply.faults.map(({ code }) => sayPeopleFault(code)).filter((said) => said !== "");
      return faults.length > 0 ? faults.join(" ") : sayServerRefusal(reply.code);
    }
    case "answer":
    case "signed in":
    default:
      return undefined;
  }
}
