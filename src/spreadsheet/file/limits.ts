/** Bounds of a machine, not of medicine: what one file may ask of memory. A file beyond them is refused in words. */
export const FILE_LIMITS = {
  /** The last row a workbook can have (ECMA-376 implementations, from memory). */
  lastRow: 1_048_576,
  csvBytes: 2_000_000_000,
  /** A workbook as it stands on the disk; it is read by random access and never held. */
  workbookBytes: 1_000_000_000,
  /** One sheet unpacked: a million rows of twenty columns are about 0.7 GB. */
  sheetBytes: 4_000_000_000,
  /** The shared texts as they are held, eight bytes for each of them included, and the part they are read from. */
  sharedBytes: 200_000_000,
  sharedPartBytes: 2_000_000_000,
  stylesBytes: 30_000_000,
  /** The lists of parts, of relations and of sheets. */
  smallPartBytes: 5_000_000,
  directoryBytes: 5_000_000,
  /** Merged cells that are told one by one. */
  mergedTold: 1_000,
  /** Faults of one kind that a preview keeps; all of them are counted, and written out by a second reading. */
  faultsKept: 100,
  /** Lines changed since an earlier import that a preview keeps. */
  changesKept: 1_000,
  /** A plain sheet packs ten to sixty times; the packing allows about a thousand. */
  packingRatio: 200,
  /** Small parts may pack well by chance; the ratio is judged above this size. */
  ratioFromBytes: 5_000_000,
  zipParts: 1_000,
  columns: 500,
  cellCharacters: 100_000,
  rowCharacters: 400_000,
  /** The first rows that are held to be looked at. */
  sampleCharacters: 4_000_000,
} as const;
