import type { Measure } from "../measure/index.ts";
import { tallies } from "./count-lines.ts";
import type { CountedDays } from "./count-days.ts";
import { measureEvents, onceInFrame, type EventList } from "./count-packed-events.ts";
import type { Figure } from "./figure.ts";
import { rateOf } from "./figure-of.ts";
import { isLostBefore, type Scene } from "./scene.ts";
import type { Parts } from "./split.ts";

/** Events over line-days of the service and of every part. */
export function rateFigures(
  measure: Measure,
  numerator: Extract<Measure["numerator"], { readonly count: "events" }>,
  { days, used, mostDays, mayUse }: CountedDays,
  scene: Scene,
  parts: Parts,
): readonly Figure[] {
  const { checked, facts, limits, surveillance, opens, closes, provisionalDay } = scene;
  const { yes, may } = measureEvents(checked, scene.eventful, numerator, opens, closes);
  const possible = tallies(parts);
  for (const line of may.lines) possible.add(line);
  const lost = tallies(parts);
  for (const line of scene.lost) lost.add(line);
  // repeats are merged inside a part: a person's lines may lie in two of them
  const bySlot = partedBy(parts, yes);
  return parts.told.map(({ slot, stratum }) => {
    const own = bySlot[slot] ?? { lines: [], on: [] };
    const merged = numerator.flag === "surveillance" ? onceInFrame(own, checked, surveillance) : own;
    const counted = merged.lines.filter((_, at) => isWithin(merged.on[at] as number, opens, closes));
    const seen = new Set(counted.filter((line) => isLostBefore(facts, line, closes)));
    return rateOf(
      measure,
      {
        events: counted.length,
        possible: (possible.by[slot] as number) + (lost.by[slot] as number) - seen.size,
        days: days[slot] as number,
        mostDays: mostDays[slot] as number,
        used: used[slot] as number,
        given: (mayUse[slot] as number) + (slot === 0 ? facts.lines.count - checked.used : 0),
      },
      {
        stratum,
        provisional: merged.on.filter((on) => isWithin(on, opens, closes) && on >= provisionalDay).length,
        lines: () => counted.map((line) => facts.lines.keyAt(line)),
      },
      limits,
    );
  });
}

const isWithin = (on: number, opens: number, closes: number): boolean => on >= opens && on < closes;

function partedBy(parts: Parts, { lines, on }: EventList): readonly (EventList | undefined)[] {
  const lists: (EventList | undefined)[] = Array.from({ length: parts.slots }, () => undefined);
  lists[0] = { lines, on };
  for (const { codes, base } of parts.splits)
    for (const [at, line] of lines.entries()) {
      const slot = base + (codes[line] as number);
      const list = lists[slot] ?? { lines: [], on: [] };
      list.lines.push(line);
      list.on.push(on[at] as number);
      lists[slot] = list;
    }
  return lists;
}
