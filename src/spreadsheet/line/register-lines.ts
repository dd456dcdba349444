import { civilDateOf, type CivilDate } from "../../core/calendar/index.ts";
import {
  confirmedIn,
  shownUnder,
  type EntryOf,
  type LineView,
  type PatientView,
  type Subject,
} from "../../register/index.ts";
import type { FieldName } from "../match/index.ts";
import { patientKey } from "./line-ledger.ts";
import type { SheetLine } from "./read-row.ts";

/** What the register says of a line, under the names of a spreadsheet's fields; only what a person confirmed. */
export type RegisteredLine = Readonly<Partial<Record<FieldName, string | number>>>;

/** A line that was known before: the text of an earlier import, or what the register says of it. */
export type KnownLines = ReadonlyMap<string, string | RegisteredLine>;

const ARM_NOT_KNOWN = "arm not known";

/**
 * The lines of a register under the keys a spreadsheet's rows have: patient's number, day of placing, arm. A merged person
 * is known by both numbers. Where one line was placed on a day, a row that does not name the arm is that line too.
 */
export function linesOfRegister(
  lines: readonly LineView[],
  patients: ReadonlyMap<Subject, PatientView>,
): ReadonlyMap<string, RegisteredLine> {
  const known = new Map<string, RegisteredLine>();
  const onDay = new Map<string, RegisteredLine[]>();
  for (const line of lines) {
    if (!line.placed) continue;
    const subject = `patient:${line.patient ?? ""}` as Subject;
    const numbers = [subject, shownUnder(subject, patients)].map((one) => patients.get(one)?.number ?? "");
    const placedOn = civilDateOf(line.placed.event.happenedAt);
    const said = saidOf(line, placedOn);
    for (const number of new Set(numbers.filter((one) => one !== ""))) {
      const day = `${patientKey(number)}|${placedOn}`;
      known.set(`${day}|${said.side ?? ARM_NOT_KNOWN}`, said);
      onDay.set(day, [...(onDay.get(day) ?? []), said]);
    }
  }
  for (const [day, own] of onDay) if (own.length === 1 && own[0]) known.set(`${day}|${ARM_NOT_KNOWN}`, own[0]);
  return known;
}

function saidOf({ said, end }: LineView, placedOn: CivilDate): RegisteredLine {
  const arm = confirmedIn(said.arm);
  const values: Partial<Record<FieldName, string | number | undefined>> = {
    placedOn,
    side: arm === undefined ? undefined : `${arm} arm`,
    vein: confirmedIn(said.vein),
    sizeFr: confirmedIn(said.french),
    lumens: confirmedIn(said.lumens),
    veinDiameterMm: confirmedIn(said.veinDiameterMm),
    insideCm: confirmedIn(said.insideCm),
    attempts: confirmedIn(said.attempts),
    removedOn: end?.kind === "removed" ? civilDateOf(end.at) : undefined,
    removalReason:
      end?.kind === "removed" ? confirmedIn((end.happening.entry as EntryOf<"LineRemoved">).reason) : undefined,
  };
  return Object.fromEntries(Object.entries(values).filter(([, value]) => value !== undefined));
}

/** A removal that the register does not have is news; another value it never had may be filled in later. */
const NEWS: ReadonlySet<string> = new Set(["removedOn"]);

/** The row's line among the known, if it is there: by its arm, or where either does not name the arm. */
export function knownOf(known: KnownLines, line: SheetLine, key: string): string | RegisteredLine | undefined {
  const exact = known.get(key);
  if (exact !== undefined) return exact;
  const withoutArm = known.get(`${patientKey(line.patient)}|${line.placedOn}|${ARM_NOT_KNOWN}`);
  return typeof withoutArm === "object" && (withoutArm.side === undefined || line.words.side === undefined)
    ? withoutArm
    : undefined;
}

/** What a row says otherwise than the register, as two texts; undefined when they agree on all that both have. */
export function differenceFrom(
  registered: RegisteredLine,
  { dates, numbers, words }: SheetLine,
): { readonly before: string; readonly now: string } | undefined {
  const row: Readonly<Partial<Record<string, string | number>>> = { ...dates, ...numbers, ...words };
  const theirs: Readonly<Partial<Record<string, string | number>>> = registered;
  const other = Object.keys(row).filter((field) =>
    theirs[field] === undefined ? NEWS.has(field) : !alike(row[field], theirs[field]),
  );
  if (other.length === 0) return undefined;
  const text = (values: typeof row) => other.map((field) => `${field} ${values[field] ?? "not written"}`).join(", ");
  return { before: text(theirs), now: text(row) };
}

/** Numbers are alike to the digits a spreadsheet keeps. */
const TOLD_APART = 0.05;
const alike = (a: string | number | undefined, b: string | number | undefined): boolean =>
  typeof a === "number" && typeof b === "number" ? Math.abs(a - b) < TOLD_APART : a === b;
