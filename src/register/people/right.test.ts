import { describe, expect, test } from "vitest";
import { eventCatalogue, type RegisterEvent, type Role } from "../index.ts";
import { actionOfEntry, mayWrite, writableTypes } from "./entry-right.ts";
import { judgeEntry, type EntryWitness, type Holder } from "./judge-entry.ts";
import { ACCOUNT_ROLES, mayDo, rolesFit, type AccountRole, type Action } from "./right.ts";
import { inventedEntry } from "../../../test/invented-entry.ts";

// The table of least privilege written out once more by hand, as the service's rules have it (common practice, no
// source): a tick is a right. Columns: viewer, follow-up nurse (ward and home), inserter, lead, auditor, exporter,
// administrator.
const COLUMNS: readonly AccountRole[] = [
  "viewer",
  "ward nurse",
  "home nurse",
  "inserter",
  "lead",
  "auditor",
  "data exporter",
  "administrator",
];
const BY_HAND: readonly (readonly [Action, string])[] = [
  ["copy the record", "x x x x x - - -"],
  ["care", "- x x x x - - -"],
  ["place", "- - - x x - - -"],
  ["remove", "- x x x x - - -"],
  ["correct another's entry", "- - - - x - - -"],
  ["merge patients", "- - - - x - - -"],
  ["set policy", "- - - - x - - -"],
  ["count without names", "x x x x x x x -"],
  ["read the trail", "- - - - x x - -"],
  ["read the technical trail", "- - - - x x - x"],
  ["approve an export", "- - - - x - - -"],
  ["make an export", "- - - - - - x -"],
  ["keep people", "- - - - - - - x"],
  ["keep the machine", "- - - - - - - x"],
  ["keep the count", "- - - - x - - -"],
  ["look at signals", "- - - - x - - -"],
  ["count a ward", "- x x x x - - -"],
];

describe("rights", () => {
  test.each(BY_HAND)("%s", (action, row) => {
    expect(COLUMNS.map((role) => (mayDo([role], action) ? "x" : "-")).join(" ")).toBe(row);
  });

  test("every type of entry names its action, and no role without one", () => {
    const types = Object.values(eventCatalogue).flatMap((kind) => Object.keys(kind));
    expect(types.filter((type) => actionOfEntry(type) === undefined)).toEqual([]);
    for (const role of ["administrator", "auditor", "viewer", "data exporter"] as const) {
      expect(writableTypes([role])).toEqual([]);
    }
    expect(mayWrite(["lead"], "toString")).toBe(false);
  });

  test("a follow-up nurse removes a line and does not place one", () => {
    expect(mayWrite(["home nurse"], "LineRemoved")).toBe(true);
    expect(mayWrite(["home nurse"], "LineInserted")).toBe(false);
    expect(mayWrite(["stores"], "LotRecalled")).toBe(true);
    expect(mayWrite(["infection control"], "SignalLookedAt")).toBe(true);
    expect(mayWrite(["infection control"], "WatchBaseSet")).toBe(false);
    expect(mayWrite(["infection control"], "WardMonthCounted")).toBe(true);
    expect(mayWrite(["stores"], "WardMonthCounted")).toBe(false);
    expect(mayWrite(["stores"], "CareGiven")).toBe(false);
  });

  test("who keeps the accounts or reads the trail of all does nothing else", () => {
    expect(rolesFit(["administrator", "lead"])).toBe(false);
    expect(rolesFit(["auditor", "viewer"])).toBe(false);
    expect(rolesFit(["lead", "inserter"])).toBe(true);
    expect(rolesFit([])).toBe(false);
    expect(ACCOUNT_ROLES.every((role) => rolesFit([role]))).toBe(true);
  });
});

const entry = (type: string, author: { account?: string; role?: Role; initials?: string }, data = {}): RegisterEvent =>
  inventedEntry({
    subject: "line:1",
    type,
    at: "2026-11-20T10:00:00+01:00",
    author: { initials: "MK", role: "inserter", account: "", ...author },
    data,
  });
const inserter: Holder = { account: "m.kolm", roles: ["inserter"] };
const nurse: Holder = { account: "a.wren", roles: ["ward nurse"] };
const scribe: Holder = { account: "s.pell", roles: ["scribe"] };
const lead: Holder = { account: "l.orr", roles: ["lead"] };
const knows = (...events: readonly RegisterEvent[]): EntryWitness => ({
  about: (id) => events.find((event) => event.id === id),
  holder: (account) => [inserter, nurse, scribe, lead].find((one) => one.account === account),
});

describe("an entry that no account signed", () => {
  // a role anybody can tick is no right: common practice, no source
  test.each(["LineReleased", "StopOverridden", "SideSettled", "ArmBarLifted", "ReferralDecided"])(
    "%s is not taken from anybody, the lead included",
    (type) => {
      for (const role of ["inserter", "lead"] as const) {
        expect(judgeEntry(entry(type, { role }), lead, knows())).toBe("account-wanted");
      }
      const signed = entry(type, { account: "l.orr", role: "lead" });
      expect(judgeEntry(signed, lead, knows())).toBeUndefined();
    },
  );
  test.each(["OverridesReviewed", "SiteValidated", "PatientsMerged", "InfectionConcluded"])(
    "%s is not taken either",
    (type) => expect(judgeEntry(entry(type, { role: "lead" }), lead, knows())).toBe("account-wanted"),
  );
  test("a fact is taken, and its role stays a claim: it corrects nothing by it", () => {
    expect(judgeEntry(entry("CareGiven", { role: "lead" }), nurse, knows())).toBeUndefined();
    const claimed = { ...entry("TipRead", { initials: "MK", role: "inserter" }), id: "c-1" };
    const voids = entry("EventVoided", { initials: "MK", role: "inserter" }, { event: "c-1", why: "x" });
    expect(judgeEntry(voids, nurse, knows(claimed))).toBe("role-may-not-write");
    const care = { ...entry("CareGiven", { initials: "RB", role: "lead" }), id: "c-2" };
    const mine = entry("EventVoided", { initials: "RB", role: "lead" }, { event: "c-2", why: "x" });
    expect(judgeEntry(mine, nurse, knows(care))).toBe("another's-entry");
    expect(judgeEntry(mine, lead, knows(care))).toBeUndefined();
  });
});

describe("an entry from a person", () => {
  test("signed before anyone signed in: the sender's roles decide", () => {
    expect(judgeEntry(entry("LineInserted", {}), inserter, knows())).toBeUndefined();
    expect(judgeEntry(entry("LineInserted", {}), nurse, knows())).toBe("role-may-not-write");
  });

  test("in another's account only a scribe, for a person who may", () => {
    const forKolm = entry("LineInserted", { account: "m.kolm" });
    expect(judgeEntry(forKolm, inserter, knows())).toBeUndefined();
    expect(judgeEntry(forKolm, lead, knows())).toBe("another-account");
    expect(judgeEntry(forKolm, scribe, knows())).toBeUndefined();
    const forNurse = entry("LineInserted", { account: "a.wren", role: "ward nurse" });
    expect(judgeEntry(forNurse, scribe, knows())).toBe("another-account");
    expect(judgeEntry(entry("CareGiven", { account: "nobody" }), scribe, knows())).toBe("another-account");
  });

  test("in a role the account does not hold", () => {
    expect(judgeEntry(entry("CareGiven", { account: "a.wren", role: "lead" }), nurse, knows())).toBe("role-not-held");
  });

  test("a correction: one's own, or the lead", () => {
    const care = { ...entry("CareGiven", { account: "a.wren", role: "ward nurse" }), id: "c-1" };
    const voids = (author: { account: string; role: Role }) => entry("EventVoided", author, { event: "c-1", why: "x" });
    expect(judgeEntry(voids({ account: "a.wren", role: "ward nurse" }), nurse, knows(care))).toBeUndefined();
    expect(judgeEntry(voids({ account: "m.kolm", role: "inserter" }), inserter, knows(care))).toBe("another's-entry");
    expect(judgeEntry(voids({ account: "l.orr", role: "lead" }), lead, knows(care))).toBeUndefined();
    expect(judgeEntry(voids({ account: "a.wren", role: "ward nurse" }), nurse, knows())).toBe("another's-entry");
    const unsigned = { ...entry("CareGiven", { initials: "AW", role: "ward nurse" }), id: "c-1" };
    const mine = entry("EventVoided", { initials: "AW", role: "ward nurse" }, { event: "c-1", why: "x" });
    expect(judgeEntry(mine, nurse, knows(unsigned))).toBeUndefined();
    const other = entry("EventVoided", { initials: "BX", role: "ward nurse" }, { event: "c-1", why: "x" });
    expect(judgeEntry(other, nurse, knows(unsigned))).toBe("another's-entry");
  });
});
