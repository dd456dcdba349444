import { mergesRepeats, type Measure } from "../measure/index.ts";
import { tallies } from "./count-lines.ts";
import type { CountedDays } from "./count-days.ts";
import { eventsWithin, measureEvents, onceInFrame, type EventList } from "./count-packed-events.ts";
import type { Figure } from "./figure.ts";
import { rateOf } from "./figure-of.ts";
import { isNeverWritten, unwrittenKinds, writtenIn } from "./never-written.ts";
import { isLostBefore, type Scene } from "./scene.ts";
import type { Parts } from "./split.ts";

/** Events over line-days of the service and of every part: each event that counts falls to the part of its own line. */
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
  // a person's lines may lie in two parts: merged before the split, so that the parts add up to the whole
  const merged = mergesRepeats(numerator.flag) ? onceInFrame(yes, checked, surveillance) : yes;
  const bySlot = listedBySlot(parts, eventsWithin(merged, opens, closes));
  const written = writtenIn(facts.lines);
  const silence = { neverWritten: isNeverWritten(written, numerator), unwritten: unwrittenKinds(written, numerator) };
  return parts.told.map(({ slot, stratum }) => {
    const counted = bySlot(slot);
    const seen = new Set(counted.lines.filter((line) => isLostBefore(facts, line, closes)));
    return rateOf(
      measure,
      {
        events: counted.lines.length,
        possible: (possible.by[slot] as number) + (lost.by[slot] as number) - seen.size,
        days: days[slot] as number,
        mostDays: mostDays[slot] as number,
        used: used[slot] as number,
        given: (mayUse[slot] as number) + (slot === 0 ? facts.lines.count - checked.used : 0),
        ...silence,
      },
      {
        stratum,
        provisional: counted.on.filter((on) => on >= provisionalDay).length,
        lines: () => counted.lines.map((line) => facts.lines.keyAt(line)),
      },
      limits,
    );
  });
}

const NOTHING: EventList = { lines: [], on: [] };

/** The events of each part in the order of the lines. */
function listedBySlot(parts: Parts, { lines, on }: EventList): (slot: number) => EventList {
  const lists: (EventList | undefined)[] = Array.from({ length: parts.slots }, () => undefined);
  lists[0] = { lines, on };
  for (const { codes, base } of parts.splits)
    for (let at = 0; at < lines.length; at += 1) {
      const line = lines[at] as number;
      const slot = base + (codes[line] as number);
      const list = (lists[slot] ??= { lines: [], on: [] });
      list.lines.push(line);
      list.on.push(on[at] as number);
    }
  return (slot) => lists[slot] ?? NOTHING;
}
