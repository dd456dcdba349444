import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { runCommandLine } from "../../src/cli/run.ts";
import { civilDateOf, type CivilDate, type Instant } from "../../src/core/calendar/index.ts";
import { practiceRecord } from "../../src/practice/index.ts";
import {
  confirmedIn,
  evolveHistory,
  initialHistory,
  lineView,
  patientView,
  type History,
  type LineView,
  type Subject,
} from "../../src/register/index.ts";
import { fileOfBytes } from "../../src/spreadsheet/index.ts";
import { openStore, storeAddress } from "../../src/store/index.ts";

// A service that keeps a spreadsheet beside its record brings the spreadsheet: what the record has is not new.
const today = "2026-03-04" as CivilDate;
let folder: string;
const histories = new Map<Subject, History>();

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "veinwright-known-"));
  const store = await openStore(storeAddress(folder));
  for (const event of practiceRecord(today, "+00:00")) {
    const before = histories.get(event.subject) ?? initialHistory(event.subject);
    const answer = await store.append({
      subject: event.subject,
      expectedVersion: before.version,
      events: [event],
    });
    if (answer.kind !== "accepted" || !answer.events[0]) throw new Error(answer.kind);
    histories.set(event.subject, evolveHistory(before, answer.events[0]));
  }
  await store.close();
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const lines = (): readonly LineView[] =>
  [...histories.values()]
    .filter(({ subject }) => subject.startsWith("line:"))
    .map(lineView)
    .filter(({ placed }) => placed !== undefined);
const numberOf = (line: LineView): string => {
  const history = histories.get(`patient:${line.patient ?? ""}` as Subject);
  return history ? patientView(history).number : "";
};

/** The spreadsheet as a person would have kept it beside the record. */
const sheetOf = (change: (cells: string[], at: number) => string[] = (cells) => cells): string =>
  [
    "MRN,Date placed,Date removed,Arm,Fr",
    ...lines().map((line, at) => {
      const removed = line.end?.kind === "removed" ? civilDateOf(line.end.at) : "";
      const placed = civilDateOf(line.placed?.event.happenedAt as Instant);
      const arm = confirmedIn(line.said.arm) ?? "";
      return change([numberOf(line), placed, removed, arm, String(confirmedIn(line.said.french) ?? "")], at).join(",");
    }),
    "",
  ].join("\n");

const matching = JSON.stringify({
  format: "veinwright-matching-1",
  confirmedBy: "invented person",
  columns: [
    { header: "MRN", field: "patient" },
    { header: "Date placed", field: "placedOn" },
    { header: "Date removed", field: "removedOn" },
    { header: "Arm", field: "side" },
    { header: "Fr", field: "sizeFr", unit: "Fr" },
  ],
});

async function previewOf(text: string, ...more: readonly string[]) {
  const { exit, output } = await runCommandLine(["import", "year.csv", "--matching", "m.json", "--json", ...more], {
    read: () => matching,
    pieces: () => fileOfBytes("year.csv", new TextEncoder().encode(text)),
    write: () => undefined,
    now: () => "",
    today: () => today,
    moment: () => "2026-03-04T12:00+00:00" as Instant,
  });
  expect(exit, output.slice(0, 300)).toBe(2);
  return JSON.parse(output) as {
    readonly newLines: number;
    readonly sameAsBefore: number;
    readonly changed: readonly { readonly before: string; readonly now: string }[];
  };
}

describe("given a record and the spreadsheet kept beside it", () => {
  test("when the record is not named, then every line is new", async () => {
    const preview = await previewOf(sheetOf());
    expect(preview.newLines).toBe(lines().length);
  });

  test("when the folder of the record is named, then every line is known and none has changed", async () => {
    const preview = await previewOf(sheetOf(), "--store", folder);
    expect(preview).toMatchObject({ newLines: 0, sameAsBefore: lines().length, changed: [] });
    expect(lines().length).toBeGreaterThan(3);
  });

  test("when a size differs, then both are told; an arm left empty is the same line, another day is a new one", async () => {
    const preview = await previewOf(
      sheetOf(([number = "", placed = "", removed = "", arm = "", size = ""], at) => {
        if (at === 0) return [number, placed, removed, arm, String(Number(size) + 1)];
        if (at === 1) return [number, placed, removed, "", size];
        return at === 2 ? [number, "2024-05-05", "", arm, size] : [number, placed, removed, arm, size];
      }),
      "--store",
      folder,
    );
    const size = confirmedIn(lines()[0]?.said.french) as number;
    expect(preview.newLines).toBe(1);
    expect(preview.changed).toMatchObject([{ before: `sizeFr ${size}`, now: `sizeFr ${size + 1}` }]);
  });

  test("when the spreadsheet has a removal that the record lacks, then it is news", async () => {
    const open = lines().findIndex(({ end }) => end === undefined);
    const preview = await previewOf(
      sheetOf((cells, at) => (at === open ? cells.map((cell, place) => (place === 2 ? today : cell)) : cells)),
      "--store",
      folder,
    );
    expect(preview.changed).toMatchObject([{ before: "removedOn not written", now: `removedOn ${today}` }]);
  });

  test("when there is no record at the place, then it says so", async () => {
    const { exit, output } = await runCommandLine(
      ["import", "y.csv", "--matching", "m", "--store", join(folder, "no")],
      {
        read: () => matching,
        pieces: () => fileOfBytes("y.csv", new TextEncoder().encode(sheetOf())),
        write: () => undefined,
        now: () => "",
        today: () => today,
        moment: () => "2026-03-04T12:00+00:00" as Instant,
      },
    );
    expect(exit).toBe(65);
    expect(output).not.toBe("");
  });
});
