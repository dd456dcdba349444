import { MINUTES_IN_DAY, wrap } from "./circle.ts";
import { overlapInTime, type Dose, type Option, type Problem } from "./problem.ts";

/** A dose's place on the clock that starts at the cut: a quiet moment from which the search goes round once. */
export interface Place {
  readonly from: number;
  readonly to: number;
  /** Days by which the clock from the cut differs from the chart's own: a dose moved across the cut is on another day. */
  readonly dayShift: number;
  /** Runs past the cut: its end comes first on the clock, and its beginning is kept free until then. */
  readonly crosses: boolean;
}

/** The order in which the search meets the options: those across the cut first, then by the clock. */
export interface Timeline {
  readonly places: readonly Place[];
  readonly events: readonly Option[];
  /** Clock time of each event; -1 for those across the cut, which come before the clock starts. */
  readonly times: readonly number[];
  /** Distinct clock times at which something may start. */
  readonly starts: readonly number[];
  readonly firstEvent: readonly number[];
  readonly lastEvent: readonly number[];
  /** A flag for each dose that is met more than once, reused when a dose is done; -1 for none. */
  readonly flag: readonly number[];
  readonly flags: number;
  /** By option: the infusions that may share with it and still start beside it, and the last time one does, latest first. */
  readonly companions: readonly (readonly Companion[])[];
  /** Infusions whose doses are told apart while they run, not only by their companions. */
  readonly toldApart: readonly boolean[];
  /** Two of its doses could come to run at the same moment. */
  readonly siblingsMeet: readonly boolean[];
  /**
   * By option: the one a step earlier (or a step nearer the charted time). An option is left out when its dose could stand
   * there instead, on the same lumen. -1 where that cannot be told from one lumen alone.
   */
  readonly pulledBack: readonly number[];
  /** The same for an option before its charted time: the one a step later. */
  readonly pulledOn: readonly number[];
  readonly stepMin: number;
  /** The dose just before, of those that are interchangeable: it is placed first. -1 for none. */
  readonly before: readonly number[];
}

interface Companion {
  readonly infusion: number;
  readonly lastStart: number;
}

/** Which answers the search may leave out for others as good: any that can be pulled by one step this way. */
export type Pull = "earlier" | "to the charted time";

export function timelineOf(problem: Problem, pull: Pull): Timeline {
  const cut = quietMoment(problem);
  const places = problem.options.map((option): Place => {
    const from = wrap(option.closedFrom - cut, MINUTES_IN_DAY);
    return {
      from,
      to: from + option.closedFor,
      dayShift: problem.horizonMin === MINUTES_IN_DAY ? 0 : Math.floor((option.closedFrom - cut) / MINUTES_IN_DAY),
      crosses: from + option.closedFor > MINUTES_IN_DAY,
    };
  });
  const place = (option: Option) => places[option.index] as Place;
  const across = problem.options
    .filter((option) => place(option).crosses)
    .sort((a, b) => choices(problem, a) - choices(problem, b) || a.dose - b.dose || a.index - b.index);
  const along = problem.options
    .filter((option) => !place(option).crosses)
    .sort((a, b) => place(a).from - place(b).from || a.dose - b.dose);
  const events = [...across, ...along];
  const firstEvent = problem.doses.map(() => -1);
  const lastEvent = problem.doses.map(() => -1);
  events.forEach(({ dose }, event) => {
    if ((firstEvent[dose] as number) < 0) firstEvent[dose] = event;
    lastEvent[dose] = event;
  });
  const siblingsMeet = siblingsThatMeet(problem);
  const toldApart = siblingsMeet.map(
    (meet, infusion) => meet || problem.horizonMin > MINUTES_IN_DAY || (problem.dedicated[infusion] as boolean),
  );
  return {
    places,
    events,
    times: events.map((option) => (place(option).crosses ? -1 : place(option).from)),
    starts: [...new Set(along.map((option) => place(option).from))],
    firstEvent,
    lastEvent,
    ...flagsOf(firstEvent, lastEvent),
    companions: companionsOf(problem, places),
    toldApart,
    siblingsMeet,
    ...pulledOf(problem, places, siblingsMeet, pull),
    before: interchangeable(problem, toldApart),
  };
}

const choices = (problem: Problem, option: Option): number => (problem.doses[option.dose] as Dose).options.length;

/** The clock time that the fewest options run across. */
function quietMoment(problem: Problem): number {
  const short = problem.options.filter(({ closedFor }) => closedFor < MINUTES_IN_DAY);
  let best = { at: 0, across: Infinity };
  for (const at of new Set([0, ...short.map(({ closedFrom }) => wrap(closedFrom, MINUTES_IN_DAY))])) {
    const across = short.filter(
      ({ closedFrom, closedFor }) => wrap(closedFrom - at, MINUTES_IN_DAY) + closedFor > MINUTES_IN_DAY,
    ).length;
    if (across < best.across) best = { at, across };
  }
  return best.at;
}

function siblingsThatMeet(problem: Problem): boolean[] {
  const meet = problem.share.map(() => false);
  for (const one of problem.options) {
    const { infusion } = problem.doses[one.dose] as Dose;
    if (meet[infusion]) continue;
    meet[infusion] = problem.options.some(
      (other) =>
        other.dose > one.dose && problem.doses[other.dose]?.infusion === infusion && overlapInTime(problem, one, other),
    );
  }
  return meet;
}

function companionsOf(problem: Problem, places: readonly Place[]): readonly (readonly Companion[])[] {
  const startsOf = problem.share.map((): number[] => []);
  for (const option of problem.options) {
    const place = places[option.index] as Place;
    if (!place.crosses) startsOf[(problem.doses[option.dose] as Dose).infusion]?.push(place.from);
  }
  return problem.options.map((option) => {
    const { from, to, crosses } = places[option.index] as Place;
    const share = problem.share[(problem.doses[option.dose] as Dose).infusion] as readonly boolean[];
    const found = share.flatMap((shares, infusion) => {
      // a step more, since an option is also asked whether it could have stood a step earlier
      const beside = (startsOf[infusion] as number[]).filter(
        (start) => crosses || (start >= from && start < to + problem.stepMin),
      );
      return shares && beside.length > 0 ? [{ infusion, lastStart: Math.max(...beside) }] : [];
    });
    return found.sort((a, b) => b.lastStart - a.lastStart);
  });
}

function flagsOf(firstEvent: readonly number[], lastEvent: readonly number[]) {
  const flag = firstEvent.map(() => -1);
  const freeFrom: number[] = [];
  const byFirst = firstEvent
    .map((_, dose) => dose)
    .sort((a, b) => (firstEvent[a] as number) - (firstEvent[b] as number));
  for (const dose of byFirst) {
    const first = firstEvent[dose] as number;
    const last = lastEvent[dose] as number;
    if (first === last) continue;
    const reused = freeFrom.findIndex((from) => from < first);
    const mine = reused < 0 ? freeFrom.length : reused;
    freeFrom[mine] = last;
    flag[dose] = mine;
  }
  return { flag, flags: freeFrom.length };
}

function pulledOf(problem: Problem, places: readonly Place[], siblingsMeet: readonly boolean[], pull: Pull) {
  const neighbour = (option: Option, by: number): number => {
    const { infusion, options } = problem.doses[option.dose] as Dose;
    const found = options.find(({ steps }) => steps === option.steps + by);
    if (!found || siblingsMeet[infusion]) return -1;
    return places[option.index]?.crosses || places[found.index]?.crosses ? -1 : found.index;
  };
  return {
    pulledBack: problem.options.map((option) => (pull === "earlier" || option.steps > 0 ? neighbour(option, -1) : -1)),
    pulledOn: problem.options.map((option) =>
      pull === "to the charted time" && option.steps < 0 ? neighbour(option, 1) : -1,
    ),
    stepMin: problem.stepMin,
  };
}

/**
 * Doses that any answer could swap: they share with the same infusions and not with each other, at the same rate, and have
 * the same length and the same times. Placing them in order leaves out only the swapped copies of an answer.
 */
function interchangeable(problem: Problem, toldApart: readonly boolean[]): number[] {
  const last = new Map<string, number>();
  return problem.doses.map((dose, index) => {
    if (toldApart[dose.infusion]) return -1;
    const times = dose.options.map(({ start, length, steps }) => `${start}+${length}@${steps}`);
    const key = [
      problem.rates[dose.infusion],
      ...(problem.share[dose.infusion] as readonly boolean[]),
      ...times,
    ].join();
    const before = last.get(key) ?? -1;
    last.set(key, index);
    return before;
  });
}
