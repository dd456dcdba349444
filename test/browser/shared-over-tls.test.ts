import { X509Certificate, createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { launchBrowser, type Browser, type Page } from "./browser.ts";
import {
  firstSignIn,
  makeAccount,
  newDataFolder,
  signInAs,
  startPrinting,
  writePatient,
  type PrintingServer,
} from "./people-kit.ts";

const HOST = "veinwright.test"; // a name that can never be anybody's: RFC 6761 section 6.2
const NURSE = "four wet kestrels on a gate";
const SECRET = "three grey herons by the weir";

/** A record with one invented person in it, made on the machine itself as the how-to says. */
async function machineWithRecord(dataFolder: string): Promise<void> {
  const server = await startPrinting(dataFolder);
  const browser = await launchBrowser();
  const office = await (await browser.newContext()).newPage();
  await office.goto(`${server.address}/#/sign-in`);
  await firstSignIn(office, "administrator", server.password, "seven slow barges under willow");
  const oneTime = await makeAccount(office, "jo.tern", "ward nurse");
  const ward = await (await browser.newContext()).newPage();
  await ward.goto(`${server.address}/#/sign-in`);
  await firstSignIn(ward, "jo.tern", oneTime, NURSE);
  await ward.locator('.device-line[data-contact="in touch"]').waitFor();
  await writePatient(ward, server.address, "Invented Heron");
  await ward.locator(".device-line", { hasText: "Nothing waits for the server." }).waitFor();
  await browser.close();
  await server.stop();
}

/** A browser that knows the second name and trusts this server's key and no other. */
function tablet(dataFolder: string) {
  const certificate = new X509Certificate(readFileSync(join(dataFolder, "tls", "server.pem")));
  const key = createHash("sha256").update(certificate.publicKey.export({ type: "spki", format: "der" }));
  return launchBrowser([
    `--host-resolver-rules=MAP ${HOST} 127.0.0.1`,
    `--ignore-certificate-errors-spki-list=${key.digest("base64")}`,
  ]);
}

/** Rows of the device's log: what was copied or written here, sealed or not. */
const rowsKept = (page: Page): Promise<number> =>
  page.evaluate(
    () =>
      new Promise<number>((resolve, reject) => {
        const opening = indexedDB.open("veinwright-record");
        opening.onerror = () => reject(new Error("no store"));
        opening.onsuccess = () => {
          const counting = opening.result.transaction("log").objectStore("log").count();
          counting.onsuccess = () => {
            opening.result.close();
            resolve(counting.result);
          };
        };
      }),
  );

/** Looks for a person as the Record door does. */
async function finds(page: Page, name: string): Promise<void> {
  await page.locator('[data-search="people"]').fill(name);
  await page.locator(".people li", { hasText: name }).first().waitFor();
}

async function unlock(page: Page): Promise<void> {
  await page.locator('.lock-page [data-secret="secret"]').fill(SECRET);
  await page.locator('[data-lock="open"]').click();
  await page.locator('[data-device="lock"]').waitFor();
}

test("from a second name over TLS: a secret first, then the copy, and both page and entries with the network off", async () => {
  const dataFolder = newDataFolder();
  await machineWithRecord(dataFolder);
  const server: PrintingServer = await startPrinting(dataFolder, ["--share", HOST]);
  let browser: Browser | undefined;
  try {
    browser = await tablet(dataFolder);
    expect(server.address).toMatch(new RegExp(`^https://${HOST}:`));
    const context = await browser.newContext();
    const page = await context.newPage();
    await page.goto(`${server.address}/#/sign-in`);
    expect(await page.evaluate(() => isSecureContext)).toBe(true);
    await signInAs(page, "jo.tern", NURSE);
    await page.locator('[data-lock="shared"]').waitFor();
    await page.locator('.device-line[data-contact="secret first"]').waitFor();
    expect(await rowsKept(page)).toBe(0);
    await page.locator('[data-secret="person"]').fill("Jo");
    await page.locator('[data-secret="secret"]').fill(SECRET);
    await page.locator('[data-secret="again"]').fill(SECRET);
    await page.locator('[data-lock="set"]').click();
    await page.locator('[data-lock="kept"]').click();
    await page.locator('.device-line[data-contact="in touch"]').waitFor();
    expect(await rowsKept(page)).toBeGreaterThan(0);
    await finds(page, "Invented Heron");

    await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
    await context.setOffline(true);
    await page.reload();
    await unlock(page);
    await writePatient(page, server.address, "Invented Egret");
    await finds(page, "Invented Egret");
    await page.reload();
    await unlock(page);
    for (const name of ["Invented Heron", "Invented Egret"]) await finds(page, name);
    expect(await page.locator('[data-device="unsent"]').innerText()).toBe("1 entry waits for the server.");

    await context.setOffline(false);
    await page.locator(".device-line", { hasText: "Nothing waits for the server." }).waitFor({ timeout: 90_000 });
    const names = await page.evaluate(async () =>
      (await fetch("/api/events"))
        .json()
        .then(({ events }: { events: { data: { name: { value: string } } }[] }) =>
          events.map(({ data }) => data.name.value),
        ),
    );
    expect(names).toEqual(["Invented Heron", "Invented Egret"]);
  } finally {
    await browser?.close();
    await server.stop();
  }
});
