/** Bounds of a machine, not of medicine: what one file may ask of memory. A file beyond them is refused in words. */
export const FILE_LIMITS = {
  /** The last row a workbook can have (ECMA-376 implementations, from memory). */
  lastRow: 1_048_576,
  csvBytes: 2_000_000_000,
  workbookBytes: 60_000_000,
  /** All parts together once they are unpacked. */
  unpackedBytes: 300_000_000,
  /** A plain sheet packs ten to sixty times; the packing allows about a thousand. */
  packingRatio: 200,
  /** Small parts may pack well by chance; the ratio is judged above this size. */
  ratioFromBytes: 5_000_000,
  zipParts: 1_000,
  columns: 500,
  cellCharacters: 100_000,
} as const;
