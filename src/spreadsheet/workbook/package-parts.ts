import type { DateSystem } from "../file/date-serial.ts";
import { FILE_LIMITS } from "../file/limits.ts";
import { Refused } from "../file/refusal.ts";
import type { CancelSign, SheetFile } from "../file/sheet-file.ts";
import { readXml } from "./xml-pieces.ts";
import { zipDirectory, type ZipPart } from "./zip-directory.ts";

/** A sheet by its name, the part that holds it, and whether the program hides it. */
export interface SheetPart {
  readonly name: string;
  readonly hidden: boolean;
  readonly part: ZipPart;
}

/** The parts of a workbook that a table of text, numbers and dates needs; all others are never opened. */
export interface PackageParts {
  readonly dateSystem: DateSystem;
  readonly sheets: readonly SheetPart[];
  readonly texts: ZipPart | undefined;
  readonly styles: ZipPart | undefined;
}

interface Relation {
  readonly id: string;
  readonly type: string;
  readonly target: string;
}

/**
 * Finds the parts of a workbook by its relations, as the standard says, and refuses what is no plain workbook.
 * Source: ECMA-376 part 1, 12.3 (parts), 18.2.19 and 18.2.20 (sheets), 18.2.28 (date1904), 18.18.68 (hidden);
 * part 2, 9.3 (relations) and 9.1.1 (names of parts) (from memory).
 */
export async function packageParts(file: SheetFile, cancel: CancelSign): Promise<PackageParts> {
  const parts = await zipDirectory(file);
  const byName = new Map(parts.map((part) => [part.name.toLowerCase(), part]));
  const named = (pattern: RegExp) => parts.some(({ name }) => pattern.test(name));
  if (named(/vbaProject\.bin$|(^|\/)macrosheets\//i)) throw new Refused("macro-workbook");
  if (named(/(^|\/)externalLinks\//i)) throw new Refused("external-links");
  if (named(/^xl\/workbook\.bin$/i)) throw new Refused("binary-workbook");
  if (named(/^content\.xml$/i) && named(/^META-INF\/manifest\.xml$/i)) throw new Refused("open-document");
  const found = (name: string): ZipPart => {
    const part = byName.get(name.toLowerCase());
    if (!part) throw new Refused("zip-damaged", `${name} is not in it`);
    return part;
  };
  const relations = async (name: string): Promise<readonly Relation[]> => {
    const part = byName.get(relationsOf(name).toLowerCase());
    return part ? readRelations(file, part, folderOf(name), cancel) : [];
  };
  const types = byName.get("[content_types].xml");
  if (types) await refuseMacros(file, types, cancel);
  const root = (await relations("")).find(({ type }) => type.endsWith("/officeDocument"));
  const bookName = root?.target ?? "xl/workbook.xml";
  const book = byName.get(bookName.toLowerCase());
  if (!book) throw new Refused("not-a-workbook", parts[0]?.name ?? "an empty zip");
  const { dateSystem, sheets } = await readBook(file, book, cancel);
  const own = await relations(book.name);
  const single = (kind: string) => {
    const one = own.find(({ type }) => type.endsWith(`/${kind}`));
    return one && found(one.target);
  };
  const seen = new Set<string>();
  // a sheet under two names is read twice, and a hundred thousand names for one make a bomb of a small file
  const once = (what: string, sheet: string) => {
    if (seen.has(what)) throw new Refused("zip-damaged", `the sheet ${sheet} stands twice`);
    seen.add(what);
  };
  return {
    dateSystem,
    sheets: sheets.flatMap(({ name, hidden, relation }) => {
      once(`name ${name.toLowerCase()}`, name);
      once(`relation ${relation}`, name);
      const to = own.find(({ id }) => id === relation);
      if (!to) throw new Refused("zip-damaged", `the sheet ${name} is not in it`);
      // a sheet of one chart or of an old dialog holds no table
      if (!to.type.endsWith("/worksheet")) return [];
      const part = found(to.target);
      once(`part ${part.name}`, name);
      return [{ name, hidden, part }];
    }),
    texts: single("sharedStrings"),
    styles: single("styles"),
  };
}

async function refuseMacros(file: SheetFile, part: ZipPart, cancel: CancelSign): Promise<void> {
  await readXml(
    file,
    part,
    FILE_LIMITS.smallPartBytes,
    (token, xml) => {
      // programs list the kinds of macros they know in every workbook; only a part that is of such a kind holds any
      if (
        token === "open" &&
        xml.name === "Override" &&
        /macroEnabled\.main\+xml/i.test(xml.attribute("ContentType") ?? "")
      )
        throw new Refused("macro-workbook");
    },
    cancel,
  );
}

async function readRelations(
  file: SheetFile,
  part: ZipPart,
  folder: string,
  cancel: CancelSign,
): Promise<readonly Relation[]> {
  const found: Relation[] = [];
  await readXml(
    file,
    part,
    FILE_LIMITS.smallPartBytes,
    (token, xml) => {
      if (token !== "open" || xml.name !== "Relationship" || xml.attribute("TargetMode") === "External") return;
      const target = xml.attribute("Target") ?? "";
      found.push({
        id: xml.attribute("Id") ?? "",
        type: xml.attribute("Type") ?? "",
        target: resolved(folder, target),
      });
    },
    cancel,
  );
  return found;
}

async function readBook(
  file: SheetFile,
  part: ZipPart,
  cancel: CancelSign,
): Promise<{
  readonly dateSystem: DateSystem;
  readonly sheets: readonly { readonly name: string; readonly hidden: boolean; readonly relation: string }[];
}> {
  let dateSystem: DateSystem = 1900;
  const sheets: { readonly name: string; readonly hidden: boolean; readonly relation: string }[] = [];
  let inSheets = false;
  await readXml(
    file,
    part,
    FILE_LIMITS.smallPartBytes,
    (token, xml) => {
      if (xml.depth === 1 && token === "open" && xml.name !== "workbook") throw new Refused("not-a-workbook", xml.name);
      if (xml.depth === 2) inSheets = token === "open" && xml.name === "sheets";
      if (token !== "open") return;
      if (xml.depth === 2 && xml.name === "workbookPr") dateSystem = isTrue(xml.attribute("date1904")) ? 1904 : 1900;
      if (!inSheets || xml.depth !== 3 || xml.name !== "sheet") return;
      const state = xml.attribute("state") ?? "visible";
      sheets.push({
        name: xml.attribute("name") ?? "",
        hidden: state !== "visible",
        relation: xml.attribute(":id") ?? "",
      });
    },
    cancel,
  );
  return { dateSystem, sheets };
}

/** W3C XML Schema part 2, 3.2.2: true is written in two ways. */
export const isTrue = (text: string | undefined): boolean => text === "1" || text === "true";

const folderOf = (name: string): string => name.slice(0, name.lastIndexOf("/") + 1);
const relationsOf = (name: string): string => `${folderOf(name)}_rels/${name.slice(name.lastIndexOf("/") + 1)}.rels`;

/** The name of a part from a target written beside another part; above the top there is nothing. */
function resolved(folder: string, target: string): string {
  const steps = (target.startsWith("/") ? target : `${folder}${target}`).split("/");
  const path: string[] = [];
  for (const step of steps) {
    if (step === "..") path.pop();
    else if (step !== "" && step !== ".") path.push(step);
  }
  return path.join("/");
}
