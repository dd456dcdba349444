/** An invented year with every column that a spreadsheet may bring, and the import as a person would carry it through. */
import { lineTableCsv } from "../../../src/audit/index.ts";
import { addDays, parseCivilDate, type CivilDate } from "../../../src/core/calendar/index.ts";
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

const HEADERS = [
  "MRN",
  "Age",
  "Date placed",
  "Date removed",
  "Reason removed",
  "Arm",
  "Vein",
  "Fr",
  "Lumens",
  "Vein diameter (mm)",
  "Attempts",
  "Ward",
  "Inserted by",
  "Infection date",
  "DVT date",
  "Occlusion date",
  "Exit site infection",
  "Migration date",
  "Tip position",
  "Indication",
  "Position along arm",
  "Lot",
];

/** 420 lines of 2025 in one busy service; Park and Miller 1988, minimal standard generator (from memory), fixed seed. */
export function makeFullYear(): Uint8Array {
  let state = 20_250;
  const roll = (sides: number) => {
    state = (state * 48_271) % 2_147_483_647;
    return Math.floor((state / 2_147_483_647) * sides);
  };
  const of = (words: readonly string[]) => words[roll(words.length)] as string;
  const rows = [HEADERS.join(",")];
  const seldom = (value: string, one: number, absence: string) => (roll(one) === 0 ? absence : value);
  for (let at = 0; at < 420; at += 1) {
    const placed = addDays("2025-01-01" as CivilDate, Math.floor((at * 365) / 420));
    const stay = roll(3) === 0 ? roll(6) : roll(70);
    const lasts = addDays(placed, stay);
    const out = roll(25) === 0 || lasts > today ? "" : lasts;
    const on = (one: number, late: number) => (roll(one) === 0 ? addDays(placed, roll(stay + 1 + late)) : "");
    rows.push(
      [
        String(5000 + roll(300)),
        seldom(String(1 + roll(95)), 20, "unknown"),
        placed,
        out,
        out === "" ? "" : of(["treatment complete", "infection", "DVT", "blocked", "n/k", "", "died", "fell out"]),
        of(["L", "R", "R"]),
        seldom(of(["basilic", "brachial", "cephalic"]), 25, "n/k"),
        seldom(String(3 + roll(4)), 30, "n/k"),
        String(1 + roll(3)),
        seldom((2.2 + roll(40) / 10).toFixed(1), 12, "not done"),
        seldom(String(1 + roll(roll(2) === 0 ? 1 : 4)), 15, ""),
        seldom(of(["Ash", "Birch", "Cedar", "Dune 2"]), 30, "n/k"),
        of(["ab", "cd", "ef"]),
        on(12, 2),
        on(14, 9),
        on(9, 1),
        on(30, 0),
        on(40, 0),
        seldom(of(["CAJ", "lower SVC", "upper SVC", "right atrium", "IJ"]), 12, "not done"),
        of(["IV antibiotics", "chemo", "TPN", "fluids", "declined"]),
        seldom(String(20 + roll(70)), 10, "not measured"),
        seldom(`LOT${roll(9)}`, 8, ""),
      ].join(","),
    );
  }
  return new TextEncoder().encode(`${rows.join("\n")}\n`);
}
