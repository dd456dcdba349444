import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { monthPack, proposedBases, readMeasures, signalEntry, type Measure } from "../../src/audit/index.ts";
import { runCommandLine } from "../../src/cli/run.ts";
import { readLineTable, readMemory } from "../../src/contract/index.ts";
import type { CivilDate, Instant } from "../../src/core/calendar/index.ts";
import { countLimitsFrom, defaultPolicyTable, surveillanceDefinitions } from "../../src/policy/index.ts";
import { told, type KeptBase, type SealedEvent } from "../../src/register/index.ts";
import { openStore } from "../../src/store/index.ts";
import { AS_OF, monitorYears } from "../../reference/independent/r/monitor-years.ts";
import { inventedEntry, LEAD } from "../invented-entry.ts";
import { flat, ran, runningInto, smallest } from "./pdf-words.ts";

// The service's own events beside its line table: what the four pages say of them. Read back by poppler, which did not
// write them. Common practice, no source.
const folder = mkdtempSync(join(tmpdir(), "veinwright-memory-"));
const lines = monitorYears(5, 500);
const day = (text: string): CivilDate => text as CivilDate;
const reading = readMeasures();
const measures: readonly Measure[] = reading.kind === "measures" ? reading.measures : [];
const rules = {
  limits: countLimitsFrom(defaultPolicyTable),
  surveillance: surveillanceDefinitions[0] as (typeof surveillanceDefinitions)[number],
};
const WATCHED = new Set(["infection-clinical", "thrombosis", "occlusion"]);

function madeMemory(): readonly SealedEvent[] {
  const table = readLineTable(lines, { precision: "date", date: AS_OF });
  if (table.kind === "faults") throw new Error("faults");
  const events: SealedEvent[] = [];
  const write = (type: string, data: object): void => {
    const [id, at] = [`m${events.length + 1}`, "2026-01-06T09:00+00:00"];
    events.push(inventedEntry({ id, subject: "service:here", type, at, author: LEAD, seen: events.length, data }));
  };
  const memory = () => {
    const read = readMemory(JSON.stringify(events));
    if (read.kind === "faults") throw new Error(JSON.stringify(read.faults));
    return read.memory;
  };
  const span = { from: day("2022-01-01"), to: day("2024-01-01"), until: day("2025-01-01") };
  const watched = measures.filter(({ id }) => WATCHED.has(id));
  for (const { entry } of proposedBases(table.table, watched, span, rules, {}, "1"))
    if (entry) write("WatchBaseSet", { ...entry, by: told("L. Orr"), why: told("two quiet years") });
  const change = (on: string, words: string) => ({
    changedOn: told(on),
    kindOfChange: told("dressing"),
    words: told(words),
  });
  for (let month = 1; month <= 9; month += 1) write("PracticeChanged", change(`2025-0${month}-11`, `Change ${month}`));
  const pack = monthPack(table.table, measures, day("2025-12-01"), rules, { memory: memory() });
  const seen = (pack.monitor?.charts ?? []).flatMap((chart) =>
    (chart.watch?.signals ?? []).map((signal) => ({ chart, signal })),
  );
  for (const [at, { chart, signal }] of seen.entries()) {
    const base = memory().bases.find(({ measure }) => measure === chart.measure) as KeptBase;
    const entry = signalEntry(chart, signal, base, "1");
    // the newest was kept before one of its events was written down
    const before = at === seen.length - 1 ? { ...entry, events: told(signal.events - 1) } : entry;
    write("SignalSeen", before);
  }
  const last = memory().signals.at(-1);
  if (!last) throw new Error("no signal");
  write("SignalLookedAt", {
    measure: told(last.measure),
    signalOn: told(last.on),
    base: told(last.base),
    by: told("A. Wren"),
    found: told("practice"),
    action: told("Lot set aside"),
  });
  write("ActionAgreed", {
    month: told("2025-11"),
    action: told("Flush after every sample"),
    ownerRole: told("lead"),
    dueOn: told("2025-12-15"),
    measure: told("occlusion"),
  });
  write("ActionOutcomeWritten", { month: told("2025-11"), outcome: told("given up"), words: told("No staff") });
  return events;
}

const memory = JSON.stringify({ events: madeMemory(), upTo: 0 });
const run = (words: readonly string[], given = memory) =>
  runCommandLine(["pack", "lines.csv", "--month", "2025-12", "--as-of", AS_OF, ...words], {
    read: (name) => (name === "memory.json" ? given : lines),
    write: writeFileSync,
    now: () => "26 November 2026",
    today: () => day("2026-01-20"),
    moment: () => "2026-01-20T09:00+01:00" as Instant,
  });
describe("the pack with the service's own events", () => {
  const file = join(folder, "month.pdf");
  const page = (at: number): string =>
    flat(ran("pdftotext", ["-layout", "-f", String(at), "-l", String(at), file, "-"]).toString());
  beforeAll(async () => {
    await run(["--memory", "memory.json", "--pdf", file]);
  });

  test("opens with the action of the record and what came of it; a typed one goes before it", async () => {
    expect(page(1)).toContain("Flush after every sample. lead, due Mon 15 Dec 2025: given up, No staff.");
    const typed = await run(["--memory", "memory.json", "--action", "Other;R. Voss;2025-12-15;thrombosis;done"]);
    expect(typed.output).toContain("Last month's action: Other");
  });

  test("says in words what was restated, who looked, and each change", async () => {
    const { output } = await run(["--memory", "memory.json"]);
    expect(output).toMatch(/it stood at \d+ in [\d,.]+ line-days\.\n\s+Now the same days hold \d+/);
    expect(output).toContain("Looked at by A. Wren: practice.");
    expect(output).toContain("9. Thu 11 Sep 2025, dressing: Change 9.");
    expect(output).toContain("Clots seen: base set Tue 6 Jan 2026.");
  });

  test("stays four tagged pages and the two cases with nine changes and every signal, and page 2 holds their numbers", () => {
    expect(Number(/Pages:\s+(\d+)/.exec(ran("pdfinfo", [file]).toString())?.[1])).toBe(5);
    expect(ran("pdfinfo", [file]).toString()).toMatch(/Tagged:\s+yes/);
    // in the order it was written: a cell stays whole
    const second = flat(ran("pdftotext", ["-raw", "-f", "2", "-l", "2", file, "-"]).toString());
    expect(second).toContain("Looked at by A. Wren: practice. Action: Lot set aside.");
    expect(second).toContain("9. Thu 11 Sep 2025, dressing: Change 9.");
    expect(second).toContain("it stood at");
    expect(second).toContain("set Tue 6 Jan 2026");
  });

  // common practice, no source: what is smaller than 7 pt is not read in a meeting; this page came to 6.98 pt once
  test.each(["A4", "letter"])(
    "holds 7 pt on %s with nine changes and every signal, and runs into nothing",
    async (paper) => {
      const crowded = join(folder, `month-${paper}.pdf`);
      await run(["--memory", "memory.json", "--paper", paper, "--pdf", crowded]);
      expect(Number(/Pages:\s+(\d+)/.exec(ran("pdfinfo", [crowded]).toString())?.[1])).toBe(5);
      expect(smallest(crowded)).toBeGreaterThan(6.99);
      expect(runningInto(crowded)).toEqual([]);
    },
  );

  test("a record is its own memory: its pack opens with its action, unless another file of events is named", async () => {
    const place = join(folder, "record.sqlite");
    const store = await openStore(place);
    for (const [at, event] of madeMemory().entries())
      expect(await store.append({ subject: event.subject, expectedVersion: at, events: [event] })).toMatchObject({
        kind: "accepted",
      });
    await store.close();
    const ofRecord = (words: readonly string[], given = "[]") =>
      runCommandLine(["pack", "--store", place, "--month", "2025-12", ...words], {
        read: () => given,
        write: writeFileSync,
        now: () => "26 November 2026",
        today: () => day("2026-01-20"),
        moment: () => "2026-01-20T09:00+01:00" as Instant,
      });
    const { exit, output } = await ofRecord([]);
    expect(exit).toBe(0);
    expect(output).toContain("Last month's action: Flush after every sample");
    expect(output).toContain("9. Thu 11 Sep 2025, dressing: Change 9.");
    expect((await ofRecord(["--memory", "memory.json"])).output).toContain(
      "Last month's action: none was written down.",
    );
    // a record without a line prints whole pages all the same
    const printed = join(folder, "no-line.pdf");
    await ofRecord(["--pdf", printed]);
    const second = flat(ran("pdftotext", ["-layout", "-f", "2", "-l", "2", printed, "-"]).toString());
    expect(second).toContain("No line is written yet. The first one starts the count.");
    expect(runningInto(printed)).toEqual([]);
  });

  test("the drawings of page 2 carry their numbers as text for whoever hears the page", () => {
    const raw = readFileSync(file).toString("latin1").replaceAll(/\s+/g, " ");
    expect(raw.match(/Oct 25: \d+ in [\d,]+, sum \d+\.\d\d/g)).toHaveLength(3);
    expect(raw).toContain("Mark 9: Change 9.");
  });

  test("a file that is no list of events, or a changed word in one, is refused whole", async () => {
    expect(await run(["--memory", "memory.json"], "{}")).toMatchObject({ exit: 65 });
    const forged = await run(["--memory", "memory.json"], memory.replace("two quiet years", "ten quiet years"));
    expect(forged.exit).toBe(65);
    expect(forged.output).toContain("memory of the service");
    expect((await run(["--memory"])).exit).toBe(64);
  });
});
