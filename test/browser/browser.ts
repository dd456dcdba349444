import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { spawn, type ChildProcess } from "node:child_process";
import { chromium, type Browser, type BrowserContext, type Page } from "playwright-core";

const CHROMIUM = process.env["VEINWRIGHT_CHROMIUM"] ?? "/usr/bin/chromium";

/** Nothing of the browser's own is asked of the network. */
const FLAGS = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/** The system's Chromium. */
export const launchBrowser = (flags: readonly string[] = []): Promise<Browser> =>
  chromium.launch({ executablePath: CHROMIUM, args: [...FLAGS, ...flags] });

export interface OwnedBrowser {
  readonly context: BrowserContext;
  /** Ends it at once, as a flat battery does. */
  readonly kill: () => Promise<void>;
}

/** The same Chromium as a process of one's own on a folder, which keeps what its pages kept from one start to the next. */
export async function ownBrowser(folder: string): Promise<OwnedBrowser> {
  const child = spawn(
    CHROMIUM,
    [...FLAGS, "--headless=new", "--remote-debugging-port=0", `--user-data-dir=${folder}`],
    { stdio: ["ignore", "ignore", "pipe"] },
  );
  const address = await new Promise<string>((resolve, reject) => {
    child.once("exit", () => reject(new Error("the browser ended before it gave its address")));
    child.stderr.on("data", (chunk: Buffer) => {
      const found = /ws:\/\/\S+/.exec(chunk.toString())?.[0];
      if (found) resolve(found);
    });
  });
  const connected = await chromium.connectOverCDP(address);
  const kill = (): Promise<void> =>
    new Promise((resolve) => {
      child.removeAllListeners("exit");
      child.once("exit", () => resolve());
      child.kill("SIGKILL");
    });
  return { context: connected.contexts()[0] as BrowserContext, kill };
}

export interface Served {
  readonly address: string;
  /** Of the first account, printed once. */
  readonly oneTimePassword: string;
  /** Where its record lies, as the commands name it. */
  readonly place: string;
  readonly stop: () => void;
}

/** Starts the built server as a person would and waits for the address it prints; on a database where one is named. */
export function startServer(storeUrl = ""): Promise<Served> {
  return new Promise((resolve, reject) => {
    // a record of its own for each start, so that one test does not read what another wrote
    const folder = mkdtempSync(join(tmpdir(), "veinwright-browser-"));
    const server: ChildProcess = spawn(process.execPath, ["dist/server/main.js"], {
      stdio: ["ignore", "pipe", "inherit"],
      env: { ...process.env, VEINWRIGHT_DATA: folder, VEINWRIGHT_STORE: storeUrl },
    });
    server.on("exit", () =>
      reject(new Error("The server ended before it printed its address; run `npm run build` first.")),
    );
    let said = "";
    server.stdout?.on("data", (chunk: Buffer) => {
      said += chunk.toString();
      const address = /http:\/\/[\d.]+:\d+/.exec(said)?.[0];
      const oneTimePassword = /one-time password (\S+)/.exec(said)?.[1] ?? "";
      if (address) resolve({ address, oneTimePassword, place: storeUrl || folder, stop: () => server.kill() });
    });
  });
}

/** Opens a practice patient from the first screen. */
export async function openPractice(page: Page, address: string, id: string): Promise<void> {
  // a page that is already there goes to its first screen without being loaded again
  await page.goto(`${address}/#/`);
  await page.locator(`[data-practice="${id}"]`).click();
  await page.locator(".headline").waitFor();
}

export const field = (page: Page, path: string) => page.locator(`input[data-path="${path}"]`);

export type { Browser, BrowserContext, Page };
