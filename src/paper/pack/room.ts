/** How much of what may be long stands on a page. */
export interface Room {
  /** Rows of one list, and lines named behind one lot. */
  readonly rows: number;
  readonly names: number;
  readonly wards: number;
  readonly changes: number;
  readonly signals: number;
  readonly faults: number;
  /** Parts named behind one warning. */
  readonly guards: number;
  /** Signs of one text that a person typed. */
  readonly signs: number;
  /** Height of one plate of time, without its rows. */
  readonly plot: number;
  readonly elsewhere: boolean;
}

const MOST: Room = {
  rows: 12,
  names: 40,
  wards: 20,
  changes: 6,
  signals: 3,
  faults: 4,
  guards: 6,
  signs: 1200,
  plot: 110,
  elsewhere: true,
};
const CLOSE: Room = { ...MOST, rows: 10, names: 20, wards: 16, guards: 4, signs: 600, plot: 36 };
const SHORT: Room = {
  ...CLOSE,
  rows: 6,
  names: 8,
  wards: 10,
  changes: 4,
  signals: 2,
  faults: 2,
  guards: 2,
  signs: 300,
  plot: 28,
};
const LEAST: Room = { ...SHORT, rows: 3, names: 4, wards: 6, changes: 2, signals: 1, faults: 1, guards: 1, signs: 160 };

/** From most to least: a page is printed as the first of these that fits it in type that can be read. */
export const ROOMS: readonly Room[] = [
  MOST,
  CLOSE,
  { ...CLOSE, rows: 8, wards: 13, plot: 28, elsewhere: false },
  { ...SHORT, elsewhere: false },
  { ...SHORT, rows: 5, wards: 8, signals: 1, elsewhere: false },
  { ...SHORT, rows: 4, names: 6, wards: 7, signals: 1, elsewhere: false, signs: 220 },
  { ...LEAST, elsewhere: false },
  { ...LEAST, rows: 1, names: 2, wards: 3, changes: 1, elsewhere: false, signs: 120 },
];
