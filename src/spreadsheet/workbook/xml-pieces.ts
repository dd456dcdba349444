import { Refused } from "../file/refusal.ts";
import type { CancelSign, SheetFile } from "../file/sheet-file.ts";
import { unpackPart } from "./unpack-part.ts";
import { XmlReader, type XmlToken } from "./xml-reader.ts";
import type { ZipPart } from "./zip-directory.ts";

/** The part of the platform's decoder that both a browser and Node have. */
declare class TextDecoder {
  constructor(label: string, options: { readonly fatal: boolean });
  decode(bytes?: Uint8Array, options?: { readonly stream: boolean }): string;
}

/** Unpackers give small pieces; a reading of each would cost more than the reading of its text. */
const PIECE_CHARACTERS = 131_072;

export interface XmlPieceRead {
  readonly packedRead: number;
  readonly last: boolean;
}

/**
 * Reads a part of a workbook: `take` is called with the reader whenever it has more to give, and takes every token until it
 * is told "more" or "end". Parts are UTF-8 or UTF-16; anything else is refused.
 * Source: ECMA-376 part 2, 9.1.3.4 (8.1.4 in later editions): XML of a package is UTF-8 or UTF-16 (from memory).
 */
export async function* xmlPieces(
  file: SheetFile,
  part: ZipPart,
  take: (xml: XmlReader) => void,
  cancel: CancelSign,
): AsyncGenerator<XmlPieceRead> {
  const xml = new XmlReader(part.name);
  let decoder: TextDecoder | undefined;
  let held = "";
  let packedRead = 0;
  const decode = (bytes?: Uint8Array): string => {
    decoder ??= new TextDecoder(encodingOf(bytes ?? new Uint8Array(0)), { fatal: true });
    try {
      return bytes ? decoder.decode(bytes, { stream: true }) : decoder.decode();
    } catch {
      throw new Refused("wrong-encoding", part.name);
    }
  };
  for await (const unpacked of unpackPart(file, part, cancel)) {
    held += decode(unpacked.bytes);
    packedRead = unpacked.packedRead;
    if (held.length < PIECE_CHARACTERS) continue;
    xml.feed(held);
    held = "";
    take(xml);
    yield { packedRead, last: false };
  }
  xml.feed(held + decode());
  xml.feed();
  take(xml);
  yield { packedRead, last: true };
}

function encodingOf([a, b]: Uint8Array): string {
  if ((a === 0xff && b === 0xfe) || (a === 0x3c && b === 0)) return "utf-16le";
  if ((a === 0xfe && b === 0xff) || (a === 0 && b === 0x3c)) return "utf-16be";
  return "utf-8";
}

/** Reads the whole of a part that is known to be small, token by token. */
export async function readXml(
  file: SheetFile,
  part: ZipPart,
  mostBytes: number,
  each: (token: Exclude<XmlToken, "more" | "end">, xml: XmlReader) => void,
  cancel: CancelSign,
): Promise<void> {
  if (part.declaredBytes > mostBytes)
    throw new Refused("workbook-too-large", `${part.name}: ${Math.round(part.declaredBytes / 1_000_000)} MB unpacked`);
  const take = (xml: XmlReader) => {
    for (let token = xml.next(); token !== "more" && token !== "end"; token = xml.next()) each(token, xml);
  };
  for await (const _ of xmlPieces(file, part, take, cancel));
}
