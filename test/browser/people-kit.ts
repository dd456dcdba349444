import { spawn } from "node:child_process";
import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Page } from "playwright-core";

export interface PrintingServer {
  readonly address: string;
  /** The administrator's one-time password, "" after the first start. */
  readonly password: string;
  readonly printed: string;
  readonly stop: () => Promise<unknown>;
}

export const newDataFolder = (): string => mkdtempSync(join(tmpdir(), "veinwright-people-"));

/** Starts the built server as a person would and reads its console up to its address. */
export function startPrinting(dataFolder: string, words: readonly string[] = []): Promise<PrintingServer> {
  return new Promise((resolve, reject) => {
    const server = spawn(process.execPath, ["dist/server/main.js", ...words], {
      stdio: ["ignore", "pipe", "inherit"],
      env: { ...process.env, VEINWRIGHT_DATA: dataFolder, PORT: "" },
    });
    const ended = new Promise((resolve) => server.on("exit", resolve));
    server.on("exit", () => reject(new Error("The server ended before its address; run `npm run build` first.")));
    let printed = "";
    server.stdout.on("data", (chunk: Buffer) => {
      printed += chunk.toString();
      const address = /at (https?:\/\/[\w.]+:\d+)\//.exec(printed)?.[1];
      if (address === undefined) return;
      const password = /one-time password ([a-z2-7-]+)/.exec(printed)?.[1] ?? "";
      const stop = () => {
        server.kill("SIGTERM");
        return ended;
      };
      resolve({ address, password, printed, stop });
    });
  });
}

/** Signs in on the page with a one-time password and chooses one's own. */
export async function firstSignIn(page: Page, account: string, oneTime: string, own: string): Promise<void> {
  await signInAs(page, account, oneTime);
  await page.locator('[data-secret="next"]').fill(own);
  await page.locator('[data-secret="next-again"]').fill(own);
  await page.locator('[data-lock="choose"]').click();
}

export async function signInAs(page: Page, account: string, password: string): Promise<void> {
  await page.locator('[data-secret="account"]').fill(account);
  await page.locator('[data-secret="password"]').fill(password);
  await page.locator('[data-lock="sign-in"]').click();
}

/** Makes an account as the signed-in administrator; gives its one-time password. */
export async function makeAccount(page: Page, account: string, role: string): Promise<string> {
  await page.locator('[data-secret="new-account"]').fill(account);
  await page.locator(`form [data-role="${role}"]`).last().check();
  await page.locator('[data-people="make"]').click();
  await page.locator(`[data-account="${account}"]`).waitFor();
  return page.locator('[data-people="one-time"]').innerText();
}

/** Writes a person new to the record and signs it. */
export async function writePatient(page: Page, address: string, name: string): Promise<void> {
  await page.goto(`${address}/#/new/patient`);
  await page.locator('input[data-field="name"]').fill(name);
  await page.locator('[data-sign="initials"]').fill("JT");
  await page.locator('[data-sign="role"]').selectOption("ward nurse");
  await page.locator('[data-sign="sign"]').click();
}
