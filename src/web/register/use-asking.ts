import { useCallback, useState } from "react";
import { peopleWords } from "../../language/index.ts";
import { sayReply } from "./say-reply.ts";
import type { Reply } from "./server-port.ts";

/** Asks one thing at a time and keeps what went wrong, in words. */
export function useAsking(): {
  readonly busy: boolean;
  readonly told: string | undefined;
  readonly tell: (words: string | undefined) => void;
  readonly ask: <Value>(reply: Promise<Reply<Value>>, take: (value: Value) => void) => void;
} {
  const [busy, setBusy] = useState(false);
  const [told, tell] = useState<string>();
  const ask = useCallback(<Value>(asked: Promise<Reply<Value>>, take: (value: Value) => void): void => {
    setBusy(true);
    tell(undefined);
    asked
      .then((reply) => {
        tell(sayReply(reply));
        if (reply.kind === "answer") take(reply.value);
      })
      .catch(() => tell(peopleWords.unreachable))
      .finally(() => setBusy(false));
  }, []);
  return { busy, told, tell, ask };
}
