export { dwellTable, FOLD } from "./dwell-table.ts";
export { linePiece, PIECE } from "./fold-pieces.ts";
export { referralBytes } from "./referral-piece.ts";
