import type { Page } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import type { SealedEvent, Subject } from "../../src/register/index.ts";
import { launchBrowser, startServer, type Browser, type Served } from "./browser.ts";
import { entry, headlineOf, makePeople, releaseOf, signIn, type Caller } from "./journey-kit.ts";

// Every path by which a release dies, on the line's own page: the page last knew "may be used", somebody else wrote
// something, and the page has to refuse. The paths and their states: common practice, no source; each is a policy row.

type Said = readonly [type: string, minutesAgo: number, said: Readonly<Record<string, unknown>>];

const film = (more: Readonly<Record<string, unknown>> = {}) => ({
  method: "film",
  patientNumber: "P-77310",
  arm: "right",
  armPosition: "at the side",
  tipPlace: "cavo-atrial junction",
  outsideCm: 3,
  insideCm: 41,
  ...more,
});
const release = { uses: ["other drug", "vesicant"], releasedBy: "M Kolm", toldTo: "A Wren" };
const visit = (more: Readonly<Record<string, unknown>> = {}) => ({
  outsideCm: 3,
  bloodReturn: "yes",
  symptoms: ["none"],
  ...more,
});

/** A line that may be used: placed, filmed, released. */
const RELEASED: readonly Said[] = [
  ["LineInserted", 180, { patient: "p1", arm: "right", insideCm: 41, outsideCm: 3, ward: "4" }],
  ["TipRead", 150, film()],
  ["LineReleased", 120, release],
];

interface Path {
  readonly name: string;
  readonly state: string;
  readonly since: (ids: readonly string[]) => readonly Said[];
  /** A page that lists what was given although it was off. */
  readonly usedSince?: string;
}
const path = (name: string, state: string, ...since: readonly Said[]): Path => ({ name, state, since: () => since });

const PATHS: readonly Path[] = [
  path("out by 2.5 cm", "ended", ["CareGiven", 30, visit({ outsideCm: 5.5 })]),
  path("out by exactly 2 cm", "ended", ["CareGiven", 30, visit({ outsideCm: 5 })]),
  path("out by 1 cm", "held", ["CareGiven", 30, visit({ outsideCm: 4 })]),
  path("in by 1 cm", "ended", ["CareGiven", 30, visit({ outsideCm: 2 })]),
  path("a second person measures more", "ended", [
    "CareGiven",
    30,
    visit({ outsideCm: 3, secondMeasureCm: 5.5, secondMeasurer: "T Oren" }),
  ]),
  path("no blood return", "restricted", ["CareGiven", 30, visit({ bloodReturn: "no" })]),
  path(
    "no blood return, then nobody looked again",
    "restricted",
    ["CareGiven", 40, visit({ bloodReturn: "no" })],
    ["CareGiven", 20, { outsideCm: 3, symptoms: ["none"] }],
  ),
  path("no blood return and a swollen arm", "ended", [
    "CareGiven",
    30,
    visit({ bloodReturn: "no", symptoms: ["arm swelling"] }),
  ]),
  ...["arm swelling", "arm or shoulder pain", "chest pain", "ear sound on flushing", "palpitations", "leak"].map(
    (symptom) => path(symptom, "ended", ["CareGiven", 30, visit({ symptoms: [symptom] })]),
  ),
  {
    name: "seen before a vesicant was given, written after it",
    state: "ended",
    since: () => [
      ["LineUsed", 20, { what: "vesicant" }],
      ["CareGiven", 30, visit({ outsideCm: 6 })],
    ],
    usedSince: "vesicant",
  },
  {
    name: "seen before the release, written after it",
    state: "not released",
    since: () => [
      ["CareGiven", 130, visit({ outsideCm: 6 })],
      ["LineUsed", 60, { what: "vesicant" }],
    ],
    usedSince: "vesicant",
  },
  path("a film of before the release, read after it: the tip is not central", "not released", [
    "TipRead",
    130,
    film({ tipPlace: "innominate vein" }),
  ]),
  path(
    "moved, then released again on the old film",
    "ended",
    ["CareGiven", 30, visit({ outsideCm: 6 })],
    ["LineReleased", 10, release],
  ),
  path("a film of the other arm", "not released", ["TipRead", 30, film({ arm: "left" })]),
  path("a film of another person", "not released", ["TipRead", 30, film({ patientNumber: "P-10000" })]),
  path("a film that names no arm", "not released", ["TipRead", 30, film({ arm: undefined })]),
  path("a film with the tip short of the cava", "ended", ["TipRead", 30, film({ tipPlace: "innominate vein" })]),
  path("a film 2.5 cm too deep", "ended", [
    "TipRead",
    30,
    film({ tipPlace: "right atrium", filmCm: 7.3, magnification: 1.12 }),
  ]),
  path(
    "too deep, moved, and released again without a film",
    "ended",
    ["TipCorrected", 30, { withdrawnCm: 2, outsideCm: 5, insideCm: 39 }],
    ["LineReleased", 10, release],
  ),
  path("a film with the tip in the neck", "ended", ["TipRead", 30, film({ tipPlace: "neck vein" })]),
  path("a tip corrected and not filmed since", "ended", [
    "TipCorrected",
    30,
    { withdrawnCm: 2, outsideCm: 5, insideCm: 39 },
  ]),
  {
    name: "the film the release stood on never was this person's",
    state: "not released",
    since: ([, filmId]) => [["EventVoided", 0, { event: filmId, why: "another person's film" }]],
  },
  {
    name: "the film the release stood on was read again: the tip is not central",
    state: "not released",
    since: ([, filmId]) => [
      [
        "ValueCorrected",
        0,
        { event: filmId, field: "tipPlace", value: { value: "azygos vein", from: "measured" }, why: "read again" },
      ],
    ],
  },
  {
    name: "the arm written at the placing was the wrong one",
    state: "not released",
    since: ([placedId]) => [
      ["ValueCorrected", 0, { event: placedId, field: "arm", value: { value: "left", from: "measured" }, why: "slip" }],
    ],
  },
  {
    name: "the release itself was a mistake",
    state: "not released",
    since: ([, , releaseId]) => [["EventVoided", 0, { event: releaseId, why: "another line was meant" }]],
  },
  path("taken out", "ended", ["LineRemoved", 30, { reason: "came out", planned: false, tipWhole: true }]),
  path("handed on", "ended", ["LineHandedOn", 30, { toService: "Hill House", toPerson: "B Lund", phone: "0" }]),
  path("nobody knows whether it is in", "ended", ["EndUnknown", 30, { lastSeenOn: "2026-01-05", lastOwner: "Lund" }]),
];
const HOURS_MORE = 5;

let browser: Browser;
let served: Served;
let lead: Caller;
let page: Page;
const stored = new Map<number, readonly string[]>();
const lineOf = (at: number): Subject => `line:path-${at}`;

async function offer(subject: Subject, said: readonly Said[], seen: number): Promise<readonly SealedEvent[]> {
  const events = said.map(([type, minutesAgo, data], at) => {
    const known = Object.fromEntries(Object.entries(data).filter(([, value]) => value !== undefined));
    return entry(subject, type, known, { seen: seen + at, minutesAgo });
  });
  const { answers } = await lead.ask<{ answers: readonly { kind: string }[] }>("POST", "/api/offers", [
    { subject, expectedVersion: seen, events },
  ]);
  expect(answers.map(({ kind }) => kind)).toEqual(["accepted"]);
  return events;
}

async function openLine(at: number): Promise<void> {
  await page.goto(`${served.address}/#/${lineOf(at).replace(":", "/")}`);
  await page.locator("[data-release]").waitFor();
}

beforeAll(async () => {
  [browser, served] = await Promise.all([launchBrowser(), startServer()]);
  const people = await makePeople(served);
  lead = people.lead;
  await offer(
    "patient:p1",
    [["PatientRegistered", 200, { number: "P-77310", name: "ASKELL, Mira", bornOn: "1961-07-19" }]],
    0,
  );
  // one line more than there are paths: nothing happens to it but time
  for (let at = 0; at <= PATHS.length; at += 1) {
    const events = await offer(lineOf(at), RELEASED, 0);
    stored.set(
      at,
      events.map(({ id }) => id),
    );
  }
  page = await (await browser.newContext()).newPage();
  page.setDefaultTimeout(10_000);
  await signIn(page, served.address, people.placer);
  for (let at = 0; at <= PATHS.length; at += 1) {
    await openLine(at);
    expect([at, await releaseOf(page)]).toEqual([at, "may be used"]);
  }
  for (const [at, { since }] of PATHS.entries()) await offer(lineOf(at), since(stored.get(at) ?? []), RELEASED.length);
  await page.reload();
  await page.locator('.device-line[data-contact="in touch"]').waitFor();
});
afterAll(async () => {
  await browser.close();
  served.stop();
});

test.each(PATHS.map(({ name, state, usedSince }, at) => ({ name, state, usedSince, at })))(
  "$name: $state",
  async ({ at, state, usedSince }) => {
    await openLine(at);
    expect(await releaseOf(page)).toBe(state);
    const said = await headlineOf(page);
    expect(said).not.toMatch(/^Released for/);
    if (state === "ended" || state === "not released") expect(said).toMatch(/Do not use\./);
    else expect(said.split(" As known")[0]).not.toContain("vesicant");
    expect((await page.locator(".line-answer .reasons li").count()) > 0).toBe(true);
    if (usedSince) expect(await page.locator(".used-since").innerText()).toContain(usedSince);
  },
);

test(`no contact for ${HOURS_MORE} hours: not confirmed, call`, async () => {
  await openLine(PATHS.length);
  expect(await releaseOf(page)).toBe("may be used");
  await page.context().setOffline(true);
  await page.locator('.device-line[data-contact="out of touch"]').waitFor();
  expect(await releaseOf(page)).toBe("may be used");
  await page.evaluate((hours) => {
    const { now } = Date;
    Date.now = () => now() + hours * 3_600_000;
  }, HOURS_MORE);
  await openLine(0);
  await openLine(PATHS.length);
  expect(await releaseOf(page)).toBe("not confirmed");
  expect(await headlineOf(page)).toMatch(/^Not confirmed\. Call\. Last known: may be used\. As known at \d\d:\d\d/);
});
