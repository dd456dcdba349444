import { Refused } from "./refusal.ts";
import { bytesAre } from "./utf8-bytes.ts";

export const ENCODINGS = ["UTF-8", "UTF-16 little end first", "UTF-16 big end first", "Windows-1252"] as const;
export type Encoding = (typeof ENCODINGS)[number];

/** The part of the platform's decoder that both a browser and Node have. */
declare class TextDecoder {
  constructor(label: string, options: { readonly fatal: boolean; readonly ignoreBOM?: boolean });
  decode(bytes?: Uint8Array, options?: { readonly stream: boolean }): string;
}

/**
 * The upper half of Windows-1252 from 0x80 to 0x9F; a zero is unassigned. From 0xA0 on a byte is its own code point.
 * Source: WHATWG Encoding Standard, index windows-1252 (from memory). Own, because platforms have got this range wrong.
 */
const WINDOWS_80_TO_9F = [
  0x20ac, 0, 0x201a, 0x0192, 0x201e, 0x2026, 0x2020, 0x2021, 0x02c6, 0x2030, 0x0160, 0x2039, 0x0152, 0, 0x017d, 0, 0,
  0x2018, 0x2019, 0x201c, 0x201d, 0x2022, 0x2013, 0x2014, 0x02dc, 0x2122, 0x0161, 0x203a, 0x0153, 0, 0x017e, 0x0178,
];

/** The encoding that the first bytes show; a mark at the start decides, else the bytes do. */
export function detectEncoding(head: Uint8Array): { readonly encoding: Encoding; readonly marked: boolean } {
  const [a, b, c, d] = head;
  if (a === 0xff && b === 0xfe && c === 0 && d === 0) throw new Refused("wrong-encoding", "UTF-32");
  if (a === 0xef && b === 0xbb && c === 0xbf) return { encoding: "UTF-8", marked: true };
  if (a === 0xff && b === 0xfe) return { encoding: "UTF-16 little end first", marked: true };
  if (a === 0xfe && b === 0xff) return { encoding: "UTF-16 big end first", marked: true };
  let even = 0;
  let odd = 0;
  for (let at = 0; at < head.length; at += 1) {
    if (head[at] !== 0) continue;
    if (at % 2 === 0) even += 1;
    else odd += 1;
  }
  const third = head.length / 6;
  if (odd > third && even * 10 < odd) return { encoding: "UTF-16 little end first", marked: false };
  if (even > third && odd * 10 < even) return { encoding: "UTF-16 big end first", marked: false };
  if (even + odd > 0) throw new Refused("not-a-table", "bytes of zero");
  return { encoding: mostLines(head), marked: false };
}

/** What most lines with other than plain letters are in; a file may be put together from two systems. */
function mostLines(head: Uint8Array): "UTF-8" | "Windows-1252" {
  let utf8 = 0;
  let other = 0;
  let from = 0;
  for (let at = 0; at <= head.length; at += 1) {
    if (at < head.length && head[at] !== 0x0a && head[at] !== 0x0d) continue;
    const are = bytesAre(head, from, at, at === head.length);
    if (are === "UTF-8") utf8 += 1;
    else if (are === "other") other += 1;
    from = at + 1;
  }
  return utf8 >= other ? "UTF-8" : "Windows-1252";
}

/** Decodes what is known to be UTF-8. */
export function utf8Decoder(): (bytes: Uint8Array) => string {
  const platform = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true });
  return (bytes) => platform.decode(bytes);
}

export interface Decoder {
  /** What is being read now: a file that began as plain letters may turn out to be Windows-1252. */
  encoding: Encoding;
  readonly decode: (bytes: Uint8Array) => string;
  readonly end: () => string;
}

/** Decodes a stream all in one encoding, refusing what does not belong. */
export function decoderOf(encoding: Encoding): Decoder {
  if (encoding === "Windows-1252") return { encoding, decode: decodeWindows, end: () => "" };
  const label = { "UTF-8": "utf-8", "UTF-16 little end first": "utf-16le", "UTF-16 big end first": "utf-16be" }[
    encoding
  ];
  const platform = new TextDecoder(label, { fatal: true });
  const attempt = (run: () => string): string => {
    try {
      return run();
    } catch {
      throw new Refused("wrong-encoding", encoding);
    }
  };
  return {
    encoding,
    decode: (bytes) => attempt(() => platform.decode(bytes, { stream: true })),
    end: () => attempt(() => platform.decode()),
  };
}

export function decodeWindows(bytes: Uint8Array): string {
  let text = "";
  const units: number[] = [];
  for (const byte of bytes) {
    const unit = byte >= 0x80 && byte <= 0x9f ? (WINDOWS_80_TO_9F[byte - 0x80] as number) : byte;
    if (unit === 0) throw new Refused(byte === 0 ? "not-a-table" : "wrong-encoding", `byte ${byte.toString(16)}`);
    units.push(unit);
    if (units.length === 8192) text += String.fromCharCode(...units.splice(0));
  }
  return text + String.fromCharCode(...units);
}
