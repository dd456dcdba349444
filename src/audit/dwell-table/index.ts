export { dwellTable, FOLD } from "./dwell-table.ts";
export { linePiece, PIECE } from "./fold-pieces.ts";
export { referralBytes } from "./referral-piece.ts";
export { dayOf, foldedLine, foldedReferral, namedBy, type FoldedLine } from "./fold-rows.ts";
