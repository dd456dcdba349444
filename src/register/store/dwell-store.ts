/** How far the dwell table is folded, by which fold, and the numbers given out so far. */
export interface DwellState {
  /** The name of the fold that wrote it; another fold starts anew. */
  readonly version: string;
  /** Position of the last event that is in it. */
  readonly position: number;
  /** The moment it was last brought up to, for what the clock alone changes. */
  readonly asOf: string;
  /** Places given out to lines and referrals, and numbers given out to patients. */
  readonly lines: number;
  readonly referrals: number;
  readonly people: number;
}

/** What must be known of a line to find it again when something it rests on changes. */
export interface DwellLine {
  /** The order in which lines first came into the record. */
  readonly place: number;
  readonly subject: string;
  readonly patient: string;
  /** The patient as a number; never given to another. */
  readonly person: number;
  readonly referral: string;
  /** 1 changes with the day, 2 with the minute, 0 only with an event. */
  readonly restless: 0 | 1 | 2;
}

export interface DwellReferral {
  readonly place: number;
  readonly subject: string;
}

/** A piece of the table: some lines, or some referrals, as packed columns. */
export interface DwellPiece {
  readonly kind: "line" | "referral";
  readonly place: number;
  readonly data: Uint8Array;
}

export interface DwellChange {
  readonly state: DwellState;
  readonly lines: readonly DwellLine[];
  readonly referrals: readonly DwellReferral[];
  readonly pieces: readonly DwellPiece[];
}

/**
 * Where the dwell table of the record is kept: a projection of the events, in pieces. It is never the truth: it can be
 * dropped at any time, and is then folded again. One contract suite runs on every implementation.
 */
export interface DwellStore {
  state(): Promise<DwellState | undefined>;
  /** All pieces of a kind, in order of place. */
  pieces(kind: DwellPiece["kind"]): Promise<readonly DwellPiece[]>;
  piece(kind: DwellPiece["kind"], place: number): Promise<Uint8Array | undefined>;
  linesBy(
    by: "subject" | "patient" | "referral" | "place" | "restless",
    values: readonly (string | number)[],
  ): Promise<readonly DwellLine[]>;
  referralsBy(by: "subject" | "place", values: readonly (string | number)[]): Promise<readonly DwellReferral[]>;
  /** Writes all or nothing; false, and nothing written, where another has written since `after` was read. */
  write(change: DwellChange, after: DwellState | undefined): Promise<boolean>;
  drop(): Promise<void>;
}
