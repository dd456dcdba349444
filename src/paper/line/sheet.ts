/** A drawing with the sentence that says the same. */
export interface SheetDrawing {
  readonly svg: string;
  readonly alt: string;
  readonly widthMm: number;
}

/** A value by its name; `note` says what it does not rest on, such as a plan. */
export interface SheetRow {
  readonly label: string;
  readonly value: string;
  readonly note?: string;
}

/** A line of a form: its number on the screen, what is asked, and where the answer goes. */
export interface FormRow {
  readonly number: number;
  readonly label: string;
  readonly kind: "boxes" | "rule";
  readonly options: readonly string[];
  readonly unit: string;
  /** What is known already, as it is printed; empty while nothing is. */
  readonly value: string;
  readonly ticked: readonly string[];
  /** Which of the kinds of missing was written. */
  readonly missing: string;
  readonly note: string;
}

/** The parts a paper is made of. The printer and the page only set them: every word and number is here. */
export type Block =
  | { readonly kind: "heading"; readonly text: string }
  | { readonly kind: "loud"; readonly text: string }
  | { readonly kind: "say"; readonly text: string }
  | { readonly kind: "soft"; readonly text: string }
  | { readonly kind: "list"; readonly items: readonly string[]; readonly numbered: boolean }
  | { readonly kind: "numbers"; readonly items: readonly SheetRow[] }
  | { readonly kind: "rows"; readonly rows: readonly SheetRow[] }
  | {
      readonly kind: "form";
      readonly missing: readonly string[];
      readonly rows: readonly FormRow[];
    }
  | { readonly kind: "boxes"; readonly label: string; readonly options: readonly string[]; readonly ticked: string }
  | { readonly kind: "sign" | "write"; readonly items: readonly string[] }
  | { readonly kind: "typed"; readonly lines: readonly string[]; readonly caption: string }
  | {
      readonly kind: "table";
      readonly head: readonly string[];
      readonly rows: readonly (readonly string[])[];
      /** Widths of the columns against each other. */
      readonly shares: readonly number[];
      /** Many rows of short cells: set close. */
      readonly tight?: true;
      /** A row whose first cell is empty goes with the row above: no rule between them in that column. */
      readonly grouped?: true;
    }
  | { readonly kind: "drawing"; readonly drawing: SheetDrawing; readonly caption: string }
  | {
      readonly kind: "pictures";
      readonly items: readonly { readonly drawing: SheetDrawing; readonly title: string; readonly words: string }[];
    }
  | {
      readonly kind: "columns";
      readonly shares: readonly number[];
      readonly columns: readonly (readonly Block[])[];
    };

/** What a sheet that fills a page is printed on. */
export type PageSize = "A4" | "letter";

/** One page. `cards` are printed twice to the page at A6, to be cut apart; all others fill theirs. */
export interface Sheet {
  readonly paper: string;
  readonly plate: string;
  readonly title: string;
  readonly caption: string;
  readonly name: string;
  readonly identifiers: string;
  readonly arm: string;
  readonly practice: string;
  readonly foot: string;
  readonly page: string;
  readonly size: PageSize | "two A6";
  /** The largest its reading type may be: a sign is read from the door, a list in the hand. */
  readonly typePt: number;
  readonly blocks: readonly Block[];
  /** The same page with less of what is long on it: the first that fits in type that can be read is printed. */
  readonly tighter?: readonly (readonly Block[])[];
}
