import { dayNumber } from "../../core/calendar/index.ts";
import { GrowingList } from "./grown.ts";
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

/** Keeps 37 bytes of each line, so that a million lines can be held against each other. */
export interface LineLedger {
  readonly add: (line: SheetLine) => void;
  /** Doubles and overlaps, in the order of the rows, once every row is in. */
  readonly faults: () => Iterable<RowFault>;
}

const ARMS = ["", "left arm", "right arm"];
const NO_ARM = 0;
const RULES = ["same line twice", "same line, other values", "lines overlap"] as const;

export function lineLedger(): LineLedger {
  const wide = () => new GrowingList(new Float64Array(1024));
  const whole = () => new GrowingList(new Int32Array(1024));
  const [patients, lines, contents] = [wide(), wide(), wide()];
  const [placed, removed, rows] = [whole(), whole(), whole()];
  const arms = new GrowingList(new Uint8Array(1024));
  return {
    add: (line) => {
      patients.add(keyNumber(patientKey(line.patient)));
      lines.add(keyNumber(lineKey(line)));
      contents.add(keyNumber(lineContent(line)));
      placed.add(dayNumber(line.placedOn));
      removed.add(line.dates.removedOn ? dayNumber(line.dates.removedOn) : OPEN_END);
      rows.add(line.row);
      arms.add(ARMS.indexOf(line.words.side ?? ""));
    },
    faults: function* faults() {
      const { length } = rows;
      const order = Uint32Array.from({ length }, (_, at) => at);
      order.sort((a, b) => patients.at(a) - patients.at(b) || placed.at(a) - placed.at(b) || rows.at(a) - rows.at(b));
      // what each line breaks, counted from one, and the line it is held against
      const broken = new Uint8Array(length);
      const against = new Int32Array(length);
      const firsts = new Map<number, number>();
      // of each arm the line of this person that was in longest; none is -1
      const longest = [-1, -1, -1];
      /** A line still in: of the same arm, of an arm not named, or one in the other arm that nobody took out. */
      const stillIn = (at: number): number => {
        const arm = arms.at(at);
        const found = longest.find(
          (other, otherArm) =>
            other >= 0 &&
            removed.at(other) > placed.at(at) &&
            (arm === otherArm || arm === NO_ARM || otherArm === NO_ARM || removed.at(other) === OPEN_END),
        );
        return found ?? -1;
      };
      let person = Number.NaN;
      for (let place = 0; place < length; place += 1) {
        const at = order[place] as number;
        const arm = arms.at(at);
        if (patients.at(at) !== person) {
          person = patients.at(at);
          longest.fill(-1);
          longest[arm] = at;
          firsts.clear();
          continue;
        }
        const last = order[place - 1] as number;
        // the lines of this person and day, each at its first row
        if (placed.at(last) !== placed.at(at)) firsts.clear();
        else if (firsts.size === 0) firsts.set(lines.at(last), last);
        const twin = firsts.get(lines.at(at)) ?? -1;
        if (twin < 0 && firsts.size > 0) firsts.set(lines.at(at), at);
        const overlapped = stillIn(at);
        if (twin >= 0) broken[at] = contents.at(twin) === contents.at(at) ? 1 : 2;
        else if (overlapped >= 0) broken[at] = 3;
        against[at] = twin >= 0 ? twin : overlapped;
        const before = longest[arm] as number;
        if (before < 0 || removed.at(at) > removed.at(before)) longest[arm] = at;
      }
      for (let at = 0; at < length; at += 1) {
        const code = RULES[(broken[at] as number) - 1];
        if (code !== undefined)
          yield {
            row: rows.at(at),
            column: "",
            field: undefined,
            code,
            found: "",
            against: `row ${rows.at(against[at] as number)}`,
          };
      }
    },
  };
}
