import { FILE_LIMITS } from "../file/limits.ts";
import { Refused } from "../file/refusal.ts";
import type { SheetRow } from "../file/sheet-file.ts";
import { cellPlace } from "./cell-place.ts";
import { cellText, type CellGround } from "./cell-text.ts";
import { isTrue } from "./package-parts.ts";
import type { XmlReader } from "./xml-reader.ts";

/** Where in a sheet the reading is. */
type Within = "sheet" | "columns" | "rows" | "row" | "cell" | "merged";

/** What a sheet says about itself beside its cells. */
export interface SheetSaid {
  /** Rows by its own account; it need not be true. */
  readonly rows: number | undefined;
  readonly hiddenColumns: readonly number[];
  /** Cells that stand for several, as far as they are counted; told after the last row. */
  readonly merged: readonly { readonly row: number; readonly found: string }[];
}

/**
 * Takes the rows of one sheet out of its XML, in their order. Rows and cells may leave their names out and then follow
 * each other; a row or a cell that stands twice or goes back is refused, for two readers would see two tables.
 * Source: ECMA-376 part 1, 18.3.1.4 (c), 18.3.1.13 (col), 18.3.1.35 (dimension), 18.3.1.40 (f), 18.3.1.53 (is),
 * 18.3.1.55 (mergeCell), 18.3.1.73 (row), 18.3.1.80 (sheetData), 18.3.1.96 (v) (from memory).
 */
export class SheetCells {
  rows: SheetRow[] = [];
  private within: Within = "sheet";
  private seenRows = false;
  private readonly ground: CellGround;
  private readonly hiddenColumns: number[] = [];
  private readonly merged: { readonly row: number; readonly found: string }[] = [];
  private saidRows: number | undefined;

  private row = 0;
  private hidden = false;
  private cells: string[] = [];
  private rowCharacters = 0;
  private formulas: number[] = [];
  private unworked: number[] = [];
  private column = 0;
  private type = "";
  private style = 0;
  private value = "";
  private hasFormula = false;
  private hasValue = false;
  private inValue = false;
  private spoken = false;

  constructor(ground: CellGround) {
    this.ground = ground;
  }

  said(): SheetSaid {
    return { rows: this.saidRows, hiddenColumns: this.hiddenColumns, merged: this.merged };
  }

  /** Takes every token there is. */
  take(xml: XmlReader): void {
    for (let token = xml.next(); token !== "more" && token !== "end"; token = xml.next()) {
      if (token === "text") {
        if (!this.inValue) continue;
        this.value += xml.read();
        if (this.value.length > FILE_LIMITS.cellCharacters)
          throw new Refused("cell-too-large", `${this.value.length} characters`, this.row);
      } else if (token === "open") {
        this.open(xml);
        if (xml.empty) this.close(xml);
      } else this.close(xml);
    }
  }

  private open(xml: XmlReader): void {
    const { name, depth } = xml;
    if (depth >= 5) {
      if (this.within === "cell") this.openInCell(name, depth);
    } else if (depth === 4) {
      if (this.within === "row" && name === "c") this.openCell(xml);
    } else if (depth === 3) {
      if (this.within === "rows" && name === "row") this.openRow(xml);
      else if (this.within === "merged" && name === "mergeCell") this.takeMerged(xml.attribute("ref") ?? "");
      else if (this.within === "columns" && name === "col" && isTrue(xml.attribute("hidden"))) this.takeHidden(xml);
    } else if (depth === 2) this.openInSheet(xml);
    else if (name !== "worksheet") throw new Refused("not-a-workbook", name);
  }

  private openInSheet(xml: XmlReader): void {
    if (xml.name === "sheetData") {
      if (this.seenRows) throw new Refused("out-of-order", "two tables in one sheet");
      this.seenRows = true;
      this.within = "rows";
    } else if (xml.name === "cols") this.within = "columns";
    else if (xml.name === "mergeCells") this.within = "merged";
    else if (xml.name === "dimension") {
      const [first = "", last = first] = (xml.attribute("ref") ?? "").split(":");
      this.saidRows = cellPlace(last)?.row;
    }
  }

  private openRow(xml: XmlReader): void {
    const said = xml.attribute("r");
    const row = said === undefined ? this.row + 1 : Number(said);
    if (!Number.isInteger(row) || row < 1 || row > FILE_LIMITS.lastRow) throw new Refused("not-a-table", `row ${said}`);
    if (row <= this.row) throw new Refused("out-of-order", `row ${row} after row ${this.row}`, row);
    this.row = row;
    this.hidden = isTrue(xml.attribute("hidden"));
    this.cells = [];
    this.rowCharacters = 0;
    this.formulas = [];
    this.unworked = [];
    this.column = 0;
    this.within = "row";
  }

  private openCell(xml: XmlReader): void {
    const said = xml.attribute("r");
    let column = this.column + 1;
    if (said !== undefined) {
      const place = cellPlace(said);
      if (place?.row !== this.row) throw new Refused("out-of-order", `cell ${said} in row ${this.row}`, this.row);
      ({ column } = place);
    }
    if (column <= this.column)
      throw new Refused("out-of-order", `cell ${said ?? ""} stands twice or goes back`, this.row);
    this.column = column;
    this.type = xml.attribute("t") ?? "";
    this.style = Number(xml.attribute("s") ?? 0);
    this.value = "";
    this.hasFormula = false;
    this.hasValue = false;
    this.inValue = false;
    this.spoken = false;
    this.within = "cell";
  }

  private openInCell(name: string, depth: number): void {
    if (depth === 5) {
      if (name === "f") this.hasFormula = true;
      const own = this.type === "inlineStr" ? "is" : "v";
      // a text where its type says there is none: one reader shows it, another a blank
      if (name !== own && (name === "is" || name === "v"))
        throw new Refused(
          "zip-damaged",
          `a cell read two ways: ${name} in a cell of type ${this.type || "n"}`,
          this.row,
        );
      this.inValue = name === own;
      // two values would be read as one number of both
      if (this.inValue && this.hasValue) throw new Refused("zip-damaged", "a cell of two values", this.row);
      this.hasValue ||= this.inValue;
      this.inValue &&= name === "v";
    } else if (this.type !== "inlineStr" && this.inValue)
      throw new Refused("zip-damaged", `${name} in a value`, this.row);
    else if (name === "rPh") this.spoken = true;
    else if (name === "t") this.inValue = this.type === "inlineStr" && !this.spoken;
  }

  private close({ name, depth }: XmlReader): void {
    if (depth >= 5) {
      if (name === "rPh") this.spoken = false;
      this.inValue = false;
    } else if (depth === 4) {
      if (this.within === "cell") this.closeCell();
    } else if (depth === 3) {
      if (this.within === "row") this.closeRow();
    } else this.within = "sheet";
  }

  private closeCell(): void {
    this.within = "row";
    if (this.hasFormula && this.column <= FILE_LIMITS.columns)
      (this.hasValue ? this.formulas : this.unworked).push(this.column - 1);
    const text = this.value === "" ? "" : cellText(this.type, this.value, this.style, this.ground, this.row);
    // a cell that has only a look is not there: whole rows are often coloured to the last column
    if (text === "") return;
    if (this.column > FILE_LIMITS.columns) throw new Refused("too-many-columns", this.column, this.row);
    const { cells } = this;
    while (cells.length < this.column - 1) cells.push("");
    cells.push(text);
    this.rowCharacters += text.length;
    if (this.rowCharacters > FILE_LIMITS.rowCharacters)
      throw new Refused("cell-too-large", `${this.rowCharacters} characters in one row`, this.row);
  }

  private closeRow(): void {
    this.within = "rows";
    const { row, cells, formulas, unworked, hidden } = this;
    if (cells.length === 0) return;
    const formulaAt = formulas.filter((at) => at < cells.length);
    this.rows.push({
      row,
      cells,
      ...(formulaAt.length > 0 ? { formulaAt } : {}),
      ...(unworked.length > 0 ? { unworkedAt: unworked } : {}),
      ...(hidden ? { hidden: true as const } : {}),
    });
  }

  private takeMerged(ref: string): void {
    const [first = "", last = first] = ref.split(":");
    const place = cellPlace(first);
    if (!place || !cellPlace(last)) throw new Refused("zip-damaged", `merged ${ref}`);
    if (this.merged.length < FILE_LIMITS.mergedTold) this.merged.push({ row: place.row, found: ref });
  }

  private takeHidden(xml: XmlReader): void {
    const first = Number(xml.attribute("min"));
    const last = Math.min(Number(xml.attribute("max")), FILE_LIMITS.columns);
    for (let column = first; column >= 1 && column <= last; column += 1)
      if (this.hiddenColumns.length < FILE_LIMITS.columns) this.hiddenColumns.push(column - 1);
  }
}
