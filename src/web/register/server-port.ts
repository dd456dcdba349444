import type { Answer, Head, Offer, StoredEvent } from "../../register/index.ts";

/** What came of asking the server. */
export type Reply<Value> =
  | { readonly kind: "answer"; readonly value: Value }
  | { readonly kind: "no server" } // something answered that keeps no record: a page on a plain file server
  | { readonly kind: "sign in" }
  | { readonly kind: "refused"; readonly status: number }
  | { readonly kind: "unreachable" };

export interface SignIn {
  readonly account: string;
  readonly password: string;
  /** Six digits of the second factor, or a recovery code; "" when none is asked. */
  readonly code: string;
}

/** The server as the device asks it; a test gives another one. */
export interface ServerPort {
  readonly head: () => Promise<Reply<Head>>;
  readonly eventsAfter: (position: number, limit: number) => Promise<Reply<readonly StoredEvent[]>>;
  readonly offer: (offers: readonly Offer[]) => Promise<Reply<readonly Answer[]>>;
  readonly signIn: (who: SignIn) => Promise<Reply<unknown>>;
}

const PATIENCE_MS = 20_000; // a network that takes longer for one page is treated as none

/** The server this page came from. */
export const sameOrigin: ServerPort = {
  head: () => ask("/api/head"),
  eventsAfter: async (position, limit) => listed(await ask(`/api/events?after=${position}&limit=${limit}`), "events"),
  offer: async (offers) => listed(await ask("/api/offers", offers), "answers"),
  signIn: (who) => ask("/api/sign-in", who),
};

/** A page from a file or a stick has no server; anything served by http is asked. */
export const serverHere = (): ServerPort | undefined =>
  __STICK__ || !globalThis.location.protocol.startsWith("http") ? undefined : sameOrigin;

async function ask<Value>(path: string, body?: unknown): Promise<Reply<Value>> {
  let response: Response;
  try {
    response = await fetch(path, {
      method: body === undefined ? "GET" : "POST",
      cache: "no-store",
      credentials: "same-origin",
      // a form of another site cannot send this header: the server refuses a write without it
      headers: { accept: "application/json", "x-veinwright": "1", "content-type": "application/json" },
      signal: AbortSignal.timeout(PATIENCE_MS),
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
  } catch {
    return { kind: "unreachable" };
  }
  const { status } = response;
  if (status === 401) return { kind: "sign in" };
  if (status === 404 || status === 405) return { kind: "no server" };
  // too many requests and a server that is starting or stopping are waited for
  if (status === 429 || status >= 500) return { kind: "unreachable" };
  if (!response.ok) return { kind: "refused", status };
  if (status === 204) return { kind: "answer", value: undefined as Value };
  if (!response.headers.get("content-type")?.includes("json")) return { kind: "no server" };
  try {
    return { kind: "answer", value: (await response.json()) as Value };
  } catch {
    return { kind: "unreachable" };
  }
}

/** A list that may stand alone or under its name. */
function listed<Item>(reply: Reply<unknown>, name: string): Reply<readonly Item[]> {
  if (reply.kind !== "answer") return reply;
  const { value } = reply;
  if (Array.isArray(value)) return { kind: "answer", value: value as readonly Item[] };
  const inner = (value as Readonly<Record<string, unknown>> | null)?.[name];
  return Array.isArray(inner) ? { kind: "answer", value: inner as readonly Item[] } : { kind: "unreachable" };
}
