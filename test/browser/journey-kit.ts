import { randomUUID } from "node:crypto";
import type { Page } from "playwright-core";
import type { Instant } from "../../src/core/calendar/index.ts";
import { needsAccount, seal, type SealedEvent, type StoredEvent, type Subject } from "../../src/register/index.ts";
import type { Served } from "./browser.ts";

/** A person at the HTTP interface, as a program of the house would be. */
export interface Caller {
  readonly ask: <Answer>(method: string, path: string, body?: unknown) => Promise<Answer>;
  readonly events: () => Promise<readonly StoredEvent[]>;
}

async function caller(address: string, account: string, password: string): Promise<Caller> {
  let cookie = "";
  const ask = async <Answer>(method: string, path: string, body?: unknown): Promise<Answer> => {
    const response = await fetch(`${address}${path}`, {
      method,
      headers: { "x-veinwright": "1", "content-type": "application/json", cookie },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
    const text = await response.text();
    if (!response.ok) throw new Error(`${method} ${path}: ${response.status} ${text.slice(0, 400)}`);
    cookie = response.headers.get("set-cookie")?.split(";")[0] ?? cookie;
    return (text === "" ? undefined : JSON.parse(text)) as Answer;
  };
  await ask("POST", "/api/sign-in", { account, password, code: "" });
  const events = async () =>
    (await ask<{ events: readonly StoredEvent[] }>("GET", "/api/events?after=0&limit=500")).events;
  return { ask, events };
}

const OWN = { administrator: "seven slow barges go by", other: "quiet lamp river sail" } as const;

/** The people of the journey: an administrator makes two accounts, each chooses a password of its own. */
export async function makePeople({ address, oneTimePassword }: Served) {
  const first = await caller(address, "administrator", oneTimePassword);
  await first.ask("POST", "/api/password", { password: oneTimePassword, next: OWN.administrator });
  const keeper = await caller(address, "administrator", OWN.administrator);
  const made = async (account: string, roles: readonly string[]) => {
    const { oneTimePassword: password } = await keeper.ask<{ oneTimePassword: string }>("POST", "/api/people", {
      account,
      roles,
    });
    await (await caller(address, account, password)).ask("POST", "/api/password", { password, next: OWN.other });
    return caller(address, account, OWN.other);
  };
  const placer = { account: "m.kolm", password: OWN.other };
  const lead = await made(placer.account, ["inserter", "lead", "ward nurse", "home nurse"]);
  return { placer, lead, other: await made("a.wren", ["ward nurse"]) };
}

/** Signs the page in at the server. All that this journey knows of the sign-in page stands here. */
export async function signIn(page: Page, address: string, who: { account: string; password: string }): Promise<void> {
  await page.goto(`${address}/#/sign-in`);
  await page.locator('[data-secret="account"]').fill(who.account);
  await page.locator('[data-secret="password"]').fill(who.password);
  await page.locator('[data-lock="sign-in"]').click();
  await page.locator('.device-line[data-contact="in touch"]').waitFor();
}

export const DEVICE_SECRET = "three grey herons by the weir";

/** Puts the device under lock, so that what is written is sealed; all that this journey knows of the page is here. */
export async function lockDevice(page: Page, address: string): Promise<void> {
  await page.goto(`${address}/#/secret`);
  await page.locator('[data-secret="person"]').fill("Mara");
  await page.locator('[data-secret="secret"]').fill(DEVICE_SECRET);
  await page.locator('[data-secret="again"]').fill(DEVICE_SECRET);
  await page.locator('[data-lock="set"]').click();
  await page.locator('[data-lock="kept"]').click();
}

export async function openLock(page: Page): Promise<void> {
  await page.locator('.lock-page [data-secret="secret"]').fill(DEVICE_SECRET);
  await page.locator('[data-lock="open"]').click();
  await page.locator('[data-lock="open"]').waitFor({ state: "detached" });
}

export type Typed = Readonly<Record<string, string | readonly string[]>>;

/** Answers fields of a form as a hand would; gives how many taps that took. */
export async function answer(page: Page, typed: Typed): Promise<number> {
  let taps = 0;
  for (const [name, value] of Object.entries(typed)) {
    for (const one of typeof value === "string" ? [value] : value) {
      const choice = page.locator(`input[data-field="${name}"][data-value="${one}"]`);
      if ((await choice.count()) > 0) await choice.locator("xpath=..").click();
      else await page.locator(`input[data-field="${name}"]`).fill(one);
      taps += 1;
    }
  }
  return taps;
}

/** Signs the open form; gives how many taps that took. It does not wait for what comes after. */
export async function sign(page: Page, initials: string, role: string): Promise<number> {
  await page.locator('[data-sign="initials"]').fill(initials);
  await page.locator('[data-sign="role"]').selectOption(role);
  await page.locator('[data-sign="sign"]').click();
  return 3;
}

/** The record keeps whole seconds: what happens next happens in a later one, as it would at a bedside. */
export async function nextSecond(page: Page): Promise<void> {
  const second = await page.evaluate(() => Math.floor(Date.now() / 1000));
  await page.waitForFunction((passed) => Math.floor(Date.now() / 1000) > passed, second);
}

/** Writes one entry about the line from the line's own page, and waits until the page shows it again. */
export async function writeAbout(page: Page, type: string, typed: Typed, [initials, role]: Signer): Promise<void> {
  await nextSecond(page);
  await page.locator(`[data-write="${type}"]`).click();
  await page.locator('[data-sign="sign"]').waitFor();
  await answer(page, typed);
  await sign(page, initials, role);
  await page.locator("[data-release]").waitFor();
}

export type Signer = readonly [initials: string, role: string];

export const releaseOf = (page: Page) => page.locator("[data-release]").getAttribute("data-release");
export const headlineOf = async (page: Page) => plain(await page.locator("[data-release]").innerText());
export const filmOf = async (page: Page) => plain(await page.locator("[data-film]").innerText());
export const plain = (text: string) => text.replaceAll(/[\u202f\u00A0\u202F]/g, " ");

/** The kinds of entry in the line's timeline, first to last. */
export const timelineOf = (page: Page): Promise<readonly (string | null)[]> =>
  page.locator(".timeline > li").evaluateAll((items) => items.map((item) => item.getAttribute("data-event")));

/** Waits until nothing on this device is still to be sent. */
export const allSent = (page: Page) =>
  page.waitForFunction(() => {
    const said = document.querySelector('[data-device="unsent"]')?.textContent ?? "";
    return document.querySelector(".device-line")?.getAttribute("data-contact") === "in touch" && !/\d/.test(said);
  });

/** What another client writes about a subject through the interface, having seen `seen` entries of it. */
export function entry(
  subject: Subject,
  type: string,
  said: Readonly<Record<string, unknown>>,
  { seen, minutesAgo = 0 }: { readonly seen: number; readonly minutesAgo?: number },
): SealedEvent {
  const at = (minutes: number) =>
    `${new Date(Date.now() - minutes * 60_000).toISOString().slice(0, 19)}+00:00` as Instant;
  const about = type === "EventVoided" || type === "ValueCorrected";
  return seal({
    id: randomUUID(),
    subject,
    type,
    shape: 1,
    happenedAt: at(minutesAgo),
    writtenAt: at(0),
    // a decision counts only from an account that holds its role
    author: needsAccount(type)
      ? { initials: "MK", role: "lead", account: "m.kolm" }
      : { initials: "AW", role: "ward nurse", account: "" },
    device: "ward desk",
    policyVersion: "1",
    seen,
    data: (about
      ? said
      : Object.fromEntries(
          Object.entries(said).map(([key, value]) => [key, { value, from: "measured" }]),
        )) as SealedEvent["data"],
  });
}
