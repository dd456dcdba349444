import type { DwellLine, DwellPiece, DwellReferral, DwellState, EventStore, Subject } from "../../register/index.ts";
import type { LineRow } from "../line/index.ts";
import { packRows, rowAt, type PackedLines } from "../packed/index.ts";
import { momentOfInstant } from "../line/index.ts";
import { foldLine, foldReferral, plainKey, type FoldScene } from "./fold-rows.ts";
import { joinPieces } from "./join-pieces.ts";
import { pieceBytes, readPiece } from "./piece.ts";
import { readReferralPiece, referralBytes } from "./referral-piece.ts";
import { packReferrals } from "../packed/index.ts";

/**
 * Places to a piece. Larger pieces are read no faster, and a line that changes costs its whole piece: at 1024 a change
 * takes some milliseconds and a million lines are a thousand reads.
 */
export const PIECE = 1024;
/** Places folded before they are written: a stop half-way keeps what was done. */
const AT_ONCE = 8 * PIECE;

type Scene = Omit<FoldScene, "store"> & { readonly store: EventStore };
interface PlacedLine {
  readonly place: number;
  readonly subject: string;
  readonly before: DwellLine | undefined;
}

/**
 * Folds lines anew and writes their pieces; undefined where another process wrote meanwhile. The position stays where it
 * was until everything is folded: a stop before that folds again and loses nothing.
 */
export async function foldLines(
  { known, fresh }: { readonly known: readonly DwellLine[]; readonly fresh: readonly Subject[] },
  kept: DwellState | undefined,
  start: DwellState,
  scene: Scene,
): Promise<{ readonly state: DwellState; readonly referrals: ReadonlySet<Subject> } | undefined> {
  const { dwell } = scene.store;
  let [state, after] = [start, kept];
  const referrals = new Set<Subject>();
  const all: readonly PlacedLine[] = [
    ...known.map((before): PlacedLine => ({ ...before, before })).sort((a, b) => a.place - b.place),
    ...fresh.map((subject, at): PlacedLine => ({ place: start.lines + at, subject, before: undefined })),
  ];
  for (let from = 0; from < all.length; from += AT_ONCE) {
    const part = all.slice(from, from + AT_ONCE);
    const folded = [];
    for (const line of part) folded.push({ ...line, ...(await foldLine(line.subject as Subject, scene)) });
    for (const { before, referral } of folded)
      for (const named of [before?.referral ?? "", referral]) if (named !== "") referrals.add(`referral:${named}`);
    const numbers = await personsOf(
      folded.map(({ patient, subject }) => patientKey(patient, subject)),
      state.people,
      scene.store,
    );
    // only places that are written are given out: after a stop half-way no piece is missing
    const given = part.filter(({ before }) => before === undefined).length;
    state = { ...state, lines: state.lines + given, people: numbers.next };
    const lines = folded.map(({ place, subject, patient, referral, restless }): DwellLine => {
      const person = patientKey(patient, subject);
      return { place, subject, patient: person, person: numbers.of(person), referral, restless };
    });
    const pieces = await piecesWith(
      folded.map(({ row }, at) => ({ ...(lines[at] as DwellLine), row })),
      scene.store,
    );
    if (!(await dwell.write({ state, lines, referrals: [], pieces }, after))) return undefined;
    after = state;
  }
  if (all.length === 0 && kept === undefined) {
    if (!(await dwell.write({ state, lines: [], referrals: [], pieces: [] }, undefined))) return undefined;
  }
  return { state, referrals };
}

/** A line whose patient nobody wrote is a person of its own. */
const patientKey = (patient: string, subject: string): string => (patient === "" ? plainKey("line", subject) : patient);

/** The number of each patient: the one it has, or the next. */
async function personsOf(
  patients: readonly string[],
  next: number,
  { dwell }: EventStore,
): Promise<{ readonly of: (patient: string) => number; readonly next: number }> {
  const numbers = new Map<string, number>();
  const asked = [...new Set(patients)];
  for (const { patient, person } of await dwell.linesBy("patient", asked)) numbers.set(patient, person);
  let free = next;
  for (const patient of asked) {
    if (numbers.has(patient)) continue;
    numbers.set(patient, free);
    free += 1;
  }
  return { of: (patient) => numbers.get(patient) as number, next: free };
}

/** The pieces that hold some places, with those lines as they are now and all others as they were. */
async function piecesWith(
  lines: readonly (Pick<DwellLine, "place" | "person"> & { readonly row: LineRow | undefined })[],
  { dwell }: EventStore,
): Promise<readonly DwellPiece[]> {
  const pieces: DwellPiece[] = [];
  for (const [place, own] of byPiece(lines)) {
    const data = await dwell.piece("line", place);
    const rows = new Map<number, { readonly row: LineRow; readonly person: number }>();
    if (data) for (const one of rowsOf(data)) rows.set(one.slot, one);
    for (const { place: at, row, person } of own) {
      if (row) rows.set(at % PIECE, { row, person });
      else rows.delete(at % PIECE);
    }
    pieces.push(linePiece(place, rows));
  }
  return pieces;
}

/** One piece of lines, each in its slot with the number of its person. */
export function linePiece(
  place: number,
  rows: ReadonlyMap<number, { readonly row: LineRow; readonly person: number }>,
): DwellPiece {
  const inOrder = [...rows].sort(([a], [b]) => a - b);
  const packed = packRows({ asOf: NO_TIME, lines: inOrder.map(([, { row }]) => row), referrals: [] });
  return {
    kind: "line",
    place,
    data: pieceBytes(
      packed,
      inOrder.map(([slot]) => slot),
      inOrder.map(([, { person }]) => person),
    ),
  };
}

/** A piece knows no moment of its own. */
const NO_TIME: PackedLines["asOf"] = momentOfInstant("1970-01-01T00:00+00:00" as Parameters<typeof momentOfInstant>[0]);

function rowsOf(
  data: Uint8Array,
): readonly { readonly slot: number; readonly row: LineRow; readonly person: number }[] {
  const packed = joinPieces([data], NO_TIME, packReferrals([]));
  const { slots, person } = readPiece(data);
  return Array.from({ length: packed.count }, (_, at) => ({
    slot: slots[at] as number,
    row: rowAt(packed, at),
    person: person[at] as number,
  }));
}

function byPiece<Placed extends { readonly place: number }>(lines: readonly Placed[]): ReadonlyMap<number, Placed[]> {
  const pieces = new Map<number, Placed[]>();
  for (const line of lines) {
    const place = Math.floor(line.place / PIECE);
    const own = pieces.get(place);
    if (own) own.push(line);
    else pieces.set(place, [line]);
  }
  return pieces;
}

/**
 * Folds referrals anew, after the lines that name them; a referral that a line names and nobody wrote has no events and
 * is passed over. Undefined where another process wrote meanwhile. */
export async function foldReferrals(
  subjects: readonly Subject[],
  start: DwellState,
  scene: Scene,
): Promise<DwellState | undefined> {
  const { dwell } = scene.store;
  const known = new Map((await dwell.referralsBy("subject", subjects)).map(({ subject, place }) => [subject, place]));
  const named = new Set(
    (
      await dwell.linesBy(
        "referral",
        subjects.map((subject) => plainKey("referral", subject)),
      )
    ).map(({ referral }) => referral),
  );
  const fresh: DwellReferral[] = [];
  const folded = [];
  for (const subject of subjects) {
    const row = await foldReferral(subject, named.has(plainKey("referral", subject)), scene);
    const place = known.get(subject) ?? start.referrals + fresh.length;
    if (!known.has(subject)) fresh.push({ place, subject });
    folded.push({ place, row });
  }
  const pieces: DwellPiece[] = [];
  for (const [place, own] of byPiece(folded)) {
    const data = await dwell.piece("referral", place);
    const rows = new Map((data ? readReferralPiece(data) : []).map(({ slot, row }) => [slot, row]));
    for (const { place: at, row } of own) {
      if (row) rows.set(at % PIECE, row);
      else rows.delete(at % PIECE);
    }
    const placed = [...rows].sort(([a], [b]) => a - b).map(([slot, row]) => ({ slot, row }));
    pieces.push({ kind: "referral", place, data: referralBytes(placed) });
  }
  const state = { ...start, referrals: start.referrals + fresh.length };
  return (await dwell.write({ state, lines: [], referrals: fresh, pieces }, start)) ? state : undefined;
}
