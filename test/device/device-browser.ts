import { build } from "esbuild";
import type { BrowserContext, Page } from "playwright-core";
import type { Register, Writing } from "../../src/web/register/register.ts";
import type { SmallServer } from "./small-server.ts";

export const SECRET = "three grey herons by the weir";

/** Bundles the test's own page for the device's parts, as the build does for the real one. */
export async function devicePage(): Promise<SmallServer["files"]> {
  const made = await build({
    entryPoints: ["test/device/device-page.tsx"],
    bundle: true,
    write: false,
    outdir: "out",
    format: "esm",
    jsx: "automatic",
    define: { __STICK__: "false", "process.env.NODE_ENV": '"production"' },
    logLevel: "warning",
  });
  const text = (ending: string) => made.outputFiles.find(({ path }) => path.endsWith(ending))?.text ?? "";
  const page = `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Device</title>
<meta name="viewport" content="width=device-width, initial-scale=1"><link rel="stylesheet" href="/page.css"><link rel="icon" href="data:,">
</head><body><div id="page"></div><script type="module" src="/page.js"></script></body></html>`;
  return {
    "/": { type: "text/html; charset=utf-8", body: page },
    "/page.js": { type: "text/javascript", body: text(".js") },
    "/page.css": { type: "text/css", body: text(".css") },
  };
}

type Holder = { readonly register: Register };

export async function openDevice(context: BrowserContext, server: SmallServer, path = "/"): Promise<Page> {
  const page = await context.newPage();
  await page.goto(`http://127.0.0.1:${server.port}/#${path}`);
  await opened(page);
  return page;
}

export const opened = (page: Page): Promise<unknown> =>
  page.waitForFunction(() => (globalThis as unknown as Partial<Holder>).register?.ready === true);

/** Sets the first secret without the page, and gives the recovery key. */
export const setSecret = (page: Page, secret = SECRET): Promise<string> =>
  page.evaluate((typed) => (globalThis as unknown as Holder).register.lock.setUp("Mara", typed), secret);

export async function unlock(page: Page, secret = SECRET): Promise<void> {
  await page.locator('.lock-page [data-secret="secret"]').fill(secret);
  await page.locator('[data-lock="open"]').click();
  await page.waitForFunction(() => !(globalThis as unknown as Holder).register.locked);
}

export type Asked = Pick<Writing, "subject" | "type" | "data">;

/** Signs entries as a page would; resolves when they are durable, and says whether they are. */
export const write = (page: Page, writings: readonly Asked[]): Promise<boolean> =>
  page.evaluate(async (text) => {
    const asked = JSON.parse(text) as readonly Asked[];
    const { register } = globalThis as unknown as Holder;
    const author = { initials: "MK", role: "inserter", account: "" } as const;
    return register
      .write(asked.map((one) => ({ ...one, happenedAt: register.now(), author })))
      .then(() => true)
      .catch(() => false);
  }, JSON.stringify(writings));

/** One fact about a line whose text can be told from all others. */
export const used = (drug: string, line = "a"): Asked => ({
  subject: `line:${line}`,
  type: "LineUsed",
  data: { drug: { value: drug, from: "told" } },
});

export interface Standing {
  readonly unsent: number;
  readonly contact: Register["contact"];
  readonly lastContact: string | undefined;
  readonly trouble: string | undefined;
  readonly locked: boolean;
  readonly ids: readonly string[];
  readonly texts: readonly string[];
  readonly unkept: number;
  readonly returned: number;
  readonly aside: readonly string[];
}

export const standing = (page: Page): Promise<Standing> =>
  page.evaluate(() => {
    const { register } = globalThis as unknown as Holder;
    const events = [...register.histories.values()].flatMap((history) => history.events);
    return {
      unsent: register.unsent,
      contact: register.contact,
      lastContact: register.lastContact,
      trouble: register.trouble,
      locked: register.locked,
      ids: events.map(({ id }) => id),
      texts: events.map(({ data }) => JSON.stringify(data)),
      unkept: register.toSettle.unkept.length,
      returned: register.toSettle.returned.length,
      aside: register.toSettle.aside.map(({ code }) => code),
    };
  });

export const syncNow = (page: Page): Promise<void> =>
  page.evaluate(() => (globalThis as unknown as Holder).register.syncNow());

/** Waits until the device says what is asked of it. */
export async function until(page: Page, holds: (now: Standing) => boolean, what: string): Promise<Standing> {
  const end = Date.now() + 20_000;
  for (;;) {
    const now = await standing(page);
    if (holds(now)) return now;
    if (Date.now() > end) throw new Error(`never: ${what}; it stands at ${JSON.stringify(now).slice(0, 600)}`);
    await page.waitForTimeout(50);
  }
}
