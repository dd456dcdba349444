import { expect, test } from "vitest";
import type { CivilDate } from "../core/calendar/index.ts";
import { defaultPolicyTable, sheetLimitsFrom } from "../policy/index.ts";
import {
  alikeWards,
  answeredWards,
  everyFault,
  fileOfBytes,
  lineContent,
  matchingQuestions,
  openSheet,
  previewFaults,
  readMatching,
  readRows,
  suggestMatching,
  wardOffers,
  type Matching,
  type WardName,
} from "./index.ts";

// How wards are spelled in logs that several people keep: common practice, no source.

const ones = (...spellings: readonly string[]) => new Map(spellings.map((spelling, at) => [spelling, at + 1]));
const groupsOf = (...spellings: readonly string[]) =>
  alikeWards(ones(...spellings)).map((group) => group.map(([spelling]) => spelling));

test("alike but for case, spaces, punctuation and Ward or W before the number is suggested, most lines first", () => {
  expect(groupsOf("Ward 4", "W4", "ward-4", "4", "W. 4", "ITU", "I.T.U.")).toEqual([
    ["W. 4", "4", "ward-4", "W4", "Ward 4"],
    ["I.T.U.", "ITU"],
  ]);
});

test("different numbers and letters are never suggested as one", () => {
  expect(groupsOf("Ward 4", "Ward 4A", "Ward 14", "Ward 04", "West 4", "Ward 5")).toEqual([]);
  expect(groupsOf("Ward 1 2", "Ward 12", "Ward 1/2")).toEqual([["Ward 1/2", "Ward 1 2"]]);
  expect(groupsOf("W", "Ward", "?", "-", "病棟 4", "病棟 5")).toEqual([]);
});

const today = "2026-01-15" as CivilDate;
const limits = sheetLimitsFrom(defaultPolicyTable);
const log = [
  "1,2025-05-01,Ward 4",
  "2,2025-05-02,W4",
  "3,2025-05-03,ward 4",
  "4,2025-05-04,Ward 4A",
  "5,2025-05-05,Ward 7",
];

async function opened(rows: readonly string[] = log) {
  const text = ["MRN,Date placed,Ward", ...rows].join("\n");
  const sheet = await openSheet(fileOfBytes("log.csv", new Uint8Array(Buffer.from(text))));
  if (sheet.kind !== "sheet") throw new Error(sheet.kind);
  const { matching } = suggestMatching(sheet);
  return { sheet, matching: { ...matching, confirmedBy: "ip" } };
}

async function previewed(wards: readonly WardName[], rows?: readonly string[]) {
  const { sheet, matching } = await opened(rows);
  const reading = { matching: { ...matching, wards }, limits, today };
  const preview = await previewFaults(sheet, reading);
  if (preview.kind === "refused") throw new Error(preview.refusal.code);
  const faults: string[] = [];
  for await (const part of everyFault(sheet, preview, reading))
    if (part.kind === "faults")
      faults.push(...part.faults.map(({ row, code, found, against }) => `${row} ${code}: ${found} > ${against}`));
  return { preview, faults };
}

test("nothing is merged by itself; what a person named is, and each merged cell is told as asked", async () => {
  const apart = await previewed([]);
  expect([...apart.preview.wards.keys()]).toEqual(["Ward 4", "W4", "ward 4", "Ward 4A", "Ward 7"]);
  expect(apart.faults).toEqual([]);
  const merged = await previewed([{ name: "Ward 4", spellings: ["Ward 4", "W4", "ward 4"] }]);
  expect([...merged.preview.wards]).toEqual([
    ["Ward 4", 3],
    ["Ward 4A", 1],
    ["Ward 7", 1],
  ]);
  // the spellings stay in sight, so that a merging can be taken back
  expect(merged.preview.spellings).toEqual(apart.preview.spellings);
  expect(merged.preview.counts.get("ward merged")).toBe(2);
  expect(merged.faults).toEqual(["3 ward merged: W4 > Ward 4", "4 ward merged: ward 4 > Ward 4"]);
});

test("wards of different numbers are not merged, whoever writes it, and one spelling has one name", async () => {
  const { sheet, matching } = await opened();
  const asks = (wards: readonly WardName[]) =>
    matchingQuestions({ ...matching, wards }, sheet).map((one) => [one.code, "header" in one ? one.header : ""]);
  expect(asks([{ name: "Ward 4", spellings: ["Ward 4", "Ward 7"] }])).toEqual([["ward numbers differ", "Ward 4"]]);
  expect(asks([{ name: "Ward 7", spellings: ["Ward 4", "W4"] }])).toEqual([["ward numbers differ", "Ward 7"]]);
  expect(asks([{ name: "North", spellings: ["Ward 4", "W4"] }])).toEqual([]);
  expect(
    asks([
      { name: "Ward 4", spellings: ["Ward 4", "W4"] },
      { name: "North", spellings: ["W4"] },
    ]),
  ).toEqual([["ward spelling twice", "W4"]]);
});

test("the matching keeps it for next month: the same lines, and only a new spelling is asked about", async () => {
  const wards = [{ name: "Ward 4", spellings: ["Ward 4", "W4", "ward 4"] }];
  const { sheet, matching } = await opened([...log, "6,2025-06-01,WARD-4"]);
  const kept = readMatching(JSON.stringify({ ...matching, wards })) as Matching;
  expect(kept.wards).toEqual(wards);
  const contents: string[] = [];
  for await (const part of readRows(sheet, { matching: kept, limits, today }))
    if (part.kind === "rows") contents.push(...part.lines.map((line) => lineContent(line)));
  expect(contents.filter((content) => content.includes('"Ward 4"')).length).toBe(3);
  const { preview } = await previewed(wards, [...log, "6,2025-06-01,WARD-4"]);
  const offers = wardOffers(preview.spellings, kept.wards);
  expect(offers.map(({ whole, spellings }) => [whole, spellings.length])).toEqual([[false, 4]]);
  // not ticked, the new spelling stays apart and the old merging stands
  expect(answeredWards(offers, [{ ticked: false, name: "Ward 4" }])).toEqual(wards);
  expect(answeredWards(offers, [{ ticked: true, name: " Ward 4 " }])[0]?.spellings).toContain("WARD-4");
  expect(answeredWards(wardOffers(ones("W4"), wards), [{ ticked: false, name: "" }])).toEqual([]);
});

test("a matching with a broken list of wards is none: a merging is not half read", async () => {
  const { matching } = await opened();
  for (const wards of [
    "Ward 4",
    [{ name: " ", spellings: ["a"] }],
    [{ name: "a" }],
    [{ name: "a", spellings: [4] }],
    [null],
  ])
    expect(readMatching(JSON.stringify({ ...matching, wards })), JSON.stringify(wards)).toBeUndefined();
  expect(readMatching(JSON.stringify(matching))?.wards).toBeUndefined();
});
