import { FILE_LIMITS } from "./limits.ts";
import { Refused } from "./refusal.ts";
import type { ZipPart } from "./zip-directory.ts";

/** The part of the platform's unpacker that both a browser and Node have. */
declare class DecompressionStream {
  constructor(format: "deflate-raw");
  readonly readable: {
    getReader: () => {
      read: () => Promise<{ readonly done: boolean; readonly value?: Uint8Array }>;
      cancel: () => Promise<void>;
    };
  };
  readonly writable: {
    getWriter: () => { write: (bytes: Uint8Array) => Promise<void>; close: () => Promise<void> };
  };
}

/** Unpacks one part, stopping as soon as it grows beyond what the directory declared: a directory can lie. */
export async function unpackPart(file: Uint8Array, part: ZipPart): Promise<Uint8Array> {
  const packed = file.subarray(part.from, part.from + part.packedBytes);
  if (!part.packed) {
    if (part.packedBytes !== part.declaredBytes) throw new Refused("zip-damaged", part.name);
    return packed;
  }
  const most = Math.min(part.declaredBytes, FILE_LIMITS.unpackedBytes);
  const stream = new DecompressionStream("deflate-raw");
  const writer = stream.writable.getWriter();
  // the reader reports a damaged stream; the writer's own echo of it is not a second fault
  const writing = writer.write(packed).then(
    () => writer.close(),
    () => undefined,
  );
  writing.catch(() => undefined);
  const reader = stream.readable.getReader();
  const whole = new Uint8Array(most);
  let filled = 0;
  for (;;) {
    const { done, value } = await reader.read().catch(() => {
      throw new Refused("zip-damaged", part.name);
    });
    if (done || !value) break;
    if (filled + value.length > most) {
      await reader.cancel().catch(() => undefined);
      throw new Refused("zip-bomb", `${part.name} is larger than it says`);
    }
    whole.set(value, filled);
    filled += value.length;
  }
  if (filled !== part.declaredBytes) throw new Refused("zip-damaged", part.name);
  return whole;
}
