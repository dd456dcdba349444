import { instantAfter, instantMs, type Instant } from "../../core/calendar/index.ts";
import type { PatencyLimits } from "../../core/care/index.ts";
import type { EntryOf } from "../catalogue.ts";
import { confirmedIn, valueIn } from "../field/index.ts";
import { standing } from "../fold/index.ts";
import type { LineView } from "./line-view.ts";
import { observationOfTrouble } from "./trouble-of-line.ts";

/** A look for blood that a dose of lytic asks for and nobody has written yet. */
export interface LyticLook {
  readonly doseAt: Instant;
  readonly at: Instant;
}

const EARLY_MIN = 5; // a look this long before its time is that look: clocks in one building differ by as much
const OPEN_MIN = 24 * 60; // a day later the line's own restriction and care speak; the dose has no more to say

/**
 * The looks for blood still open after the last dose of lytic, the earlier first, each at the time of day it is due.
 *   due = time of the dose + first or second limit, in minutes
 * Holds: a look is closed by an entry about blood or the flush no earlier than 5 min before it is due; blood that came
 * back, a step that helped, another dose or a day closes both. A line that is out asks for none.
 * Source: label of alteplase for catheters, 30 and 120 min (policy rows); what closes one: common practice, no source.
 * Example: a dose at 14:05, nothing written since: 14:35 and 16:05.
 */
export function lyticLooks(
  line: LineView,
  now: Instant,
  limits: Pick<PatencyLimits, "lyticFirstCheckMin" | "lyticSecondCheckMin">,
): readonly LyticLook[] {
  if (line.end && line.end.kind !== "unknown") return [];
  let looks: readonly LyticLook[] = [];
  for (const happening of standing(line.happenings)) {
    const { event, entry } = happening;
    const at = event.happenedAt;
    const dose =
      event.type === "PatencyStepTaken" ? confirmedIn((entry as EntryOf<"PatencyStepTaken">).doseMg) : undefined;
    if (dose !== undefined && dose > 0) {
      looks = [limits.lyticFirstCheckMin, limits.lyticSecondCheckMin].map((minutes) => ({
        doseAt: at,
        at: instantAfter(at, minutes),
      }));
      continue;
    }
    const care = event.type === "CareGiven" ? (entry as EntryOf<"CareGiven">) : undefined;
    const step = event.type === "PatencyStepTaken" ? observationOfTrouble(happening) : undefined;
    const blood = care ? valueIn(care.bloodReturn) : step?.bloodReturn;
    if (blood === undefined && step === undefined) continue;
    const helped = blood === "yes" || (step !== undefined && blood === undefined);
    looks = helped ? [] : looks.filter((look) => instantMs(look.at) - EARLY_MIN * 60_000 > instantMs(at));
  }
  return looks.filter(({ doseAt }) => instantMs(now) - instantMs(doseAt) <= OPEN_MIN * 60_000);
}
