import { createServer } from "node:net";
import { fileURLToPath } from "node:url";
import { serve } from "@hono/node-server";
import { app } from "./app.ts";

const FIRST_PORT = 4750;

/** The first free port from 4750 up, on this machine only. */
function freePort(from: number): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once("error", () => {
      if (from < FIRST_PORT + 50) freePort(from + 1).then(resolve, reject);
      else reject(new Error("no free port"));
    });
    probe.listen(from, "127.0.0.1", () => probe.close(() => resolve(from)));
  });
}

const wanted = process.env["PORT"] || String(FIRST_PORT);
if (!/^\d+$/.test(wanted) || Number(wanted) < 1 || Number(wanted) > 65_535) {
  console.error(`PORT is "${wanted}"; it is a whole number from 1 to 65535.`);
  process.exit(64);
}
const port = await freePort(Number(wanted));
serve({ fetch: app(fileURLToPath(new URL("../web", import.meta.url))).fetch, port, hostname: "127.0.0.1" });
console.log(`Veinwright is at http://127.0.0.1:${port}/ (this machine only; Ctrl+C ends it)`);
