import { crc32, deflateRawSync } from "node:zlib";

/** A part as it is written, and what its records say of it where they lie. */
export interface PartToWrite {
  readonly name: string;
  readonly text: string | Uint8Array;
  readonly stored?: boolean;
  /** The wide field in the place of the plain numbers, as zip64 has it. */
  readonly wide?: boolean;
  readonly saysBytes?: number;
  readonly saysCrc?: number;
  readonly saysName?: string;
  readonly flags?: number;
  /** Its record in the list points at this part's bytes. */
  readonly sharesWith?: string;
}

const WIDE = 0xffffffff;

/** Writes a zip as PKWARE's APPNOTE.TXT has it (4.3.7, 4.3.12, 4.3.14 to 4.3.16), with whatever lies it is told to tell. */
export function zipOfParts(
  parts: readonly PartToWrite[],
  { wideEnd = false, comment = "" }: { readonly wideEnd?: boolean; readonly comment?: string } = {},
): Uint8Array {
  const pieces: Buffer[] = [];
  const places = new Map<string, number>();
  const list: Buffer[] = [];
  let at = 0;
  const put = (bytes: Buffer) => {
    pieces.push(bytes);
    at += bytes.length;
  };
  for (const part of parts) {
    const content = Buffer.from(part.text as Uint8Array);
    const packed = part.stored ? content : deflateRawSync(content);
    const from = places.get(part.sharesWith ?? "") ?? at;
    const facts = {
      crc: part.saysCrc ?? crc32(content),
      packed: packed.length,
      bytes: part.saysBytes ?? content.length,
      method: part.stored ? 0 : 8,
      flags: part.flags ?? 0,
    };
    if (part.sharesWith === undefined) {
      places.set(part.name, at);
      const name = Buffer.from(part.saysName ?? part.name);
      put(Buffer.concat([localRecord(name.length, facts), name, packed]));
    }
    const name = Buffer.from(part.name);
    const entry = listRecord(name.length, from, facts);
    if (part.wide) entry.writeUInt16LE(45, 4);
    const extra = Buffer.alloc(part.wide ? 28 : 0);
    if (part.wide) {
      for (const place of [20, 24, 42]) entry.writeUInt32LE(WIDE, place);
      entry.writeUInt16LE(extra.length, 30);
      extra.writeUInt16LE(1, 0);
      extra.writeUInt16LE(24, 2);
      for (const [index, value] of [facts.bytes, facts.packed, from].entries())
        extra.writeBigUInt64LE(BigInt(value), 4 + 8 * index);
    }
    list.push(entry, name, extra);
  }
  const directory = at;
  put(Buffer.concat(list));
  const size = at - directory;
  if (wideEnd) {
    const wide = Buffer.alloc(56 + 20);
    wide.writeUInt32LE(0x06064b50, 0);
    wide.writeBigUInt64LE(44n, 4);
    for (const [place, value] of [
      [24, parts.length],
      [32, parts.length],
      [40, size],
      [48, directory],
    ] as const)
      wide.writeBigUInt64LE(BigInt(value), place);
    wide.writeUInt32LE(0x07064b50, 56);
    wide.writeBigUInt64LE(BigInt(at), 64);
    wide.writeUInt32LE(1, 72);
    put(wide);
  }
  const end = wideEnd ? endRecord(0xffff, WIDE, WIDE) : endRecord(parts.length, size, directory);
  end.writeUInt16LE(comment.length, 20);
  put(Buffer.concat([end, Buffer.from(comment, "latin1")]));
  return new Uint8Array(Buffer.concat(pieces));
}

/** What the records of a part say of it. */
export interface PartFacts {
  readonly crc: number;
  readonly packed: number;
  readonly bytes: number;
  readonly method: number;
  readonly flags: number;
}

/** The record before a part's bytes. */
export function localRecord(nameBytes: number, facts: PartFacts): Buffer {
  const record = Buffer.alloc(30);
  record.writeUInt32LE(0x04034b50, 0);
  shared(record, 4, nameBytes, facts);
  return record;
}

/** A part's record in the list at the end. */
export function listRecord(nameBytes: number, from: number, facts: PartFacts): Buffer {
  const record = Buffer.alloc(46);
  record.writeUInt32LE(0x02014b50, 0);
  record.writeUInt16LE(20, 4);
  shared(record, 6, nameBytes, facts);
  record.writeUInt32LE(from, 42);
  return record;
}

/** The record after the list. */
export function endRecord(parts: number, listBytes: number, listFrom: number): Buffer {
  const record = Buffer.alloc(22);
  record.writeUInt32LE(0x06054b50, 0);
  for (const place of [8, 10]) record.writeUInt16LE(parts, place);
  record.writeUInt32LE(listBytes, 12);
  record.writeUInt32LE(listFrom, 16);
  return record;
}

function shared(
  bytes: Buffer,
  from: number,
  name: number,
  { crc, packed, bytes: size, method, flags }: PartFacts,
): void {
  bytes.writeUInt16LE(20, from);
  bytes.writeUInt16LE(flags, from + 2);
  bytes.writeUInt16LE(method, from + 4);
  bytes.writeUInt32LE(crc, from + 10);
  bytes.writeUInt32LE(packed, from + 14);
  bytes.writeUInt32LE(size, from + 18);
  bytes.writeUInt16LE(name, from + 22);
}

const KIND = "application/vnd.openxmlformats-officedocument.spreadsheetml";
const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE = "http://schemas.openxmlformats.org/package/2006/relationships";

interface BookToWrite {
  /** What stands inside <worksheet>, for one sheet or for several by their names. */
  readonly sheets: Readonly<Record<string, string>>;
  readonly texts?: string;
  readonly styles?: string;
  readonly bookPr?: string;
  readonly states?: Readonly<Record<string, string>>;
}

/** The parts of a workbook whose sheets are given as XML. */
export function partsOfBook({ sheets, texts, styles, bookPr = "", states = {} }: BookToWrite): readonly PartToWrite[] {
  const names = Object.keys(sheets);
  const relation = (id: string, kind: string, target: string) =>
    `<Relationship Id="${id}" Type="${OFFICE}/${kind}" Target="${target}"/>`;
  return [
    {
      name: "[Content_Types].xml",
      text: `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">${[
        ["workbook", "sheet.main"],
        ...names.map((_, at) => [`worksheets/sheet${at + 1}`, "worksheet"]),
        ...(texts === undefined ? [] : [["sharedStrings", "sharedStrings"]]),
        ...(styles === undefined ? [] : [["styles", "styles"]]),
      ]
        .map(([part, kind]) => `<Override PartName="/xl/${part}.xml" ContentType="${KIND}.${kind}+xml"/>`)
        .join("")}</Types>`,
    },
    {
      name: "_rels/.rels",
      text: `<Relationships xmlns="${PACKAGE}">${relation("a", "officeDocument", "xl/workbook.xml")}</Relationships>`,
    },
    {
      name: "xl/_rels/workbook.xml.rels",
      text: `<Relationships xmlns="${PACKAGE}">${names.map((_, at) => relation(`s${at}`, "worksheet", `worksheets/sheet${at + 1}.xml`)).join("")}${texts === undefined ? "" : relation("t", "sharedStrings", "sharedStrings.xml")}${styles === undefined ? "" : relation("y", "styles", "/xl/styles.xml")}</Relationships>`,
    },
    {
      name: "xl/workbook.xml",
      text: `<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}">${bookPr}<sheets>${names.map((name, at) => `<sheet name="${name}" sheetId="${at + 1}" r:id="s${at}"${states[name] ? ` state="${states[name]}"` : ""}/>`).join("")}</sheets></workbook>`,
    },
    ...(texts === undefined ? [] : [{ name: "xl/sharedStrings.xml", text: `<sst xmlns="${MAIN}">${texts}</sst>` }]),
    ...(styles === undefined
      ? []
      : [{ name: "xl/styles.xml", text: `<styleSheet xmlns="${MAIN}">${styles}</styleSheet>` }]),
    ...names.map((name, at) => ({
      name: `xl/worksheets/sheet${at + 1}.xml`,
      text: `<worksheet xmlns="${MAIN}">${sheets[name]}</worksheet>`,
    })),
  ];
}

/** A row of inline texts, as XML. */
export const rowOfTexts = (row: number, texts: readonly string[]): string =>
  `<row r="${row}">${texts.map((text) => `<c t="inlineStr"><is><t>${text}</t></is></c>`).join("")}</row>`;
