import type { DwellLine, DwellPiece, DwellReferral, DwellState, DwellStore } from "../../register/index.ts";

/** The dwell table in memory, as the twin the SQL ones are held to. */
export function memoryDwellStore(): DwellStore {
  let state: DwellState | undefined;
  const lines = new Map<number, DwellLine>();
  const referrals = new Map<number, DwellReferral>();
  const pieces = new Map<string, DwellPiece>();
  const inOrder = <Placed extends { readonly place: number }>(found: Iterable<Placed>): readonly Placed[] =>
    [...found].sort((a, b) => a.place - b.place);
  return {
    state: async () => state,
    pieces: async (kind) => inOrder([...pieces.values()].filter((piece) => piece.kind === kind)),
    piece: async (kind, place) => pieces.get(`${kind} ${place}`)?.data,
    linesBy: async (by, values) => inOrder([...lines.values()].filter((line) => values.includes(line[by]))),
    referralsBy: async (by, values) => inOrder([...referrals.values()].filter((one) => values.includes(one[by]))),
    write: async (change, after) => {
      if (JSON.stringify(state) !== JSON.stringify(after)) return false;
      state = { ...change.state };
      for (const line of change.lines) lines.set(line.place, { ...line });
      for (const referral of change.referrals) referrals.set(referral.place, { ...referral });
      for (const piece of change.pieces)
        pieces.set(`${piece.kind} ${piece.place}`, { ...piece, data: Uint8Array.from(piece.data) });
      return true;
    },
    drop: async () => {
      state = undefined;
      for (const kept of [lines, referrals, pieces]) kept.clear();
    },
  };
}
