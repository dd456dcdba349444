import type { CivilDate } from "../../core/calendar/index.ts";

/** 0 answered, 2 a question is open, 3 refused, 64 bad usage, 65 bad input data. */
export type Exit = 0 | 2 | 3 | 64 | 65;

interface Said {
  readonly exit: Exit;
  readonly output: string;
}

export interface Command {
  readonly name: string;
  readonly summary: string;
  readonly usage: string;
  readonly run: (input: {
    readonly text: string;
    readonly argument: string;
    readonly json: boolean;
    readonly today: CivilDate;
    /** The text of the drug list named beside the file. */
    readonly list?: string;
    /** The address of the record. */
    readonly store?: string;
    /** The folder or address named after --to. */
    readonly to?: string;
    /** This moment, YYYY-MM-DDThh:mm:ssZ. */
    readonly stamp?: string;
  }) => Said | Promise<Said>;
  /** Writes the same answer as a tagged PDF, where the command has a paper. */
  readonly pdf?: (text: string, printedAt: string) => Promise<Uint8Array | undefined>;
  /** Whether the argument names a file to read, or "-" for standard input. */
  readonly readsFile: boolean;
  /** Whether --store and --to may be given. */
  readonly readsStore?: true;
  /** Whether a drug list may be named beside the file. */
  readonly readsList?: true;
}
