/** Rows that the question before the arm reads; the plan reads the rest, and each set is moved by its own test. */
export const isNeedRow = (key: string): boolean =>
  /^(device|infusate|kidney|bleeding|culture|device-rule)\.|^expiry\.creatinine/.test(key);

/** Rows that the flow model assumes. */
export const isFlowRow = (key: string): boolean => key.startsWith("flow.");

/** Rows of looking after a line and of its complications. */
export const isCareRow = (key: string): boolean => /^(care|complication)\./.test(key);

/** Rows that a film and a release for use read. */
export const isLineRow = (key: string): boolean => /^(tip|release)\./.test(key);

/** Rows of counting. */
export const isCountRow = (key: string): boolean => key.startsWith("count.");

/** Rows that a spreadsheet is held against. */
export const isSheetRow = (key: string): boolean => key.startsWith("sheet.");

/** Rows of the later rules of the record's quality. */
export const isQualityRow = (key: string): boolean => key.startsWith("quality.");

/** Rows that the papers of a line carry; test/specification/line-papers moves them. */
export const isPaperRow = (key: string): boolean => key.startsWith("paper.");
