/** An invented year with every column that a spreadsheet may bring, and the import as a person would carry it through. */
import { lineTableCsv } from "../../../src/audit/index.ts";
import { parseCivilDate, type CivilDate } from "../../../src/core/calendar/index.ts";
import { defaultPolicyTable, sheetLimitsFrom } from "../../../src/policy/index.ts";
import {
  agree,
  agreedLines,
  fileOfBytes,
  lineRowOf,
  openSheet,
  previewFaults,
  saltedKeys,
  suggestMatching,
  type FieldName,
  type Matching,
} from "../../../src/spreadsheet/index.ts";
import { INVENTED_HEADERS, inventedRows } from "../../../test/invented-lines.ts";

const today = parseCivilDate("2026-01-15") as CivilDate;

interface Answers {
  readonly fieldOf?: ReadonlyMap<string, FieldName | "left out">;
  readonly order?: Matching["columns"][number]["order"];
  readonly serialSystem?: Matching["columns"][number]["serialSystem"];
  readonly unit?: Readonly<Partial<Record<FieldName, Matching["columns"][number]["unit"]>>>;
}

/** File to line table through suggestion, answers, preview and agreement; the salt is fixed so that keys repeat. */
export async function importTable(name: string, bytes: Uint8Array, answers: Answers = {}): Promise<string> {
  const sheet = await openSheet(fileOfBytes(name, bytes));
  if (sheet.kind !== "sheet") throw new Error(JSON.stringify(sheet));
  const suggested = suggestMatching(sheet).matching;
  const matching: Matching = {
    ...suggested,
    confirmedBy: "invented person",
    columns: suggested.columns.map((column) => {
      const field = answers.fieldOf?.get(column.header) ?? column.field;
      const unit = (field !== "left out" && answers.unit?.[field]) || column.unit;
      return {
        ...column,
        field,
        ...(answers.order ? { order: answers.order } : {}),
        ...(answers.serialSystem ? { serialSystem: answers.serialSystem } : {}),
        twoDigitUpTo: field === "birthDate" ? 25 : 99,
        ...(unit ? { unit } : {}),
      };
    }),
  };
  const reading = { matching, limits: sheetLimitsFrom(defaultPolicyTable), today };
  const preview = await previewFaults(sheet, reading);
  if (preview.kind === "refused") throw new Error(JSON.stringify(preview));
  const agreement = agree(sheet, preview, matching, "ip");
  if (agreement.kind !== "agreed") throw new Error(JSON.stringify(agreement));
  const answer = await agreedLines(sheet, agreement, reading);
  if (answer.kind !== "lines") throw new Error(JSON.stringify(answer));
  const keyOf = saltedKeys(new Uint8Array(16).fill(7));
  return lineTableCsv(answer.lines.map((line) => lineRowOf(line, keyOf)));
}

/** 420 lines of 2025 in one busy service, by a fixed seed. */
export function makeFullYear(): Uint8Array {
  const rows = inventedRows({
    lines: 420,
    seed: 20_250,
    from: "2025-01-01" as CivilDate,
    days: 365,
    today,
    patient: (roll) => String(5000 + roll(300)),
  });
  const text = [INVENTED_HEADERS, ...rows].map((cells) => `${cells.join(",")}\n`).join("");
  return new TextEncoder().encode(text);
}
