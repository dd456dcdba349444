import { civilDateFromDayNumber, dayNumber } from "../../../../src/core/calendar/index.ts";
import {
  hasDatesAlone,
  stayDates,
  stayInMinutes,
  type LineClock,
  type Stay,
} from "../../../../src/core/dwell/index.ts";
import { figureForm, incidenceRate, rateWithMissingEnds } from "../../../../src/core/incidence/index.ts";
import { isKnown } from "../../../../src/core/missing/index.ts";
import { ROW_EVENTS, type LineFacts } from "../../../../src/audit/index.ts";
import type { Measure } from "../../../../src/audit/index.ts";
import type { EventCount } from "./event-count.ts";
import type { Figure, Period } from "../../../../src/audit/index.ts";
import { countDays, daysOf, isLostBefore, seenFrom, type Part, type Scene } from "./part.ts";
import { BARE_COUNT } from "./share-figure.ts";

/** Events over line-days, with what unknown ends and unset flags could do to the rate. */
export function eventRate(
  measure: Measure,
  numerator: Extract<Measure["numerator"], { readonly count: "events" }>,
  part: Part,
  { limits, period, provisionalDay, closes, written }: Scene,
  events: EventCount,
): Figure {
  const clock = measure.clock as LineClock;
  // of the events of the whole service those of the part's own lines
  const own = new Set(part.eventful);
  const counted = events.counted.filter(({ line }) => own.has(line));
  const mayCount = events.mayCount.filter(({ line }) => own.has(line));
  const { fewest, mostDays, mayUse } = daysOf(part, period, clock);
  const seen = new Set(counted.map(({ line }) => line));
  const hidden = part.near.filter(
    (line) => line.stay !== undefined && isLostBefore(line, closes) && seenFrom(line) < closes && !seen.has(line),
  );
  const level = limits.level;
  const many = counted.length;
  const days = fewest.days;
  const possible = mayCount.length + hidden.length;
  const { event, flag } = numerator;
  const kinds = ROW_EVENTS.filter((kind) => !written.includes(kind));
  const silent =
    flag !== "any"
      ? !written.includes(flag)
      : event === "any"
        ? kinds.length === ROW_EVENTS.length
        : !written.includes(event);
  const rate = days > 0 && !silent ? incidenceRate({ events: many, days, clock }, level, "exact") : undefined;
  const bounds =
    days > 0 && !silent && (possible > 0 || mostDays > days)
      ? rateWithMissingEnds(
          { knownEvents: many, possibleEvents: possible, fewestDays: days, mostDays, clock },
          level,
          "exact",
        )
      : undefined;
  return {
    measure: measure.id,
    stratum: part.stratum,
    form: rate ? figureForm(many, limits.fewestForEstimate) : days > 0 ? "never written down" : "nothing to count over",
    ...(rate && event === "any" && kinds.length > 0 ? { unwritten: kinds } : {}),
    numerator: many,
    denominator: days,
    value: rate?.perThousand,
    interval: { name: "exact Poisson", level, limits: rate && { lower: rate.lower, upper: rate.upper } },
    used: fewest.linesUsed,
    given: mayUse + part.stopped,
    missing: {
      count: possible,
      bounds: bounds && { lower: bounds.lowestPerThousand, upper: bounds.highestPerThousand },
      outer: bounds?.outer,
    },
    provisional: counted.filter(({ on }) => on >= provisionalDay).length,
    lines: counted.map(({ line }) => line.row.key),
  };
}

/** Line-days themselves, or the idle ones among them. */
export function dayFigure(measure: Measure, of: "line days" | "idle days", part: Part, scene: Scene): Figure {
  const clock = measure.clock as LineClock;
  const level = scene.limits.level;
  if (of === "line days") {
    const { fewest: days } = daysOf(part, scene.period, clock);
    return {
      measure: measure.id,
      stratum: part.stratum,
      form: "count",
      numerator: days.days,
      denominator: undefined,
      value: undefined,
      interval: { ...BARE_COUNT, level },
      used: days.linesUsed,
      given: days.linesUsed + part.stopped,
      missing: { count: 0, bounds: undefined, outer: undefined },
      provisional: 0,
      lines: [],
    };
  }
  const touched = part.near.filter(({ stay }) => touches(stay, scene));
  const usable = touched.filter(({ row }) => isKnown(row.idleDays));
  const days = countDays(
    usable.map(({ stay }) => stay),
    scene.period,
    clock,
  );
  const idle = usable.filter((line) => idleWithin(line, scene, clock) > 0);
  const numerator = idle.reduce((sum, line) => sum + idleWithin(line, scene, clock), 0);
  const empty = !(days.days > 0);
  return {
    measure: measure.id,
    stratum: part.stratum,
    form: empty ? "nothing to count over" : "count",
    numerator,
    denominator: days.days,
    value: empty ? undefined : numerator / days.days,
    interval: { name: "none: days of one line hang together", limits: undefined, level },
    used: days.linesUsed,
    given: touched.length + part.stopped,
    missing: { count: touched.length - usable.length, bounds: undefined, outer: undefined },
    provisional: 0,
    lines: idle.map(({ row }) => row.key),
  };
}

const touches = (stay: Stay | undefined, { opens, closes }: Scene): boolean => {
  if (stay === undefined) return false;
  const { first, last } = stayDates(stay);
  return first < closes && last >= opens;
};

/**
 * The last days of the stay, on the clock of the days they are held against. Of exact days: what the stay has in the
 * period less what it would have had, had it ended so many days sooner. Of days counted one by one: the last of them.
 */
function idleWithin({ row, stay }: LineFacts, { period, closes }: Scene, clock: LineClock): number {
  if (!isKnown(row.idleDays) || !stay) return 0;
  const { idleDays } = row;
  const within = (of: Stay, window: Period): number => countDays([of], window, clock).days;
  if (clock === "exact line-days") {
    const span = stayInMinutes(stay);
    if (typeof span === "string") return 0;
    const onWall = hasDatesAlone(stay);
    const opens = dayNumber(period.from) * 1440 - (onWall ? 0 : period.fromOffset);
    const shuts = closes * 1440 - (onWall ? 0 : period.toOffset);
    const minutes = (until: number): number => Math.max(0, Math.min(until, shuts) - Math.max(span.from, opens));
    return (minutes(span.to) - minutes(Math.max(span.from, span.to - idleDays * 1440))) / 1440;
  }
  const { first, last } = stayDates(stay);
  const dates: number[] = [];
  for (let on = first; on <= last; on += 1)
    if (within(stay, { ...period, from: civilDateFromDayNumber(on), to: civilDateFromDayNumber(on + 1) }) > 0)
      dates.push(on);
  const idle = new Set(idleDays === 0 ? [] : dates.slice(-idleDays));
  return [...idle].filter((on) => on >= dayNumber(period.from) && on < closes).length;
}
