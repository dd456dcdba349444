import { Refused } from "../file/refusal.ts";
import type { CancelSign, SheetFile } from "../file/sheet-file.ts";
import { crc32 } from "./crc-32.ts";
import { LOCAL_BYTES, nameOf, viewOf, type ZipPart } from "./zip-directory.ts";

/** The part of the platform's unpacker that both a browser and Node have. */
declare class DecompressionStream {
  constructor(format: "deflate-raw");
  readonly readable: {
    getReader: () => {
      read: () => Promise<{ readonly done: boolean; readonly value?: Uint8Array }>;
    };
  };
  readonly writable: {
    getWriter: () => {
      readonly closed: Promise<void>;
      write: (bytes: Uint8Array) => Promise<void>;
      close: () => Promise<void>;
    };
  };
}

const LOCAL_SIGN = 0x04034b50;
/** How much is read from the file at once. */
const READ_BYTES = 262_144;
/** How much is given to the unpacker at once: packed a thousand times over, it makes no more than 8 MB before it is asked again. */
const GIVEN_BYTES = 8_192;

export interface Unpacked {
  readonly bytes: Uint8Array;
  /** How far into the packed part this is. */
  readonly packedRead: number;
}

/**
 * Unpacks one part piece by piece, no faster than the pieces are taken. It ends in a refusal as soon as there is more than
 * the directory declared, and at the end when there is less or the check does not agree: a directory can lie.
 */
export async function* unpackPart(file: SheetFile, part: ZipPart, cancel: CancelSign): AsyncGenerator<Unpacked> {
  const from = await contentStart(file, part);
  let crc = 0;
  let unpacked = 0;
  for await (const piece of part.packed ? inflated(file, part, from) : stored(file, part, from)) {
    if (cancel.aborted) throw new Refused("cancelled");
    unpacked += piece.bytes.length;
    if (unpacked > part.declaredBytes) throw new Refused("zip-bomb", `${part.name} is larger than it says`);
    crc = crc32(piece.bytes, crc);
    yield piece;
  }
  if (unpacked !== part.declaredBytes || crc !== part.crc) throw new Refused("zip-damaged", part.name);
}

/** Where the bytes of a part begin; its own record must name it as the directory does, for two readers may believe two. */
async function contentStart(file: SheetFile, part: ZipPart): Promise<number> {
  const local = await file.range(part.from, Math.min(part.until, part.from + LOCAL_BYTES + part.name.length));
  const view = viewOf(local);
  if (local.length < LOCAL_BYTES || view.getUint32(0, true) !== LOCAL_SIGN) throw new Refused("zip-damaged", part.name);
  const names = view.getUint16(26, true);
  if (names !== part.name.length || nameOf(local.subarray(LOCAL_BYTES)) !== part.name)
    throw new Refused("zip-damaged", `${part.name} has two names`);
  const from = part.from + LOCAL_BYTES + names + view.getUint16(28, true);
  if (from + part.packedBytes > part.until) throw new Refused("zip-bomb", `${part.name} shares its bytes`);
  return from;
}

async function* stored(file: SheetFile, { packedBytes }: ZipPart, from: number): AsyncGenerator<Unpacked> {
  for (let at = 0; at < packedBytes; at += READ_BYTES) {
    const bytes = await file.range(from + at, from + Math.min(packedBytes, at + READ_BYTES));
    yield { bytes, packedRead: Math.min(packedBytes, at + READ_BYTES) };
  }
}

async function* inflated(file: SheetFile, { name, packedBytes }: ZipPart, from: number): AsyncGenerator<Unpacked> {
  const stream = new DecompressionStream("deflate-raw");
  const writer = stream.writable.getWriter();
  const reader = stream.readable.getReader();
  let packedRead = 0;
  const stop = { said: false };
  let fault: unknown;
  const give = async () => {
    for (let at = 0; at < packedBytes && !stop.said; at += READ_BYTES) {
      const bytes = await file.range(from + at, from + Math.min(packedBytes, at + READ_BYTES));
      for (let next = 0; next < bytes.length && !stop.said; next += GIVEN_BYTES) {
        // the promise is kept when the unpacker can take more, so that nothing piles up
        await writer.write(bytes.subarray(next, next + GIVEN_BYTES));
        packedRead = at + Math.min(bytes.length, next + GIVEN_BYTES);
      }
    }
    if (!stop.said) await writer.close();
  };
  // the reader reports a damaged stream; the writer's own echo of it is no second fault
  writer.closed.catch(() => undefined);
  const giving = give().catch((error: unknown) => {
    fault = error;
  });
  try {
    for (;;) {
      const { done, value } = await reader.read().catch(() => {
        throw new Refused("zip-damaged", name);
      });
      if (done || !value) break;
      yield { bytes: value, packedRead };
    }
    await giving;
    if (fault) throw new Refused("zip-damaged", name);
  } finally {
    // No more is given, and the stream is left to be collected. To cancel it would end the process: Node's unpacker may
    // still hand over a piece after the cancelling, and then throws where nobody can catch (seen with 20.20 and 24.21).
    stop.said = true;
  }
}
