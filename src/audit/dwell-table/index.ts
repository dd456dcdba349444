export { dwellTable, foldVersion } from "./dwell-table.ts";
export { linePiece, PIECE } from "./fold-pieces.ts";
export { referralBytes } from "./referral-piece.ts";
export { dayOf, foldedLine, foldedReferral, namedBy, type FoldedLine, type FoldRules } from "./fold-rows.ts";
