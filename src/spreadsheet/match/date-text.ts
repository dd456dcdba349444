import { parseCivilDate, weekday, type CivilDate } from "../../core/calendar/index.ts";
import { dateOfSerial, type DateSystem } from "../file/date-serial.ts";

export const DATE_ORDERS = ["day first", "month first", "year first"] as const;
export type DateOrder = (typeof DATE_ORDERS)[number];

/** How one column writes its dates. What is absent has not been answered. */
export interface DateStyle {
  readonly order?: DateOrder;
  /** Two digits up to this are 20xx, above it 19xx. */
  readonly twoDigitUpTo?: number;
  readonly serialSystem?: DateSystem;
}

const MONTHS = [
  /^jan|^ene/,
  /^fe[bv]/,
  /^mar|^mrz|^marz/,
  /^apr|^avr|^abr/,
  /^may|^mai/,
  /^jun|^juin/,
  /^jul|^juil/,
  /^aug|^aou|^ago/,
  /^sep/,
  /^oct|^okt/,
  /^nov/,
  /^de[cz]|^dic/,
];

export type DateReading =
  | { readonly kind: "date"; readonly date: CivilDate; readonly minute?: number }
  | { readonly kind: "no such date" | "order not said" | "century not said" | "system not said" | "not a date" };

/** The parts of a written date, before anybody has said in which order they stand. */
interface Parts {
  readonly a: number;
  readonly b: number;
  readonly c: number;
  readonly shape: "year first" | "short" | "month named";
  readonly twoDigitYear: boolean;
  readonly minute?: number;
}

const WEEKDAYS = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"];
/** "Sat 13/12/2025", as a cell in a house's own look is saved: the day's name, and the date behind it. */
const NAMED_DAY = /^(mon|tue|wed|thu|fri|sat|sun)(?:s|nes|rs|ur)?(?:day)?\.?,? +(?=\d)/i;

export function datePartsOf(text: string): Parts | undefined {
  const plain = text.trim().replace(NAMED_DAY, "");
  if (plain.length > 40) return undefined;
  const match = /^(.+?)(?:[T ,]+(\d{1,2}):(\d{2})(?::\d{2}(?:\.\d+)?)?\s*(am|pm)?Z?)?$/i.exec(plain) ?? [];
  const [, day = "", hour, minutes, half] = match;
  let minute: number | undefined;
  if (hour !== undefined) {
    const hours = half ? (Number(hour) % 12) + (/pm/i.test(half) ? 12 : 0) : Number(hour);
    minute = hours * 60 + Number(minutes);
    if (hours > 23 || Number(minutes) > 59) return undefined;
  }
  const time = minute === undefined ? {} : { minute };
  const full = /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})$/.exec(day);
  if (full)
    return {
      a: Number(full[1]),
      b: Number(full[2]),
      c: Number(full[3]),
      shape: "year first",
      twoDigitYear: false,
      ...time,
    };
  const short = /^(\d{1,2})\s?[-/. ]\s?(\d{1,2})\s?[-/. ]\s?(\d{2}|\d{4})$/.exec(day);
  if (short)
    return {
      a: Number(short[1]),
      b: Number(short[2]),
      c: Number(short[3]),
      shape: "short",
      twoDigitYear: short[3]?.length === 2,
      ...time,
    };
  const named = /^(\d{1,2})\.?[-/. ]*(\p{L}{3,12})\.?[-/. ]*(\d{2}|\d{4})$/u.exec(day);
  const american = named ? undefined : /^(\p{L}{3,12})\.? ?(\d{1,2}),? (\d{4}|\d{2})$/u.exec(day);
  const [word, dayText, year] = named ? [named[2], named[1], named[3]] : [american?.[1], american?.[2], american?.[3]];
  if (!word || !year) return undefined;
  const letters = word.normalize("NFD").replaceAll(/\p{M}/gu, "").toLowerCase();
  const month = MONTHS.findIndex((pattern) => pattern.test(letters)) + 1;
  return month === 0
    ? undefined
    : { a: Number(dayText), b: month, c: Number(year), shape: "month named", twoDigitYear: year.length === 2, ...time };
}

/**
 * Reads a date as its column writes dates; nothing unsaid is guessed.
 * Example: 03/04/2025 is 3 April when the day is first, 4 March when the month is, and "order not said" before.
 */
export function readDate(text: string, style: DateStyle): DateReading {
  const serial = /^\d{1,7}([.,]\d+)?$/.test(text.trim()) ? Number(text.trim().replace(",", ".")) : undefined;
  if (serial !== undefined) {
    if (!style.serialSystem) return { kind: serial >= 10_000 && serial < 100_000 ? "system not said" : "not a date" };
    const date = dateOfSerial(serial, style.serialSystem);
    return date ? { kind: "date", date } : { kind: "no such date" };
  }
  const parts = datePartsOf(text);
  if (!parts) return { kind: "not a date" };
  let { a: year, b: month, c: day } = parts;
  if (parts.shape === "month named") [day, year] = [parts.a, parts.c];
  if (parts.shape === "short") {
    if (!style.order) return { kind: "order not said" };
    if (style.order === "day first") [day, month, year] = [parts.a, parts.b, parts.c];
    if (style.order === "month first") [month, day, year] = [parts.a, parts.b, parts.c];
    if (style.order === "year first" && !parts.twoDigitYear) return { kind: "no such date" };
  }
  if (parts.twoDigitYear) {
    if (style.twoDigitUpTo === undefined) return { kind: "century not said" };
    year += year <= style.twoDigitUpTo ? 2000 : 1900;
  }
  const two = (part: number) => String(part).padStart(2, "0");
  const date = parseCivilDate(`${String(year).padStart(4, "0")}-${two(month)}-${two(day)}`);
  const named = NAMED_DAY.exec(text.trim())?.[1]?.toLowerCase();
  // a Monday that was a Saturday is a slip of the pen, or day and month changed places
  if (!date || (named !== undefined && WEEKDAYS[weekday(date)] !== named)) return { kind: "no such date" };
  return { kind: "date", date, ...(parts.minute === undefined ? {} : { minute: parts.minute }) };
}

/** So few days that do not exist may be slips of the hand. */
const SLIPS = 0.02;

/**
 * Which orders every written date of a column allows. None left means that the column mixes orders. With years of two
 * digits a day that does not exist, such as 31.02.25, is a day of 2031: there an order that all but such slips allow is
 * left open too.
 */
export function ordersThatFit(texts: readonly string[]): readonly DateOrder[] {
  const short = texts.filter((text) => datePartsOf(text)?.shape === "short");
  const lost = (order: DateOrder) =>
    short.filter((text) => readDate(text, { order, twoDigitUpTo: 99 }).kind !== "date").length;
  const fit = DATE_ORDERS.filter((order) => lost(order) === 0);
  return fit.length === 1 && fit[0] === "year first"
    ? DATE_ORDERS.filter((order) => lost(order) <= SLIPS * short.length)
    : fit;
}

/** Two days or more in one cell ("3/4/25 & 9/4/25"); undefined where it is one date, or where any part is none. */
export function readDates(text: string, style: Parameters<typeof readDate>[1]): readonly CivilDate[] | undefined {
  const parts = text.split(/\s*[;&+\n]\s*|\s+(?:and|und|et|y)\s+|,\s+/).filter((part) => part !== "");
  if (parts.length < 2 || parts.length > 9) return undefined;
  const days = parts.flatMap((part) => {
    const reading = readDate(part, style);
    return reading.kind === "date" ? [reading.date] : [];
  });
  return days.length === parts.length ? days : undefined;
}
