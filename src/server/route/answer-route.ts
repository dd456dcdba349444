import type * as z from "zod";
import { mayDo } from "../../register/index.ts";
import { guardHost, guardWrite } from "../http/page-guard.ts";
import { Refusal, type ToldFault } from "../http/refusal.ts";
import { tokenFrom } from "../http/session-cookie.ts";
import { trace, type From } from "../people/people-parts.ts";
import { signedBy, type Signed } from "../people/sign-in.ts";
import type { TokenBucket } from "../people/token-bucket.ts";
import type { ServerParts } from "../server-parts.ts";
import type { Route } from "./route.ts";

export interface Buckets {
  readonly requests: TokenBucket;
  readonly signIns: TokenBucket;
}

/** Takes a request through every guard in one order, reads it, runs the route and writes the answer. */
export async function answerRoute(
  one: Route,
  request: Request,
  params: Readonly<Record<string, string>>,
  from: From,
  parts: ServerParts,
  buckets: Buckets,
): Promise<Response> {
  guardHost(request, parts.hostNames);
  if (one.writes) guardWrite(request);
  const nowMs = parts.now().getTime();
  const token = tokenFrom(request.headers, parts.secure);
  if (one.path === "/api/sign-in" || one.path.startsWith("/api/openid/")) limit(buckets.signIns, from.address, nowMs);
  const signed = token === undefined ? undefined : await signedBy(parts, token);
  // a ward of tablets may share one address: who is signed in is counted alone
  limit(buckets.requests, signed?.session.tokenHash ?? from.address, nowMs);
  await guardAsker(one, signed, from, parts);
  const given = await one.run({
    parts,
    from,
    // a route that asks for nobody does not look; every other has passed the guard
    signed: signed as Signed,
    body: one.body ? read(one.body, await json(request)) : undefined,
    query: one.query ? read(one.query, Object.fromEntries(new URL(request.url).searchParams)) : {},
    params,
    request,
  });
  const headers = { "cache-control": "no-store", ...given.headers };
  const status = given.status ?? one.status;
  if (given.body === undefined) return new Response(null, { status, headers });
  return Response.json(given.body, { status, headers });
}

async function guardAsker(one: Route, signed: Signed | undefined, from: From, parts: ServerParts): Promise<void> {
  if (one.asker === "anyone") return;
  if (!signed) throw new Refusal("sign-in-wanted");
  const { person } = signed;
  if (person.changeWanted && !one.beforeChange) throw new Refusal("password-change-wanted");
  if (one.asker === "signed in" || mayDo(person.roles, one.asker)) return;
  await trace(parts, from, person.account, "refused", "", `${one.method} ${one.path}`);
  throw new Refusal("not-allowed");
}

function limit(bucket: TokenBucket, key: string, nowMs: number): void {
  const wait = bucket.take(key, nowMs);
  if (wait > 0) throw new Refusal("too-many", { retryAfterSeconds: wait });
}

async function json(request: Request): Promise<unknown> {
  if (!/^application\/json\b/i.test(request.headers.get("content-type") ?? "")) throw new Refusal("not-json");
  try {
    return JSON.parse(await request.text()) as unknown;
  } catch (error) {
    if (error instanceof SyntaxError) throw new Refusal("faults", { faults: [{ path: "", code: "not-json" }] });
    throw error;
  }
}

function read<Schema extends z.ZodType>(schema: Schema, value: unknown): z.infer<Schema> {
  const reading = schema.safeParse(value);
  if (reading.success) return reading.data;
  throw new Refusal("faults", { faults: reading.error.issues.map(toldFault) });
}

/** Where and which, never what was found: the name of an unknown field is text somebody typed. */
function toldFault({ code, path, input }: z.core.$ZodIssue): ToldFault {
  const where = path.map(String).join(".");
  return { path: where, code: CODE_OF[code] ?? (input === undefined ? "missing-field" : "wrong-type") };
}

const CODE_OF: Readonly<Record<string, string>> = {
  unrecognized_keys: "unknown-field",
  too_small: "out-of-range",
  too_big: "out-of-range",
  invalid_value: "not-in-list",
};
