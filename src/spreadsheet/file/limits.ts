/** Bounds of a machine, not of medicine: what one file may ask of memory. A file beyond them is refused in words. */
export const FILE_LIMITS = {
  /** The last row a workbook can have (ECMA-376 implementations, from memory). */
  lastRow: 1_048_576,
  csvBytes: 2_000_000_000,
  workbookBytes: 60_000_000,
  /**
   * All parts together once they are unpacked. A workbook is held whole while it is read, at eleven to thirteen bytes for
   * each of these (measured: 89 MB took 1.0 GB); so this holds it under 0.8 GB, with 165,000 rows of ten columns.
   */
  unpackedBytes: 60_000_000,
  /** A plain sheet packs ten to sixty times; the packing allows about a thousand. */
  packingRatio: 200,
  /** Small parts may pack well by chance; the ratio is judged above this size. */
  ratioFromBytes: 5_000_000,
  zipParts: 1_000,
  columns: 500,
  cellCharacters: 100_000,
} as const;
