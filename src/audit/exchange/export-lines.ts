import { civilDateFromDayNumber, dayNumber, instantAtMinute } from "../../core/calendar/index.ts";
import type { Moment } from "../../core/dwell/index.ts";
import { isKnown, isMissing, type Maybe } from "../../core/missing/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import { peopleAlike, type RareGroup } from "../case/index.ts";
import { LINE_COLUMNS, type AuditTable, type LineRow, type RowEvent } from "../line/index.ts";
import { withHouseWordsCoded, type HouseWord } from "./house-words.ts";

/** What hides who is who: both come from a secret of the service, and the same name always gets the same answer. */
export interface Disguise {
  readonly keyOf: (
    kind: "line" | "patient" | "inserter" | "ward" | "lot" | "catheter" | "other word",
    name: string,
  ) => string;
  /** Days by which all dates of a person are moved, one number for the person: dwell and order stay true. */
  readonly shiftDaysOf: (patient: string) => number;
}

export interface ExportedLines {
  readonly csv: string;
  readonly rows: number;
  /** Rows left out because they cannot be moved in time. */
  readonly leftOut: number;
  /** Words of the house that left as codes: code and column are told with the file, the word stays. */
  readonly words: readonly HouseWord[];
  readonly rare: readonly RareGroup[];
  /** Values of columns that so few people have that they are small cells. */
  readonly smallCells: readonly { readonly column: string; readonly value: string; readonly people: number }[];
}

const MINUTES_A_DAY = 1440;

/**
 * The line table without identity: new keys, dates of a person moved by one constant, ages over the policy's oldest as
 * that age and one; a word that is on no list of ours leaves as its code. Rows stand in the order of their new keys. A person who knows one date of a
 * patient can move the rest back: the warnings say for whom that is easy.
 * Units: those of the columns. Holds: rows with a placing; the others are left out and counted.
 * Source: common practice, no source.
 */
export function exportLines(
  { lines }: Pick<AuditTable, "lines">,
  disguise: Disguise,
  limits: CountLimits,
): ExportedLines {
  const placed = lines.filter((row) => row.placed !== undefined);
  const { table, words } = withHouseWordsCoded(
    { asOf: { precision: "date", date: civilDateFromDayNumber(0) }, lines: placed, referrals: [] },
    houseCodes(disguise),
  );
  const usable = table.lines;
  const shown = usable
    .map((row) => disguised(row, disguise, limits))
    .sort((a, b) => (a["line_key"] as string).localeCompare(b["line_key"] as string, "en"));
  const names = LINE_COLUMNS.map(({ name }) => name);
  const csv = [names, ...shown.map((row) => names.map((name) => row[name] ?? ""))]
    .map((cells) => cells.map(quoted).join(","))
    .join("\r\n");
  return {
    csv: `${csv}\r\n`,
    rows: shown.length,
    leftOut: lines.length - usable.length,
    words,
    rare: peopleAlike(usable, limits).filter(({ people }) => people <= limits.rarePeople),
    smallCells: smallCells(usable, limits),
  };
}

/**
 * The line table as the reader of the line table takes it, values as they stand: keys must be opaque already.
 * Source: RFC 4180. Holds: rows with a placing; the others are left out.
 */
export function lineTableCsv(lines: readonly LineRow[], withHeader = true): string {
  const asItIs: Disguise = { keyOf: (_kind, name) => name, shiftDaysOf: () => 0 };
  const names = LINE_COLUMNS.map(({ name }) => name);
  const texts = withHeader ? [names.join(",")] : [];
  for (const row of lines) {
    if (row.placed === undefined) continue;
    const cells = disguised(row, asItIs, { oldestShownYears: Infinity });
    texts.push(names.map((name) => quoted(cells[name] ?? "")).join(","));
  }
  return texts.map((text) => `${text}\r\n`).join("");
}

/** RFC 4180; a cell that a spreadsheet would run as a formula is led by an apostrophe. */
function quoted(cell: string): string {
  const tame = /^[=+\-@\t\r]/.test(cell) ? `'${cell}` : cell;
  return /[",\r\n]/.test(tame) ? `"${tame.replaceAll('"', '""')}"` : tame;
}

const said = (value: Maybe<string | number>): string => (isMissing(value) ? value.missing : String(value));
const list = (value: Maybe<readonly string[]>): string =>
  isMissing(value) ? value.missing : value.length === 0 ? "none" : value.join(";");
const rounded = (value: Maybe<number>, digits: number): string =>
  isMissing(value) ? value.missing : String(Number(value.toFixed(digits)));

/** The codes of a disguise: a ward under its own letter, every other word under one that says no more than its column. */
export const houseCodes =
  ({ keyOf }: Pick<Disguise, "keyOf">) =>
  (column: string, word: string): string =>
    column === "ward" ? keyOf("ward", word) : keyOf("other word", `${column}|${word}`);

function disguised(
  row: LineRow,
  { keyOf, shiftDaysOf }: Disguise,
  { oldestShownYears }: Pick<CountLimits, "oldestShownYears">,
): Readonly<Record<string, string>> {
  const { end } = row;
  const shift = shiftDaysOf(row.patient);
  // one wall clock for all moments of a person: its changes would tell the season back
  const offset =
    [
      row.placed,
      end.kind === "removed" || end.kind === "handed on" ? end.at : end.lastKnown,
      ...row.events.map(({ at }) => at),
    ]
      .flatMap((at) => (at?.precision === "minute" ? [at.offset] : []))
      .at(0) ?? 0;
  const moved = (at: Moment): string =>
    at.precision === "date"
      ? civilDateFromDayNumber(dayNumber(at.date) + shift)
      : instantAtMinute(at.utc + offset + shift * MINUTES_A_DAY, 0);
  const key = (kind: Parameters<Disguise["keyOf"]>[0], value: Maybe<string>) =>
    isMissing(value) ? value.missing : keyOf(kind, value);
  return {
    row: "line",
    line_key: keyOf("line", row.key),
    patient_key: keyOf("patient", row.patient),
    placed_at: moved(row.placed as Moment),
    known_from: row.knownFrom ? moved(row.knownFrom) : "",
    end_kind: end.kind,
    end_at: moved(end.kind === "removed" || end.kind === "handed on" ? end.at : end.lastKnown),
    end_reason: end.kind === "removed" ? said(end.reason) : "",
    side: said(row.side),
    vein: said(row.vein),
    size_fr: said(row.sizeFr),
    lumens: said(row.lumens),
    vein_diameter_mm: rounded(row.veinDiameterMm, 2),
    ratio_percent: rounded(isKnown(row.writtenRatio) ? row.writtenRatio * 100 : row.writtenRatio, 1),
    position_percent: rounded(isKnown(row.positionShare) ? row.positionShare * 100 : row.positionShare, 1),
    attempts: said(row.attempts),
    inserter_key: key("inserter", row.inserter),
    ward: said(row.ward),
    setting: said(row.setting),
    age_years: isKnown(row.ageYears) ? String(Math.min(row.ageYears, oldestShownYears + 1)) : said(row.ageYears),
    diagnosis: said(row.diagnosis),
    indication: said(row.indication),
    tip_method: said(row.tipMethod),
    tip_place: said(row.tipPlace),
    lot_key: key("lot", row.lot),
    catheter_key: key("catheter", row.catheter),
    egfr_ml_min_173: said(row.eGfr),
    overdue_care: list(row.overdueCare),
    overrides: list(row.overrides),
    idle_days: said(row.idleDays),
    owned: isMissing(row.owned) ? row.owned.missing : row.owned ? "yes" : "no",
    ...checkCells(row, keyOf),
    events: eventsCell(row, moved),
  };
}

function checkCells({ checks }: LineRow, keyOf: Disguise["keyOf"]): Readonly<Record<string, string>> {
  if (checks === undefined) return {};
  return {
    inside_cm: rounded(checks.insideCm, 1),
    weight_kg: rounded(checks.weightKg, 2),
    replaces_key: isMissing(checks.replaces) ? checks.replaces.missing : keyOf("line", checks.replaces),
    time_known_to: said(checks.timeKnownTo),
    written_after: list(checks.writtenAfter),
  };
}

function eventsCell({ events, undated = [] }: LineRow, moved: (at: Moment) => string): string {
  const cells = [...events.map((event) => eventCell(event, moved)), ...undated.map((kind) => `${kind}@not known`)];
  return cells.length === 0 ? "none" : cells.join("; ");
}

function eventCell(event: RowEvent, moved: (at: Moment) => string): string {
  const flag = (name: string, value: Maybe<boolean>) =>
    isMissing(value) ? (value.missing === "not known" ? ` ${name}=not known` : "") : ` ${name}=${value ? "yes" : "no"}`;
  return `${event.kind}@${moved(event.at)}${flag("clinical", event.clinical)}${flag("surveillance", event.surveillance)}${flag("paired", event.pairedCulture)}${event.mucosal === undefined ? "" : flag("mucosal", event.mucosal)}${event.clearedAt ? ` cleared=${moved(event.clearedAt)}` : ""}`;
}

/** Columns whose values are few enough to be counted as cells. */
const COUNTED = {
  diagnosis: ({ diagnosis }) => said(diagnosis),
  size_fr: ({ sizeFr }) => said(sizeFr),
  lumens: ({ lumens }) => said(lumens),
  vein: ({ vein }) => said(vein),
  tip_place: ({ tipPlace }) => said(tipPlace),
  indication: ({ indication }) => said(indication),
} as const satisfies Readonly<Record<string, (row: LineRow) => string>>;

function smallCells(rows: readonly LineRow[], { smallestShown }: CountLimits): ExportedLines["smallCells"] {
  return Object.entries(COUNTED).flatMap(([column, of]) => {
    const people = new Map<string, Set<string>>();
    for (const row of rows) {
      const value = of(row);
      people.set(value, (people.get(value) ?? new Set()).add(row.patient));
    }
    return [...people]
      .filter(([, own]) => own.size < smallestShown)
      .map(([value, own]) => ({ column, value, people: own.size }));
  });
}
