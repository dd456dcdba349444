import { randomUUID } from "node:crypto";
import { getConnInfo } from "@hono/node-server/conninfo";
import { Hono, type Context } from "hono";
import { bodyLimit } from "hono/body-limit";
import { secureHeaders } from "hono/secure-headers";
import { pageFile } from "./http/page-files.ts";
import { Refusal, problemResponse } from "./http/refusal.ts";
import { requestLine } from "./http/request-line.ts";
import { TokenBucket } from "./people/token-bucket.ts";
import { answerRoute } from "./route/answer-route.ts";
import { planRoutes } from "./route/plan-routes.ts";
import { routeTable } from "./route/route-table.ts";
import type { Route } from "./route/route.ts";
import type { ServerParts } from "./server-parts.ts";

const MOST_BYTES = 1_000_000;
const YEAR_SECONDS = 31_536_000;

/** The page with, where its parts are given, the record behind it; without them only what keeps nothing. */
export function app(pageFolder: string, parts?: ServerParts): Hono {
  const server = new Hono();
  // by the context: the guard of a body's size puts another request in the place of one sent in pieces
  const ids = new WeakMap<Context, string>();
  const idOf = (context: Context): string => ids.get(context) ?? "";
  server.use(async (context, next) => {
    const started = performance.now();
    ids.set(context, randomUUID());
    await next();
    const { pathname } = new URL(context.req.url);
    parts?.log(
      requestLine({
        at: parts.now().toISOString(),
        request: idOf(context),
        method: context.req.method,
        route: patternOf(context.req.method, pathname),
        status: context.res.status,
        ms: Math.round(performance.now() - started),
      }),
    );
  });
  server.use(
    secureHeaders({
      contentSecurityPolicy: {
        defaultSrc: ["'self'"],
        styleSrc: ["'self'", "'unsafe-inline'"],
        imgSrc: ["'self'", "data:"],
        fontSrc: ["'self'", "data:"],
        workerSrc: ["'self'", "blob:"],
        objectSrc: ["'none'"],
        frameAncestors: ["'none'"],
        baseUri: ["'none'"],
      },
      strictTransportSecurity: parts?.secure ? `max-age=${YEAR_SECONDS}; includeSubDomains` : false,
    }),
  );
  server.use(
    "/api/*",
    bodyLimit({
      maxSize: MOST_BYTES,
      onError: (context) => problemResponse(new Refusal("too-large"), idOf(context)),
    }),
  );
  server.onError((error, context) => {
    const refusal = error instanceof Refusal ? error : new Refusal("went-wrong");
    // the message of an unforeseen error may hold what somebody typed: its kind alone is told
    if (refusal !== error) parts?.log(JSON.stringify({ request: idOf(context), error: error.name }));
    const response = problemResponse(refusal, idOf(context));
    response.headers.set("cache-control", "no-store");
    return response;
  });
  if (parts) serveRecord(server, parts, idOf);
  else for (const one of planRoutes) add(server, one, ({ req }) => answerAlone(one, req.raw));
  server.all("/api/*", (context) => problemResponse(new Refusal("not-found"), idOf(context)));
  server.get("*", (context) => pageFile(pageFolder, new URL(context.req.url).pathname) ?? context.notFound());
  return server;
}

function serveRecord(server: Hono, parts: ServerParts, idOf: (context: Context) => string): void {
  const buckets = {
    requests: new TokenBucket(parts.limits.requestsPerMinute),
    signIns: new TokenBucket(parts.limits.signInsPerMinute),
  };
  for (const one of routeTable) {
    add(server, one, (context) => {
      const from = { address: addressOf(context), request: idOf(context) };
      return answerRoute(one, context.req.raw, context.req.param(), from, parts, buckets);
    });
  }
}

function add(server: Hono, one: Route, answer: (context: Context) => Promise<Response>): void {
  server.on(one.method, one.path.replaceAll(/\{(\w+)\}/g, ":$1"), answer);
}

/** A question to a page without a record: nobody signs in and nothing is kept. */
async function answerAlone(one: Route, request: Request): Promise<Response> {
  const nobody = undefined as never;
  const { body } = await one.run({
    parts: nobody,
    from: { address: "", request: "" },
    signed: nobody,
    body: undefined,
    query: {},
    params: {},
    request,
  });
  return Response.json(body, { status: one.status });
}

/** The other end of the connection; a header that says otherwise can be written by anybody. */
function addressOf(context: Context): string {
  try {
    return getConnInfo(context).remote.address ?? "";
  } catch {
    return ""; // a request made inside this process has no connection
  }
}

function patternOf(method: string, pathname: string): string {
  if (!pathname.startsWith("/api/")) return "page";
  const fits = ({ path }: Route) =>
    new RegExp(`^${path.replaceAll(".", "\\.").replaceAll(/\{\w+\}/g, "[^/]+")}$`).test(pathname);
  return (routeTable.find((one) => one.method === method && fits(one)) ?? routeTable.find(fits))?.path ?? "none";
}
