import { stayInMinutes } from "../../core/dwell/index.ts";
import { incidenceLimits, occupationAt, stateOccupation } from "../../core/survival/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import type { LineFacts } from "../line/index.ts";
import { clockOf } from "./time-to-event.ts";

/** Where a line can be; it may block, run again and block anew. Out holds removal and hand-over. */
const LINE_STATES = ["never blocked", "blocked", "running again", "out"] as const;
export type LineState = (typeof LINE_STATES)[number];
const [NEVER, BLOCKED, AGAIN, OUT] = [0, 1, 2, 3] as const;

export interface StateShare {
  readonly state: LineState;
  readonly share: number;
  /** Absent where all or none are there. */
  readonly lower: number | undefined;
  readonly upper: number | undefined;
}

export interface StatesDay {
  readonly day: number;
  /** Lines in and watched on that day. */
  readonly watched: number;
  /** Too few watched: drawn no further. */
  readonly grey: boolean;
  readonly shares: readonly StateShare[];
}

export type LineStates = { readonly used: number; readonly given: number; readonly blocks: number } & (
  | {
      /** Nobody wrote when a blocked line ran again, so that every block would last for ever. */
      readonly kind: "clearing never written";
    }
  | { readonly kind: "too few blocks"; readonly fewest: number }
  | { readonly kind: "told"; readonly cleared: number; readonly days: readonly StatesDay[] }
);

interface Stays {
  readonly entry: number[];
  readonly exit: number[];
  readonly from: number[];
  readonly to: number[];
}

const MINUTES_A_DAY = 1440;
const SHORTEST = 1 / MINUTES_A_DAY;

/**
 * Of a hundred lines, how many are running and were never blocked, blocked, running again, or out, by the day since
 * insertion.
 *   Aalen-Johansen over states that are left and come back to (`stateOccupation`), limits on the log-log scale of each share
 * Units: days, shares of one. Holds: lines with a stay; a line in place or lost is watched to its last known moment. A block that
 * nobody wrote the end of lasts until the line is out. Fewer blocks than the policy's least, or no end of any block written:
 * no shares. Source: as `stateOccupation`; limits as `incidenceLimits`. Example: test/specification/line-states.test.ts.
 */
export function lineStates(
  all: readonly LineFacts[],
  days: readonly number[],
  { level, fewestForEstimate, atRiskLeast }: Pick<CountLimits, "level" | "fewestForEstimate" | "atRiskLeast">,
): LineStates {
  const stays: Stays = { entry: [], exit: [], from: [], to: [] };
  const spans: { readonly entry: number; readonly exit: number }[] = [];
  let [blocks, cleared] = [0, 0];
  for (const line of all) {
    const path = pathOf(line);
    if (!path) continue;
    spans.push({ entry: path.entry, exit: path.exit });
    blocks += path.moves.filter(({ to }) => to === BLOCKED).length;
    cleared += path.moves.filter(({ to }) => to === AGAIN).length;
    put(stays, path);
  }
  const counted = { used: spans.length, given: all.length, blocks };
  if (blocks < fewestForEstimate) return { kind: "too few blocks", fewest: fewestForEstimate, ...counted };
  if (cleared === 0) return { kind: "clearing never written", ...counted };
  const curve = stateOccupation(stays, NEVER);
  return {
    kind: "told",
    ...counted,
    cleared,
    days: days.map((day) => {
      const watched = spans.filter(({ entry, exit }) => entry <= day && exit >= day).length;
      const { occupation, standardError } = occupationAt(curve, day, NEVER);
      return {
        day,
        watched,
        grey: watched < atRiskLeast,
        shares: LINE_STATES.map((state, at) => {
          const share = occupation[at] ?? 0;
          const { low, high } = incidenceLimits(share, standardError[at] ?? 0, level);
          return { state, share, lower: low, upper: high };
        }),
      };
    }),
  };
}

interface Path {
  readonly entry: number;
  readonly exit: number;
  readonly moves: readonly { readonly at: number; readonly to: number }[];
  readonly ended: boolean;
}

/** The moves of one line in days since insertion, each at least a minute after the one before. */
function pathOf({ stay, row, events }: LineFacts): Path | undefined {
  const span = stay && stayInMinutes(stay);
  if (!stay || !span || typeof span === "string" || !row.placed) return undefined;
  const minuteOf = clockOf(stay);
  const start = row.knownFrom ? minuteOf(row.placed) : span.from;
  const since = (minute: number) => (minute - start) / MINUTES_A_DAY;
  const entry = row.knownFrom ? Math.max(0, since(span.from)) : 0;
  const exit = Math.max(since(span.to), entry + SHORTEST);
  const seen = events
    .filter(({ event, outside }) => event.kind === "occlusion" && !outside)
    .map(({ event }) => ({
      at: since(minuteOf(event.at)),
      clearedAt: event.clearedAt && since(minuteOf(event.clearedAt)),
    }))
    .sort((a, b) => a.at - b.at);
  const moves: { at: number; to: number }[] = [];
  let last = entry;
  // a move on the last minute is the end itself
  const move = (at: number, to: number): void => {
    const time = Math.max(at, last + SHORTEST);
    if (time >= exit) return;
    moves.push({ at: time, to });
    last = time;
  };
  for (const { at, clearedAt } of seen) {
    if (moves.at(-1)?.to !== BLOCKED) move(at, BLOCKED);
    if (clearedAt !== undefined && moves.at(-1)?.to === BLOCKED) move(clearedAt, AGAIN);
  }
  return { entry, exit, moves, ended: row.end.kind === "removed" || row.end.kind === "handed on" };
}

function put({ entry, exit, from, to }: Stays, path: Path): void {
  let [since, state]: [number, number] = [path.entry, NEVER];
  for (const { at, to: next } of [...path.moves, { at: path.exit, to: path.ended ? OUT : -1 }]) {
    entry.push(since);
    exit.push(at);
    from.push(state);
    // watched no longer: it stays where it was
    to.push(next === -1 ? state : next);
    [since, state] = [at, next];
  }
}
