import { readFileSync } from "node:fs";
import { join, normalize } from "node:path";
import { Hono } from "hono";
import { bodyLimit } from "hono/body-limit";
import { secureHeaders } from "hono/secure-headers";
import { readCaseText } from "../contract/index.ts";
import { bedsidePlan } from "../core/line-plan/index.ts";
import { runSelfTest } from "../core/self-test/index.ts";
import { defaultPolicy, planPolicyFrom } from "../policy/index.ts";
import { demoShelf } from "../practice/index.ts";

const types: Readonly<Record<string, string>> = {
  html: "text/html; charset=utf-8",
  js: "text/javascript; charset=utf-8",
  css: "text/css; charset=utf-8",
  woff2: "font/woff2",
  woff: "font/woff",
  svg: "image/svg+xml",
};

/** A path with a broken escape names nothing. */
function decodedPath(path: string): string | undefined {
  try {
    return decodeURIComponent(path);
  } catch {
    return undefined;
  }
}

/** The page and one question, on loopback: nothing is stored here and nothing a person typed is logged. */
export function app(pageFolder: string): Hono {
  const server = new Hono();
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
    }),
  );
  server.get("/api/health", (context) => {
    const selfTest = runSelfTest(planPolicyFrom(defaultPolicy.table));
    return context.json({ ...selfTest, policyVersion: defaultPolicy.version }, selfTest.passed ? 200 : 500);
  });
  server.post("/api/plan", bodyLimit({ maxSize: 1_000_000 }), async (context) => {
    const reading = readCaseText(await context.req.text(), demoShelf);
    if (reading.kind === "faults") {
      // the value found stays out: a fault answer may be logged on its way
      const faults = reading.faults.map(({ path, code, rule }) => ({
        // the name of an unknown field is text a person typed, too
        path: code === "unknown-field" ? path.split(".").slice(0, -1).join(".") : path,
        code,
        rule,
      }));
      return context.json({ type: "about:blank", title: "The case has faults", status: 422, faults }, 422, {
        "content-type": "application/problem+json",
      });
    }
    const { planned: _, ...said } = bedsidePlan(reading.input, planPolicyFrom(defaultPolicy.table));
    return context.json(said);
  });
  server.get("*", (context) => {
    const path = new URL(context.req.url).pathname;
    if (path.startsWith("/api/")) return context.notFound();
    const decoded = decodedPath(path);
    if (decoded === undefined) return context.notFound();
    const inside = normalize(decoded).replace(/^(\.\.[/\\])+/, "");
    const file = /\.\w+$/.test(inside) ? inside : "/index.html";
    try {
      const body = readFileSync(join(pageFolder, file));
      const type = types[file.split(".").at(-1) as string] ?? "application/octet-stream";
      const cache = file.startsWith("/assets/") ? "public, max-age=31536000, immutable" : "no-cache";
      return context.body(new Uint8Array(body), 200, { "content-type": type, "cache-control": cache });
    } catch {
      return context.notFound();
    }
  });
  return server;
}
