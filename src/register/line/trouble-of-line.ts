import { civilDateOf } from "../../core/calendar/index.ts";
import { finding, type Finding } from "../../core/reason/index.ts";
import type { Observation } from "../../core/release/index.ts";
import type { EntryOf } from "../catalogue.ts";
import { valueIn } from "../field/index.ts";
import { standing, type Happening } from "../fold/index.ts";
import type { LineView } from "./line-view.ts";

/** What a step with a blocked line says where it helped; the page offers the same word. */
const FLOWS_AGAIN = "flows again";

/**
 * What an entry of trouble tells of the line as a care visit would: a step with a line that gives no blood or is blocked
 * is a visit without blood return, and a suspected infection brings its signs.
 * Holds: entries of trouble; a step that helped tells nothing, for only a visit sees blood come back. Source: common
 * practice, no source. Example: "cough, no change": blood return "no".
 */
export function observationOfTrouble({ event, entry }: Happening): Observation | undefined {
  const seen = {
    at: event.happenedAt,
    writtenAt: event.writtenAt,
    outsideCm: undefined,
    second: undefined,
    measuredBy: event.author.initials,
  };
  if (event.type === "InfectionSuspected") {
    const symptoms = valueIn((entry as EntryOf<"InfectionSuspected">).signs) ?? [];
    return symptoms.length === 0 ? undefined : { ...seen, bloodReturn: undefined, symptoms };
  }
  if (event.type !== "PatencyStepTaken") return undefined;
  const found = valueIn((entry as EntryOf<"PatencyStepTaken">).answer) ?? "";
  return found.trim().toLowerCase() === FLOWS_AGAIN ? undefined : { ...seen, bloodReturn: "no", symptoms: [] };
}

/** An infection somebody suspected and nobody has concluded since: it stays said until it is settled. */
export function openSuspicion(line: LineView): readonly Finding[] {
  let since: Happening | undefined;
  for (const one of standing(line.happenings)) {
    if (one.event.type === "InfectionSuspected") since ??= one;
    else if (one.event.type === "InfectionConcluded") since = undefined;
  }
  return since
    ? [finding("line-infection-suspected", "not known", "ask", { on: civilDateOf(since.event.happenedAt) })]
    : [];
}
