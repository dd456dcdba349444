import { REFUSAL_CODES, type RefusalCode } from "../../language/index.ts";
import type { AccountRole, Action, Answer, Head, Offer, StoredEvent } from "../../register/index.ts";

/** What came of asking the server. */
export type Reply<Value> =
  | { readonly kind: "answer"; readonly value: Value }
  | { readonly kind: "no server" } // something answered that keeps no record: a page on a plain file server
  | { readonly kind: "sign in"; readonly code: RefusalCode }
  | {
      readonly kind: "refused";
      readonly status: number;
      readonly code: RefusalCode;
      readonly faults: readonly { readonly path: string; readonly code: string }[];
    }
  | { readonly kind: "wait"; readonly seconds: number }
  | { readonly kind: "unreachable" };

/** Who the server says is signed in, and what they may do. */
export interface Me {
  readonly account: string;
  readonly roles: readonly AccountRole[];
  readonly units: readonly string[];
  readonly actions: readonly Action[];
  /** The password was for one sign-in: nothing else is answered until another is chosen. */
  readonly changeWanted: boolean;
  readonly secondFactor: boolean;
}

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
  readonly signIn: (who: SignIn) => Promise<Reply<Me>>;
  readonly signOut: () => Promise<Reply<unknown>>;
  readonly me: () => Promise<Reply<Me>>;
  /** Chooses a password of one's own. */
  readonly password: (now: string, next: string) => Promise<Reply<unknown>>;
  /** The server is on this machine: its record lies on the same disk, so a copy in the clear shows nobody more. */
  readonly onThisMachine: boolean;
}

const PATIENCE_MS = 20_000; // a network that takes longer for one page is treated as none

/** The server this page came from. */
const sameOrigin: ServerPort = {
  head: () => askServer("/api/head"),
  eventsAfter: async (position, limit) =>
    listed(await askServer(`/api/events?after=${position}&limit=${limit}`), "events"),
  offer: async (offers) => listed(await askServer("/api/offers", offers), "answers"),
  signIn: (who) => askServer("/api/sign-in", who),
  signOut: () => askServer("/api/sign-out", {}),
  me: () => askServer("/api/me"),
  password: (now, next) => askServer("/api/password", { password: now, next }),
  get onThisMachine() {
    return isThisMachine(globalThis.location.hostname);
  },
};

/** Whether a host's name is the machine itself. Source: RFC 6761 section 6.3; RFC 1122 section 3.2.1.3; RFC 4291. */
export const isThisMachine = (hostName: string): boolean =>
  /^(localhost|127(\.\d{1,3}){3}|\[?::1\]?)$/.test(hostName.toLowerCase());

/** A page from a file or a stick has no server; anything served by http is asked. */
export const serverHere = (): ServerPort | undefined =>
  __STICK__ || !globalThis.location.protocol.startsWith("http") ? undefined : sameOrigin;

/** Asks a route of this page's server; with a body it is a change. */
export async function askServer<Value>(path: string, body?: unknown): Promise<Reply<Value>> {
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
  if (status === 401) return { kind: "sign in", ...(await told(response, "sign-in-wanted")) };
  if (status === 404 || status === 405) return { kind: "no server" };
  if (status === 429) return { kind: "wait", seconds: Number(response.headers.get("retry-after")) || 1 };
  // a server that is starting or stopping is waited for
  if (status >= 500) return { kind: "unreachable" };
  if (!response.ok) return { kind: "refused", status, ...(await told(response, "went-wrong")) };
  if (status === 204) return { kind: "answer", value: undefined as Value };
  if (!response.headers.get("content-type")?.includes("json")) return { kind: "no server" };
  try {
    return { kind: "answer", value: (await response.json()) as Value };
  } catch {
    return { kind: "unreachable" };
  }
}

/** Which refusal it is, from the body of one. Source: RFC 9457 section 3. */
async function told(response: Response, otherwise: RefusalCode) {
  const body = (await response.json().catch(() => undefined)) as
    | { readonly code?: string; readonly faults?: readonly { readonly path: string; readonly code: string }[] }
    | undefined;
  return {
    code: REFUSAL_CODES.find((known) => known === body?.code) ?? otherwise,
    faults: body?.faults ?? [],
  };
}

/** A list that may stand alone or under its name. */
function listed<Item>(reply: Reply<unknown>, name: string): Reply<readonly Item[]> {
  if (reply.kind !== "answer") return reply;
  const { value } = reply;
  if (Array.isArray(value)) return { kind: "answer", value: value as readonly Item[] };
  const inner = (value as Readonly<Record<string, unknown>> | null)?.[name];
  return Array.isArray(inner) ? { kind: "answer", value: inner as readonly Item[] } : { kind: "unreachable" };
}
