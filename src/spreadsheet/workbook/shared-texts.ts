import { FILE_LIMITS } from "../file/limits.ts";
import { Refused } from "../file/refusal.ts";
import type { CancelSign, SheetFile } from "../file/sheet-file.ts";
import { plainText } from "./plain-text.ts";
import { xmlPieces } from "./xml-pieces.ts";
import type { XmlReader } from "./xml-reader.ts";
import type { ZipPart } from "./zip-directory.ts";

/** The parts of the platform's encoder and decoder that both a browser and Node have. */
declare class TextEncoder {
  encodeInto(text: string, to: Uint8Array): { readonly read: number; readonly written: number };
}
declare class TextDecoder {
  decode(bytes: Uint8Array): string;
}

const PAGE_BYTES = 1_048_576;
const STARTS_A_PAGE = 16_384;
const MOST_BYTES_A_CHARACTER = 3;
const REMEMBERED = 16_384;
const SHORT = 24;
const PLAIN = 0x80;

/** Texts that cells name by their number, kept as bytes in pages: half a million words are some megabytes and no objects. */
export class SharedTexts {
  private readonly pages: Uint8Array[] = [];
  /** In pages as well: one list that doubles would hold the old and the new at once. */
  private readonly starts: Float64Array[] = [];
  private filled = 0;
  private bytes = 0;
  private readonly encoder = new TextEncoder();
  private readonly decoder = new TextDecoder();
  private readonly rememberedAt = new Int32Array(REMEMBERED).fill(-1);
  private readonly remembered: string[] = Array.from({ length: REMEMBERED }, () => "");
  count = 0;

  add(text: string): void {
    if (text.length > FILE_LIMITS.cellCharacters) throw new Refused("cell-too-large", `${text.length} characters`);
    if (this.pages.length === 0 || this.filled + text.length * MOST_BYTES_A_CHARACTER > PAGE_BYTES) {
      this.pages.push(new Uint8Array(PAGE_BYTES));
      this.filled = 0;
    }
    const page = this.pages.at(-1) as Uint8Array;
    const { written } = this.encoder.encodeInto(text, page.subarray(this.filled));
    const slot = this.count % STARTS_A_PAGE;
    if (slot === 0) this.starts.push(new Float64Array(STARTS_A_PAGE));
    const start = (this.pages.length - 1) * PAGE_BYTES + this.filled;
    // where it begins and how long it is, in one number: a text is shorter than its page
    (this.starts.at(-1) as Float64Array)[slot] = start * PAGE_BYTES + written;
    this.filled += written;
    this.count += 1;
    this.bytes += written + Float64Array.BYTES_PER_ELEMENT;
    if (this.bytes > FILE_LIMITS.sharedBytes)
      throw new Refused("workbook-too-large", `more than ${FILE_LIMITS.sharedBytes / 1_000_000} MB of texts`);
  }

  /** The text of a number; undefined where there is none. */
  at(index: number): string | undefined {
    if (!(Number.isInteger(index) && index >= 0 && index < this.count)) return undefined;
    const slot = index % REMEMBERED;
    if (this.rememberedAt[slot] === index) return this.remembered[slot];
    const packed = this.starts[Math.floor(index / STARTS_A_PAGE)]?.[index % STARTS_A_PAGE] as number;
    const length = packed % PAGE_BYTES;
    const start = (packed - length) / PAGE_BYTES;
    const from = start % PAGE_BYTES;
    const text = this.textOf(this.pages[(start - from) / PAGE_BYTES] as Uint8Array, from, length);
    this.rememberedAt[slot] = index;
    this.remembered[slot] = text;
    return text;
  }

  /** Short plain words are put together here: the platform's decoder takes longer to be called than to read them. */
  private textOf(page: Uint8Array, from: number, length: number): string {
    if (length > SHORT) return this.decoder.decode(page.subarray(from, from + length));
    let text = "";
    for (let at = from; at < from + length; at += 1) {
      const byte = page[at] as number;
      if (byte >= PLAIN) return this.decoder.decode(page.subarray(from, from + length));
      text += String.fromCharCode(byte);
    }
    return text;
  }
}

/**
 * Reads the texts that cells share. Of a rich text its runs are joined; how a word is spoken (rPh) is no part of it.
 * Source: ECMA-376 part 1, 18.4.8 (si), 18.4.9 (sst), 18.4.4 (r), 18.4.6 (rPh), 18.4.12 (t) (from memory).
 */
export async function readSharedTexts(
  file: SheetFile,
  part: ZipPart,
  cancel: CancelSign,
  progress: (share: number) => void,
): Promise<SharedTexts> {
  if (part.declaredBytes > FILE_LIMITS.sharedPartBytes)
    throw new Refused("workbook-too-large", `${part.name}: ${Math.round(part.declaredBytes / 1_000_000)} MB unpacked`);
  const texts = new SharedTexts();
  const reader = sharedTextReader(texts);
  for await (const { packedRead } of xmlPieces(file, part, reader, cancel)) progress(packedRead / part.packedBytes);
  return texts;
}

function sharedTextReader(texts: SharedTexts): (xml: XmlReader) => void {
  let text = "";
  let spoken = false;
  let inText = false;
  return (xml) => {
    for (let token = xml.next(); token !== "more" && token !== "end"; token = xml.next()) {
      if (token === "text") {
        if (inText) text += xml.read();
      } else if (token === "open") {
        if (xml.name === "t") inText = !spoken && !xml.empty;
        else if (xml.name === "rPh") spoken = !xml.empty;
        else if (xml.name === "si" && xml.depth === 2) {
          if (xml.empty) texts.add("");
          text = "";
        }
      } else if (xml.name === "t") inText = false;
      else if (xml.name === "rPh") spoken = false;
      else if (xml.name === "si" && xml.depth === 2) texts.add(plainText(text));
    }
  };
}
