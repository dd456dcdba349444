import { decodeLines } from "./decode-lines.ts";
import { decoderOf, type Decoder, type Encoding } from "./encoding.ts";

/** Whether an encoding keeps a line end as one byte that is no part of another letter. */
export const isByLine = (encoding: Encoding): encoding is "UTF-8" | "Windows-1252" =>
  encoding === "UTF-8" || encoding === "Windows-1252";

/** Line by line where that can be; two-byte encodings are read whole. */
export const lineDecoderOf = (encoding: Encoding, decided: boolean): Decoder =>
  isByLine(encoding) ? decodeLines(encoding, decided) : decoderOf(encoding);
