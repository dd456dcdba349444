import { decodeWindows, utf8Decoder, type Decoder } from "./encoding.ts";
import { bytesAre } from "./utf8-bytes.ts";

/**
 * Stands before the first letter of a line that is written in another encoding than the file: a code point that no text
 * may hold, taken out again where cells are read. Source: The Unicode Standard, 23.7, noncharacters (from memory).
 */
export const OTHER_ENCODING = "\uFDD0";

/** A line longer than this is no line of a table, and is passed on in parts for its refusal. */
const LONGEST_LINE = 1_000_000;
const isEnd = (byte: number): boolean => byte === 0x0a || byte === 0x0d;

/**
 * Decodes a file line by line, for files that were put together from two systems: a line of UTF-8 is read as UTF-8, any
 * other as Windows-1252, and a line that is not like the file is marked. While only plain letters have been seen the file
 * is either; the first line that is not plain decides.
 */
export function decodeLines(encoding: "UTF-8" | "Windows-1252", decided: boolean): Decoder {
  const platform = utf8Decoder();
  let open = !decided;
  let held = new Uint8Array(0);
  const line = (bytes: Uint8Array, from: number, to: number): string => {
    const are = bytesAre(bytes, from, to);
    if (are === "plain") return platform(bytes.subarray(from, to));
    const own = are === "UTF-8" ? ("UTF-8" as const) : ("Windows-1252" as const);
    if (open) {
      decoder.encoding = own;
      open = false;
    }
    const text = own === "UTF-8" ? platform(bytes.subarray(from, to)) : decodeWindows(bytes.subarray(from, to));
    return own === decoder.encoding ? text : text.replace(/[\u0080-\uFFFF]/, `${OTHER_ENCODING}$&`);
  };
  /** Whole lines of one piece; in most pieces every line is like the file, and they are decoded at once. */
  const lines = (bytes: Uint8Array): string => {
    const are = bytesAre(bytes, 0, bytes.length);
    if (are === "plain" || (are === "UTF-8" && !open && decoder.encoding === "UTF-8")) return platform(bytes);
    let text = "";
    let from = 0;
    for (let at = 0; at < bytes.length; at += 1) {
      if (!isEnd(bytes[at] as number)) continue;
      text += line(bytes, from, at + 1);
      from = at + 1;
    }
    return from < bytes.length ? text + line(bytes, from, bytes.length) : text;
  };
  const decoder: Decoder = {
    encoding,
    decode: (piece) => {
      const all = joined(held, piece);
      let end = all.length;
      while (end > 0 && !isEnd(all[end - 1] as number)) end -= 1;
      if (end === 0 && all.length > LONGEST_LINE) end = all.length;
      held = all.slice(end);
      return lines(all.subarray(0, end));
    },
    end: () => {
      const rest = lines(held);
      held = new Uint8Array(0);
      return rest;
    },
  };
  return decoder;
}

function joined(first: Uint8Array, second: Uint8Array): Uint8Array {
  if (first.length === 0) return second;
  const both = new Uint8Array(first.length + second.length);
  both.set(first);
  both.set(second, first.length);
  return both;
}
