import { expect, test } from "vitest";
import type { CivilDate } from "../core/calendar/index.ts";
import { defaultPolicyTable, sheetLimitsFrom } from "../policy/index.ts";
import {
  agree,
  agreedLines,
  fileOfBytes,
  lineContent,
  lineKey,
  lineRowOf,
  openSheet,
  previewFaults,
  readMatching,
  saltedKeys,
  suggestMatching,
  type Sheet,
} from "./index.ts";

const reading = { limits: sheetLimitsFrom(defaultPolicyTable), today: "2026-01-15" as CivilDate };
const may =
  "MRN,Date placed,Date removed,Arm,Fr\n41,2025-05-01,2025-05-09,L,4\n42,2025-05-02,,R,4\n42,2025-05-02,,R,4\n";

async function sheetOf(text: string): Promise<Sheet> {
  const sheet = await openSheet(fileOfBytes("may.csv", new Uint8Array(Buffer.from(text))));
  if (sheet.kind !== "sheet") throw new Error(sheet.kind);
  return sheet;
}

async function taken(text: string, known: ReadonlyMap<string, string> = new Map()) {
  const sheet = await sheetOf(text);
  const matching = { ...suggestMatching(sheet).matching, confirmedBy: "ab" };
  const preview = await previewFaults(sheet, { ...reading, matching }, { known });
  if (preview.kind !== "preview") throw new Error(preview.kind);
  return { sheet, matching, preview };
}

test("nothing is agreed while a question is open or nobody signs", async () => {
  const { sheet, matching, preview } = await taken(may);
  expect(agree(sheet, preview, { ...matching, confirmedBy: "" }, "ab").kind).toBe("questions");
  expect(agree(sheet, preview, matching, " ").kind).toBe("questions");
  const unsaid = matching.columns.map(({ header, field }) => ({ header, field }));
  expect(agree(sheet, preview, { ...matching, columns: unsaid }, "ab")).toEqual({
    kind: "questions",
    questions: [{ code: "unit not said", header: "Fr" }],
  });
});

test("agreed lines leave the double out, and another file is refused", async () => {
  const { sheet, matching, preview } = await taken(may);
  expect(preview).toMatchObject({ rowsRead: 3, rowsLeftOut: 1, newLines: 2 });
  const agreement = agree(sheet, preview, matching, "ab");
  if (agreement.kind !== "agreed") throw new Error("questions");
  const answer = await agreedLines(sheet, agreement, reading);
  expect(answer.kind === "lines" && answer.lines.map(({ row }) => row)).toEqual([2, 3]);
  const other = await agreedLines(await sheetOf(may.replace("L,4", "L,5")), agreement, reading);
  expect(other).toMatchObject({ kind: "refused", refusal: { code: "changed-since" } });
});

test("read again, a row is known, changed with both values, or new", async () => {
  const { sheet, matching, preview } = await taken(may);
  const agreement = agree(sheet, preview, matching, "ab");
  if (agreement.kind !== "agreed") throw new Error("questions");
  const answer = await agreedLines(sheet, agreement, reading);
  if (answer.kind !== "lines") throw new Error("refused");
  const known = new Map(answer.lines.map((line) => [lineKey(line), lineContent(line)]));
  const next = await taken(`${may.replace("R,4\n42", "R,5\n43")}44,2025-06-01,,L,3\n`, known);
  expect(next.preview).toMatchObject({ sameAsBefore: 1, newLines: 2 });
  expect(next.preview.changed.map(({ row }) => row)).toEqual([3]);
  expect(next.preview.changed[0]?.before).toContain('["sizeFr",4]');
  expect(next.preview.changed[0]?.now).toContain('["sizeFr",5]');
});

test("a row that stands twice and is known is no new line and no lost one", async () => {
  const first = await taken(may);
  const agreement = agree(first.sheet, first.preview, first.matching, "ab");
  const answer = agreement.kind === "agreed" ? await agreedLines(first.sheet, agreement, reading) : undefined;
  const lines = answer?.kind === "lines" ? answer.lines : [];
  const known = new Map(lines.map((line) => [lineKey(line), lineContent(line)]));
  expect((await taken(may, known)).preview).toMatchObject({
    rowsRead: 3,
    rowsLeftOut: 1,
    newLines: 0,
    sameAsBefore: 2,
  });
});

test("the neutral line names nobody, and a line without a removal ends unknown", async () => {
  const { sheet, matching, preview } = await taken(may);
  const agreement = agree(sheet, preview, matching, "ab");
  const answer = agreement.kind === "agreed" ? await agreedLines(sheet, agreement, reading) : undefined;
  const rows =
    answer?.kind === "lines" ? answer.lines.map((line) => lineRowOf(line, saltedKeys(new Uint8Array(16)))) : [];
  expect(rows.map(({ end }) => end.kind)).toEqual(["removed", "unknown"]);
  expect(rows.map(({ side, sizeFr }) => [side, sizeFr])).toEqual([
    ["left arm", 4],
    ["right arm", 4],
  ]);
  expect(rows.map(({ patient }) => patient)).not.toContain("42");
});

test("a matching is kept as text and read back the same; what is no matching is none", async () => {
  const { matching } = await taken(may);
  expect(readMatching(JSON.stringify(matching))).toEqual(matching);
  expect([
    readMatching("{"),
    readMatching("[]"),
    readMatching('{"format":"veinwright-matching-1","columns":[null]}'),
  ]).toEqual([undefined, undefined, undefined]);
});
