import { createServer, type IncomingMessage, type ServerResponse } from "node:http";
import type { AddressInfo } from "node:net";
import { eventFaults } from "../../src/contract/index.ts";
import type { Offer } from "../../src/register/index.ts";
import { PlainStore } from "./plain-store.ts";

export interface SmallServer {
  port: number;
  readonly store: PlainStore;
  /** Offers that came, each as the identifiers in it: how often a thing was sent. */
  readonly received: string[][];
  /** Whether the server asks to sign in first. */
  asksSignIn: boolean;
  /** A type of event this server turns back whole, as one that does not know it. */
  unknownType: string | undefined;
  /** Milliseconds until an offer is answered; the store has taken it before. */
  answerAfterMs: number;
  /** The files of the page, by path. */
  files: Readonly<Record<string, { readonly type: string; readonly body: string }>>;
  stop: () => Promise<void>;
}

/** A server with the routes the device asks, over a plain store, on loopback. */
export async function startSmallServer(files: SmallServer["files"], port = 0): Promise<SmallServer> {
  const state: SmallServer = {
    port,
    store: new PlainStore(),
    received: [],
    asksSignIn: false,
    unknownType: undefined,
    answerAfterMs: 0,
    files,
    stop: () => Promise.resolve(),
  };
  const server = createServer((request, response) => void answer(state, request, response).catch(() => response.end()));
  await new Promise<void>((resolve) => void server.listen(port, "127.0.0.1", resolve));
  state.port = (server.address() as AddressInfo).port;
  state.stop = () =>
    new Promise((resolve) => {
      server.closeAllConnections();
      server.close(() => resolve());
    });
  return state;
}

async function answer(state: SmallServer, request: IncomingMessage, response: ServerResponse): Promise<void> {
  const url = new URL(request.url ?? "/", "http://127.0.0.1");
  const json = (value: unknown, status = 200): void => {
    response.writeHead(status, { "content-type": "application/json" }).end(JSON.stringify(value));
  };
  if (!url.pathname.startsWith("/api/")) {
    const file = state.files[url.pathname];
    if (file) response.writeHead(200, { "content-type": file.type }).end(file.body);
    else response.writeHead(404).end();
    return undefined;
  }
  if (url.pathname === "/api/sign-in") {
    const who = (await read(request)) as { readonly password: string };
    if (who.password !== "a long password of ours") return json({ code: "wrong-sign-in" }, 401);
    state.asksSignIn = false;
    return json({
      account: "mara",
      roles: ["inserter"],
      units: [],
      actions: [],
      changeWanted: false,
      secondFactor: false,
    });
  }
  if (state.asksSignIn) return json({ title: "sign in" }, 401);
  if (url.pathname === "/api/head") return json(state.store.head());
  if (url.pathname === "/api/events") {
    return json(state.store.readAfter(Number(url.searchParams.get("after")), Number(url.searchParams.get("limit"))));
  }
  if (url.pathname !== "/api/offers") return json({}, 404);
  const offers = (await read(request)) as readonly Offer[];
  state.received.push(offers.flatMap(({ events }) => events.map(({ id }) => id)));
  const events = offers.flatMap((offer) => offer.events);
  // the faults a real server would find; an event this device made has none
  const faulty = events.some((event) => event.type === state.unknownType || eventFaults(event).length > 0);
  if (faulty) return json({ title: "not understood" }, 422);
  const answers = offers.map((offer) => state.store.append(offer));
  if (state.answerAfterMs > 0) await new Promise((resolve) => void setTimeout(resolve, state.answerAfterMs));
  return json(answers);
}

async function read(request: IncomingMessage): Promise<unknown> {
  const parts: Buffer[] = [];
  for await (const part of request) parts.push(part as Buffer);
  return JSON.parse(Buffer.concat(parts).toString("utf8"));
}
