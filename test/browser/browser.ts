import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { spawn, type ChildProcess } from "node:child_process";
import { chromium, type Browser, type BrowserContext, type Page } from "playwright-core";

/** The system's Chromium, with nothing of its own asked of the network. */
const FLAGS = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

export const launchBrowser = (): Promise<Browser> =>
  chromium.launch({ executablePath: process.env["VEINWRIGHT_CHROMIUM"] ?? "/usr/bin/chromium", args: FLAGS });

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
  await page.goto(address);
  await page.locator(`[data-practice="${id}"]`).click();
  await page.locator(".headline").waitFor();
}

export const field = (page: Page, path: string) => page.locator(`input[data-path="${path}"]`);

export type { Browser, BrowserContext, Page };
