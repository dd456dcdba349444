import { civilDateOf, type Instant } from "../calendar/index.ts";
import { isKnown, isMissing, type Maybe } from "../missing/index.ts";
import type { Centimetre } from "../quantity/index.ts";
import { careDue, type DueItem } from "./care-due.ts";
import type { CareLimits } from "./care-limits.ts";
import type { Dressing, LineCare } from "./line-care.ts";

/** One home visit: the line, its place in the round, and what the nurse compares with. */
export interface HomeVisit {
  readonly line: LineCare;
  /** Given by a person; the tool knows no streets. */
  readonly order: Maybe<number>;
  readonly outsideCm: Maybe<Centimetre>;
  readonly armCircumferenceCm: Maybe<Centimetre>;
  readonly armMeasuredAtCm: Maybe<Centimetre>;
}

export interface RoundStop {
  readonly visit: HomeVisit;
  readonly dressing: Maybe<Dressing>;
  /** What is due on or before the day of the round. */
  readonly due: readonly DueItem[];
}

/**
 * The home round in visiting order: by the number a person gave, then by place. Every visit of a line that is due, or
 * whose next visit is that day or has passed.
 * Holds: any order of input; equal numbers keep their place's order. Source: common practice, no source.
 * Example: orders 2, none, 1: the third, the first, the second.
 */
export function homeRound(visits: readonly HomeVisit[], now: Instant, limits: CareLimits): readonly RoundStop[] {
  const today = civilDateOf(now);
  return visits
    .map((visit): RoundStop => {
      const { dressing } = visit.line;
      const due = careDue(visit.line, now, limits).filter((item) => {
        const on = item.dueOn ?? (item.dueAt === undefined ? today : civilDateOf(item.dueAt));
        return on <= today;
      });
      return { visit, dressing: isMissing(dressing) ? dressing : dressing.type, due };
    })
    .filter(({ visit, due }) => due.length > 0 || (isKnown(visit.line.nextOn) && visit.line.nextOn <= today))
    .sort((a, b) => orderOf(a) - orderOf(b) || (placeOf(a) < placeOf(b) ? -1 : placeOf(a) > placeOf(b) ? 1 : 0));
}

/** Past every number a person would give; not Infinity, whose difference with itself is no order. */
const UNORDERED = Number.MAX_SAFE_INTEGER;
const orderOf = ({ visit }: RoundStop): number => (isMissing(visit.order) ? UNORDERED : visit.order);
const placeOf = ({ visit }: RoundStop): string => (isMissing(visit.line.place) ? "" : visit.line.place);
