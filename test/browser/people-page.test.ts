import { createHmac } from "node:crypto";
import { afterAll, beforeAll, expect, test } from "vitest";
import { axeFindings } from "./axe-findings.ts";
import { launchBrowser, type Browser } from "./browser.ts";
import {
  firstSignIn,
  makeAccount,
  newDataFolder,
  signInAs,
  startPrinting,
  writePatient,
  type PrintingServer,
} from "./people-kit.ts";

const OWN = "seven slow barges under willow";
const NURSE = "four wet kestrels on a gate";
let browser: Browser;
let server: PrintingServer;

beforeAll(async () => {
  server = await startPrinting(newDataFolder());
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser.close();
  await server.stop();
});

test("from the console's one-time password to a nurse's entry in a chain that verifies whole", async () => {
  const office = await (await browser.newContext()).newPage();
  await office.goto(`${server.address}/#/sign-in`);
  await signInAs(office, "administrator", "not the password");
  await office.locator(".fault", { hasText: "do not fit together" }).waitFor();
  await signInAs(office, "administrator", server.password);
  await office.locator('[data-secret="next"]').fill("too short");
  await office.locator('[data-secret="next-again"]').fill("too short");
  await office.locator('[data-lock="choose"]').click();
  await office.locator(".fault", { hasText: "The new password is too short" }).waitFor();
  expect(await axeFindings(office)).toEqual([]);
  await office.locator('[data-secret="next"]').fill(OWN);
  await office.locator('[data-secret="next-again"]').fill(OWN);
  await office.locator('[data-lock="choose"]').click();
  const oneTime = await makeAccount(office, "jo.tern", "ward nurse");
  expect(await axeFindings(office)).toEqual([]);

  const ward = await (await browser.newContext()).newPage();
  await ward.goto(`${server.address}/#/sign-in`);
  await firstSignIn(ward, "jo.tern", oneTime, NURSE);
  await ward.locator('.device-line[data-contact="in touch"]').waitFor();
  await ward.goto(`${server.address}/#/new/patient`);
  const offered = await ward.locator('[data-sign="role"] option').allInnerTexts();
  expect(offered).toEqual(["role?", "ward nurse"]);
  await writePatient(ward, server.address, "Invented Heron");
  await ward.locator(".device-line", { hasText: "Nothing waits for the server." }).waitFor();
  const stored = await ward.evaluate(async () =>
    (await fetch("/api/events")).json().then(({ events }: { events: { author: unknown }[] }) => events),
  );
  expect(stored).toMatchObject([{ type: "PatientRegistered", author: { account: "jo.tern", role: "ward nurse" } }]);

  const daily = await office.locator('[data-people="daily"]').innerText();
  expect(daily).toMatch(/^Newest daily backup: 0 h old, verified\. 1 of 14 kept in .*daily\.$/);
  await office.locator('[data-people="verify"]').click();
  const machine = office.locator('[data-people="machine"]');
  await office.locator('[data-people="machine"][data-good="true"]').waitFor();
  expect(await machine.innerText()).toContain("trail: whole");
  await office.locator('[data-people="backup"]').click();
  await office.locator('[data-people="machine"]', { hasText: "backup" }).waitFor();
  await office.locator('[data-people="read-on"]').click();
  expect(await office.locator('[data-people="trail"]').innerText()).toContain("account made");
  for (const [width, colorScheme] of [
    [360, "light"],
    [820, "dark"],
    [1280, "light"],
  ] as const) {
    await office.setViewportSize({ width, height: 900 });
    await office.emulateMedia({ colorScheme });
    expect(await axeFindings(office)).toEqual([]);
    expect(await office.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
  }
  // on paper the accounts, the backups and the trail, and neither a field nor the one-time password
  await office.emulateMedia({ media: "print" });
  expect(await office.locator('[data-account="jo.tern"]').isVisible()).toBe(true);
  expect(await office.locator('[data-people="daily"]').isVisible()).toBe(true);
  for (const one of ["one-time", "verify", "make"])
    expect(await office.locator(`[data-people="${one}"]`).isVisible(), one).toBe(false);
  await office.emulateMedia({ media: "screen" });
  await office.setViewportSize({ width: 1280, height: 720 });

  // an administrator has no copy, and is told so in words
  await office.goto(`${server.address}/#/record`);
  await office.locator('.device-line[data-contact="no copy"]').waitFor();
  expect(await office.locator(".device-line").innerText()).toContain("do not include this");

  // signing out without a network is told to the server before anything else is asked
  await ward.context().setOffline(true);
  await ward.locator('[data-device="leave"]').click();
  await ward.locator('[data-device="leave"]').waitFor({ state: "detached" });
  await ward.context().setOffline(false);
  await ward.reload();
  await ward.locator('.device-line[data-contact="sign in again"]').waitFor();
  expect(await ward.evaluate(() => fetch("/api/me").then(({ status }) => status))).toBe(401);
  await ward.goto(`${server.address}/#/sign-in`);
  await signInAs(ward, "jo.tern", NURSE);
  await ward.locator('.device-line[data-contact="in touch"]').waitFor();

  // signing out here ends the session there
  await ward.locator('[data-device="leave"]').click();
  await ward.locator('.device-line[data-contact="sign in again"]').waitFor();
  expect(await ward.evaluate(() => fetch("/api/me").then(({ status }) => status))).toBe(401);
});

test("too many wrong tries: the page says how long to wait", async () => {
  const page = await (await browser.newContext()).newPage();
  await page.goto(`${server.address}/#/sign-in`);
  for (let tries = 0; tries < 7; tries += 1) {
    const answered = page.waitForResponse(/sign-in$/);
    await signInAs(page, "nobody.here", `wrong ${tries}`);
    await answered;
  }
  await page.locator(".fault", { hasText: /Too many tries\. Wait \d+ seconds/ }).waitFor();
});

test("an account of one ward has no copy; it opens a record in need, and a lead reviews it", async () => {
  const office = await (await browser.newContext()).newPage();
  await office.goto(`${server.address}/#/sign-in`);
  await signInAs(office, "administrator", OWN);
  const leadOnce = await makeAccount(office, "lin.avocet", "lead");
  await office.locator('[data-secret="units"]').fill("Ward 9");
  const wardOnce = await makeAccount(office, "pat.dunlin", "ward nurse");
  expect(await office.locator('[data-account="pat.dunlin"]').innerText()).toContain("Ward 9");

  const lead = await (await browser.newContext()).newPage();
  await lead.goto(`${server.address}/#/sign-in`);
  await firstSignIn(lead, "lin.avocet", leadOnce, "nine round stones in a brook");
  await lead.locator('.device-line[data-contact="in touch"]').waitFor();
  const patient = await lead.evaluate(async () =>
    (await fetch("/api/events"))
      .json()
      .then(({ events }: { events: { subject: string }[] }) => events[0]?.subject.slice("patient:".length) ?? ""),
  );

  const ward = await (await browser.newContext()).newPage();
  await ward.goto(`${server.address}/#/sign-in`);
  await firstSignIn(ward, "pat.dunlin", wardOnce, "six loud rooks at the mill");
  await ward.locator('.device-line[data-contact="no copy"]').waitFor();
  expect(await ward.locator(".device-line").innerText()).toContain("sees its own wards only");
  // the way there stands on a line's own page
  await ward.goto(`${server.address}/#/line/of-another-ward`);
  await ward.locator("[data-in-need]").click();
  await ward.locator('[data-secret="patient"]').waitFor();
  await lead.goto(`${server.address}/#/look-after`);
  await lead.locator('.device-line[data-contact="in touch"]').waitFor();
  expect(await lead.locator("[data-openings]").count()).toBe(0);
  await ward.goto(`${server.address}/#/in-need/${patient}`);
  await ward.locator('[data-people="open-own"]').click();
  await ward.locator(".fault", { hasText: "own wards only" }).waitFor();
  await ward.locator('[data-secret="reason"]').fill("arm swollen, night, nobody to ask");
  await ward.locator('[data-secret="password"]').fill("six loud rooks at the mill");
  await ward.locator('[data-people="open"]').click();
  await ward.locator('[data-people="in-need"]', { hasText: "arm swollen" }).waitFor();
  expect(await ward.locator("main").innerText()).toContain("Invented Heron");
  expect(await axeFindings(ward)).toEqual([]);

  // the lead is told on whatever page of the record is open next, until it was read
  await lead.goto(`${server.address}/#/record`);
  await lead.reload();
  await lead.locator('[data-openings="1"]', { hasText: "opened in need" }).waitFor();
  expect(await axeFindings(lead)).toEqual([]);
  await lead.locator("[data-openings] a").click();
  await lead.locator("[data-opening]", { hasText: "New." }).waitFor();
  const looked = lead.waitForResponse(/break-glass$/);
  await lead.reload();
  await lead.goto(`${server.address}/#/look-after`);
  await looked;
  await lead.locator('.device-line[data-contact="in touch"]').waitFor();
  expect(await lead.locator("[data-openings]").count()).toBe(0);
  await lead.goto(`${server.address}/#/people`);
  await lead.locator('[data-secret="finding"]').fill("rightly opened, ward was told");
  await lead.locator('[data-people="review"]').click();
  await lead.locator("[data-opening]", { hasText: "Reviewed by lin.avocet" }).waitFor();
  expect(await axeFindings(lead)).toEqual([]);
});

test("a second factor: its secret as text, recovery codes once, and a code at the next sign-in", async () => {
  const page = await (await browser.newContext()).newPage();
  await page.goto(`${server.address}/#/sign-in`);
  await signInAs(page, "administrator", OWN);
  await page.locator('[data-secret="factor-password"]').fill(OWN);
  await page.locator('[data-people="factor-go"]').click();
  const secret = (await page.locator('[data-people="factor-secret"]').innerText()).replaceAll(" ", "");
  await page.locator('[data-secret="factor-code"]').fill(codeOf(secret, Date.now()));
  await page.locator('[data-people="factor-go"]').click();
  await page.locator('[data-people="recovery"]').first().waitFor();
  expect(await axeFindings(page)).toEqual([]);
  const [recovery = ""] = await page.locator('[data-people="recovery"]').allInnerTexts();
  await page.locator('[data-people="sign-out"]').click();
  expect(await page.locator('[data-secret="code"]').count()).toBe(0);
  await signInAs(page, "administrator", OWN);
  await page.locator('[data-secret="code"]').fill(recovery);
  await page.locator('[data-lock="sign-in"]').click();
  await page.locator('[data-people="me"]', { hasText: "administrator" }).waitFor();
});

/** The six digits of a moment, made here and not by the server. Source: RFC 6238 section 4, RFC 4226 section 5.3. */
function codeOf(secret: string, atMs: number): string {
  const bits = Array.from(secret)
    .map((sign) => "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567".indexOf(sign).toString(2).padStart(5, "0"))
    .join("");
  const key = Buffer.from(bits.match(/.{8}/g)?.map((byte) => Number.parseInt(byte, 2)) ?? []);
  const step = Buffer.alloc(8);
  step.writeBigUInt64BE(BigInt(Math.floor(atMs / 30_000)));
  const mac = createHmac("sha1", key).update(step).digest();
  const offset = (mac.at(-1) ?? 0) & 15;
  return String((mac.readUInt32BE(offset) & 0x7f_ff_ff_ff) % 1_000_000).padStart(6, "0");
}
