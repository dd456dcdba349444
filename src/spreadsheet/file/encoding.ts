import { Refused } from "./refusal.ts";

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
  return { encoding: isUtf8SoFar(head) ? "UTF-8" : "Windows-1252", marked: false };
}

/** Whether bytes are UTF-8, a character cut off at the end allowed. */
function isUtf8SoFar(bytes: Uint8Array): boolean {
  try {
    new TextDecoder("utf-8", { fatal: true }).decode(bytes, { stream: true });
    return true;
  } catch {
    return false;
  }
}

export interface Decoder {
  /** What is being read now: a file that began as plain letters may turn out to be Windows-1252. */
  encoding: Encoding;
  readonly decode: (bytes: Uint8Array) => string;
  readonly end: () => string;
}

/**
 * Decodes a stream, refusing what does not belong. While only plain ASCII has been seen, UTF-8 and Windows-1252 are one;
 * so the first byte that is not UTF-8 turns such a stream into Windows-1252, and never one that already held UTF-8.
 */
export function decoderOf(encoding: Encoding): Decoder {
  if (encoding === "Windows-1252") return { encoding, decode: decodeWindows, end: () => "" };
  const label = { "UTF-8": "utf-8", "UTF-16 little end first": "utf-16le", "UTF-16 big end first": "utf-16be" }[
    encoding
  ];
  const platform = new TextDecoder(label, { fatal: true });
  let plain = encoding === "UTF-8";
  const attempt = (run: () => string): string => {
    try {
      return run();
    } catch {
      throw new Refused("wrong-encoding", encoding);
    }
  };
  const decoder: Decoder = {
    encoding,
    decode: (bytes) => {
      if (decoder.encoding === "Windows-1252") return decodeWindows(bytes);
      if (plain && bytes.some((byte) => byte > 0x7f)) {
        plain = false;
        if (!isUtf8SoFar(bytes)) {
          decoder.encoding = "Windows-1252";
          return decodeWindows(bytes);
        }
      }
      return attempt(() => platform.decode(bytes, { stream: true }));
    },
    end: () => (decoder.encoding === "Windows-1252" ? "" : attempt(() => platform.decode())),
  };
  return decoder;
}

function decodeWindows(bytes: Uint8Array): string {
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
