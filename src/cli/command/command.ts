import type { CivilDate, Instant } from "../../core/calendar/index.ts";
import type { SheetFile } from "../../spreadsheet/index.ts";

/** 0 answered, 2 a question is open, 3 refused, 64 bad usage, 65 bad input data, 70 a fault of the program itself. */
export type Exit = 0 | 2 | 3 | 64 | 65 | 70;

/** What a call asks for beside its file. */
export interface Asked {
  /** The word before the file, such as the name of a paper; "" where the command takes none. */
  readonly what: string;
  /** The line of a file that holds several, after --line; "" for none. */
  readonly line: string;
  /** Whether the file is to be read back rather than written from. */
  readonly readBack: boolean;
  readonly moment: Instant;
  /** This moment, YYYY-MM-DDThh:mm:ssZ. */
  readonly stamp: string;
  /** The address of the record. */
  readonly store: string;
  /** The text of the service's own events, named after --memory. */
  readonly memory?: string;
}

export interface Said {
  readonly exit: Exit;
  readonly output: string;
}

export interface Command {
  readonly name: string;
  readonly summary: string;
  readonly usage: string;
  /** What --help says of this command beside its usage: the words that its options take. */
  readonly explains?: () => readonly string[];
  readonly run: (
    input: {
      readonly text: string;
      readonly argument: string;
      readonly json: boolean;
      readonly today: CivilDate;
      /** The text of the drug list named beside the file. */
      readonly list?: string;
      /** Values of the options the command names, without their dashes. */
      readonly options: Readonly<Record<string, string>>;
      /** Every file named, for a command that reads several; the first is `text`. */
      readonly texts: readonly { readonly name: string; readonly text: string }[];
    } & Asked,
  ) => Said | Promise<Said>;
  /** Writes the same answer as a tagged PDF, where the command has a paper. */
  readonly pdf?: (
    text: string,
    printedAt: string,
    asked: Asked & {
      readonly today: CivilDate;
      readonly options: Readonly<Record<string, string>>;
      readonly texts: readonly { readonly name: string; readonly text: string }[];
    },
  ) => Promise<Uint8Array | undefined>;
  /** Whether the argument names a file to read, or "-" for standard input. */
  readonly readsFile: boolean;
  /** Whether --store may stand in the place of the file: the record itself is read. */
  readonly readsRecord?: true;
  /** Whether a drug list may be named beside the file. */
  readonly readsList?: true;
  /** Whether the service's own events may be named beside the file, after --memory. */
  readonly readsMemory?: true;
  /** The words of which one stands before the file. */
  readonly takes?: readonly string[];
  /** Whether a line may be picked with --line. */
  readonly picksLine?: true;
  /** Whether --read reads back what the command writes. */
  readonly readsBack?: true;
  /** Options that take one value, such as "--from". */
  readonly options?: readonly string[];
  /** Whether several files may be named. */
  readonly readsSeveral?: true;
  /** Options without a value, besides --json and --help. */
  readonly flags?: readonly string[];
  /** Reads its file in pieces instead of as one text, for a file too large to hold. */
  readonly stream?: (call: StreamCall) => Promise<Said>;
}

export interface StreamCall {
  readonly file: SheetFile;
  readonly json: boolean;
  readonly today: CivilDate;
  readonly options: Readonly<Record<string, string>>;
  readonly flags: readonly string[];
  readonly read: (name: string) => string;
  /** Begins a file that is written piece by piece. */
  readonly begin: (name: string) => FileInPieces;
}

/** A file that grows: what was given is written, and no more is held than a piece. */
export interface FileInPieces {
  readonly add: (text: string) => void;
  readonly end: () => void;
}
