import { dayNumber } from "../../core/calendar/index.ts";
import type { RowFault } from "./row-fault.ts";
import type { SheetLine } from "./read-row.ts";

/** 53 bits of two FNV-1a passes: two of a million keys fall together about once in twenty thousand files. */
export function keyNumber(text: string): number {
  let low = 0x811c9dc5;
  let high = 0x1b873593;
  for (let at = 0; at < text.length; at += 1) {
    const unit = text.charCodeAt(at);
    low = Math.imul(low ^ unit, 0x01000193);
    high = Math.imul(high ^ (unit + at), 0x85ebca6b);
    high ^= high >>> 13;
  }
  return (high >>> 11) * 2 ** 32 + (low >>> 0);
}

/** The person as a key: small differences of typing do not make two of one. */
export const patientKey = (patient: string): string => patient.toLowerCase().replaceAll(/[\s./-]+/g, "");

/** What stays the same when a row is mended: patient, placed date, arm. */
export const lineKey = (line: SheetLine): string =>
  `${patientKey(line.patient)}|${line.placedOn}|${line.words.side ?? "arm not known"}`;

/** Every value of a line in one order, so that two readings of one row compare as text. */
export function lineContent({ dates, numbers, words, absences, again }: SheetLine): string {
  const said = Object.entries(absences).filter(([, kind]) => kind !== "not asked");
  const parts: [string, string | number][][] = [dates, numbers, words].map((part) => Object.entries(part));
  if (again.length > 0) parts.push(again.map(({ field, on }) => [field, on]));
  return JSON.stringify(
    (said.length > 0 ? [...parts, said] : parts).map((part) => part.sort(([a], [b]) => (a < b ? -1 : 1))),
  );
}

const OPEN_END = 2_147_483_647;

/** Keeps 40 bytes of each line, so that a million lines can be held against each other. */
export interface LineLedger {
  readonly add: (line: SheetLine) => void;
  /** Doubles and overlaps, once every row is in. */
  readonly faults: () => readonly RowFault[];
}

export function lineLedger(): LineLedger {
  let held = 0;
  let patients = new Float64Array(1024);
  let lines = new Float64Array(1024);
  let contents = new Float64Array(1024);
  let placed = new Int32Array(1024);
  let removed = new Int32Array(1024);
  let rows = new Int32Array(1024);
  const grown = <Kind extends Float64Array<ArrayBuffer> | Int32Array<ArrayBuffer>>(old: Kind): Kind => {
    const next = new (old.constructor as new (size: number) => Kind)(old.length * 2);
    next.set(old);
    return next;
  };
  return {
    add: (line) => {
      if (held === rows.length) {
        [patients, lines, contents] = [grown(patients), grown(lines), grown(contents)];
        [placed, removed, rows] = [grown(placed), grown(removed), grown(rows)];
      }
      patients[held] = keyNumber(patientKey(line.patient));
      lines[held] = keyNumber(lineKey(line));
      contents[held] = keyNumber(lineContent(line));
      placed[held] = dayNumber(line.placedOn);
      removed[held] = line.dates.removedOn ? dayNumber(line.dates.removedOn) : OPEN_END;
      rows[held] = line.row;
      held += 1;
    },
    faults: () => {
      const order = Uint32Array.from({ length: held }, (_, at) => at);
      const value = (list: Float64Array | Int32Array, at: number) => list[at] as number;
      order.sort(
        (a, b) =>
          value(patients, a) - value(patients, b) ||
          value(placed, a) - value(placed, b) ||
          value(rows, a) - value(rows, b),
      );
      const faults: RowFault[] = [];
      let longest = -1;
      for (let place = 0; place < held; place += 1) {
        const at = order[place] as number;
        if (longest < 0 || value(patients, longest) !== value(patients, at)) {
          longest = at;
          continue;
        }
        const fault = (code: RowFault["code"], other: number) =>
          faults.push({
            row: value(rows, at),
            column: "",
            field: undefined,
            code,
            found: "",
            against: `row ${value(rows, other)}`,
          });
        let twin = -1;
        for (let back = place - 1; back >= 0; back -= 1) {
          const other = order[back] as number;
          if (value(patients, other) !== value(patients, at) || value(placed, other) !== value(placed, at)) break;
          if (value(lines, other) === value(lines, at)) twin = other;
        }
        if (twin >= 0)
          fault(value(contents, twin) === value(contents, at) ? "same line twice" : "same line, other values", twin);
        else if (value(removed, longest) > value(placed, at)) fault("lines overlap", longest);
        if (value(removed, at) > value(removed, longest)) longest = at;
      }
      return faults.sort((a, b) => a.row - b.row);
    },
  };
}
