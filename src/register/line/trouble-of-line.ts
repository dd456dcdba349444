import { civilDateOf } from "../../core/calendar/index.ts";
import { finding, type Finding } from "../../core/reason/index.ts";
import type { Observation } from "../../core/release/index.ts";
import type { EntryOf } from "../catalogue.ts";
import { valueIn } from "../field/index.ts";
import { standing, type Happening } from "../fold/index.ts";
import type { LineView } from "./line-view.ts";

/** What a step with a blocked line says of the line; the page offers the same words, one after each semicolon. */
const FLOWS_AGAIN = "flows again";
const FLUSHES: Readonly<Record<string, string>> = {
  "flushes freely": "freely",
  "flushes slowly": "with resistance",
  "flushes not at all": "no",
};
const SYMPTOMS: Readonly<Record<string, string>> = {
  "pain yes": "arm or shoulder pain",
  "ear sound yes": "ear sound on flushing",
};
const MOVES = new Set(["outside length changed", "film tip elsewhere"]);

/**
 * What an entry of trouble tells of the line as a care visit would: a step with a line that gives no blood or is blocked
 * is a visit without blood return, its flush, its pain and a changed length count as at a visit, and a suspected
 * infection brings its signs.
 * Holds: entries of trouble; a step that helped tells that it runs and no more, for only a visit sees blood come back.
 * Source: common practice, no source. Example: "no change; flushes not at all": blood return "no", nothing goes through.
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
  const found = (valueIn((entry as EntryOf<"PatencyStepTaken">).answer) ?? "")
    .split(";")
    .map((part) => part.trim().toLowerCase());
  if (found.length === 1 && found[0] === FLOWS_AGAIN) {
    return { ...seen, bloodReturn: undefined, flushes: "freely", symptoms: [] };
  }
  return {
    ...seen,
    bloodReturn: "no",
    symptoms: found.flatMap((part) => SYMPTOMS[part] ?? []),
    flushes: found.map((part) => FLUSHES[part]).findLast((flush) => flush !== undefined),
    moved: found.some((part) => MOVES.has(part)),
  };
}

const conclusion = ({ event, entry }: Happening) =>
  event.type === "InfectionConcluded" ? (entry as EntryOf<"InfectionConcluded">) : undefined;

/** Whether an entry concludes an infection: one that says "not known" concludes nothing. */
export const concludes = (one: Happening): boolean => {
  const said = conclusion(one);
  return said !== undefined && ["yes", "no"].includes(valueIn(said.clinical) ?? "");
};

/** A named person concluded that there was no infection. */
export const saysNoInfection = (one: Happening): boolean => {
  const said = conclusion(one);
  return said !== undefined && valueIn(said.clinical) === "no" && (valueIn(said.concludedBy) ?? "").trim() !== "";
};

/** An infection somebody suspected and nobody has concluded since: it stays said until it is settled. */
export function openSuspicion(line: LineView): readonly Finding[] {
  let since: Happening | undefined;
  for (const one of standing(line.happenings)) {
    if (one.event.type === "InfectionSuspected") since ??= one;
    else if (concludes(one)) since = undefined;
  }
  return since
    ? [finding("line-infection-suspected", "not known", "ask", { on: civilDateOf(since.event.happenedAt) })]
    : [];
}
