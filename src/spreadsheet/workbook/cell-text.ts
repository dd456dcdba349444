import { dateTextOfSerial, type DateSystem } from "../file/date-serial.ts";
import { Refused } from "../file/refusal.ts";
import type { NumberStyle } from "./number-style.ts";
import { plainText } from "./plain-text.ts";
import type { SharedTexts } from "./shared-texts.ts";

/** What the cells of a sheet rest on. */
export interface CellGround {
  readonly dateSystem: DateSystem;
  readonly texts: SharedTexts | undefined;
  readonly styles: readonly NumberStyle[];
}

/** Digits that are written as the number's own text would be. */
const PLAIN_INTEGER = /^(?:0|[1-9]\d{0,14})$/;
/** From here on whole numbers of the machine lose digits: as text they stay, and two patients' numbers stay two. */
const LOSES_DIGITS = 1e15;
/** W3C XML Schema part 2, 3.2.5 (double), without its names of what is no number; a machine would also read 0x10. */
const NUMBER = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/;
/** A text's place in the list is an unsigned number: ECMA-376 part 1, 18.18.11 (from memory). */
const INDEX = /^\s*\d{1,9}\s*$/;
const DIGITS_OF_A_SHARE = 12;
const PERCENT = 100;

/**
 * The text of a cell by its type: a number, or a shared, inline or worked-out text, yes or no, an error, a date.
 * A number in the look of a day count becomes its date by the workbook's own system, one in percent says so.
 * Source: ECMA-376 part 1, 18.3.1.4 (c) and 18.18.11 (ST_CellType) (from memory).
 * Example: type "s", value "3" is the fourth shared text; 0.45 in the look of percent is "45 %".
 */
export function cellText(type: string, value: string, style: number, ground: CellGround, row: number): string {
  switch (type) {
    case "n":
    case "":
      return numberText(value, ground.styles[style] ?? "number", ground.dateSystem);
    case "s": {
      const text = value === "" ? "" : INDEX.test(value) ? ground.texts?.at(Number(value)) : undefined;
      if (text === undefined) throw new Refused("zip-damaged", `text ${value} is not in it`, row);
      return text;
    }
    case "str":
    case "inlineStr":
      return ownText(plainText(value, row));
    case "b":
      return value === "" ? "" : value === "1" || value === "true" ? "yes" : "no";
    case "e":
      return "#error";
    case "d":
      return dateText(value);
    default:
      throw new Refused("zip-damaged", `a cell of type ${type}`, row);
  }
}

function numberText(value: string, style: NumberStyle, system: DateSystem): string {
  if (style === "number" && PLAIN_INTEGER.test(value)) return value;
  const text = value.trim();
  const number = NUMBER.test(text) ? Number(text) : Number.NaN;
  // what is no number is shown as it stands, for the rules of the rows to judge
  if (!(Math.abs(number) < LOSES_DIGITS)) return ownText(text);
  if (style === "date") return dateTextOfSerial(number, system) ?? String(number);
  if (style === "percent") return `${Number((number * PERCENT).toPrecision(DIGITS_OF_A_SHARE))} %`;
  return String(number);
}

/** A date written as ISO 8601, to the minute as dates of day counts are; other text stays as it stands. */
function dateText(value: string): string {
  const [, date, time] = /^(\d{4}-\d{2}-\d{2})(?:T(\d{2}:\d{2})(?::\d{2}(?:\.\d+)?)?Z?)?$/.exec(value.trim()) ?? [];
  if (date === undefined) return ownText(value);
  return time === undefined || time === "00:00" ? date : `${date} ${time}`;
}

const LONGEST_COPIED = 12;

/** A text of its own: a long slice would keep the whole piece it was cut from in memory. */
const ownText = (text: string): string => (text.length > LONGEST_COPIED ? ` ${text}`.slice(1) : text);
