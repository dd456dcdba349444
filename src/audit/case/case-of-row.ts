import { dayNumber } from "../../core/calendar/index.ts";
import { localDate } from "../../core/dwell/index.ts";
import { isKnown, type Maybe } from "../../core/missing/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import { NOT_KNOWN, stratumOf } from "../figure/index.ts";
import type { LineFacts, LineRow } from "../line/index.ts";
import { knownToMany, peopleLike } from "./people-alike.ts";
import type { CaseFact, CaseStep, CaseStory } from "./story.ts";

/** A row of the line table told as a case. The ward, the inserter, the lot and every key stay out. */
export function caseOfRow(line: LineFacts, rows: readonly LineRow[], limits: CountLimits): CaseStory {
  const { row } = line;
  const people = peopleLike(row, rows, limits);
  return {
    opening: openingOf(row, limits),
    steps: stepsOf(line),
    peopleAlike: people,
    rare: people <= limits.rarePeople,
  };
}

/** What a reader may know of the person and the line before the first day. */
export function openingOf(row: LineRow, limits: CountLimits): readonly CaseFact[] {
  const { ageBand, diagnosis } = knownToMany(row, limits);
  const facts: CaseFact[] = [
    { name: "ageBand", value: ageBand, unit: ageBand === NOT_KNOWN ? "" : "years" },
    { name: "diagnosis", value: diagnosis, unit: "" },
  ];
  const add = (name: string, value: Maybe<string | number>, unit = ""): void => {
    if (isKnown(value)) facts.push({ name, value, unit });
  };
  add("indication", row.indication);
  add("side", row.side);
  add("vein", row.vein);
  add("sizeFr", row.sizeFr, "Fr");
  add("lumens", row.lumens);
  add("veinDiameterMm", row.veinDiameterMm, "mm");
  add("third", isKnown(row.positionShare) ? stratumOf(row, "third", limits) : row.positionShare);
  add("attempts", row.attempts);
  add("tipPlace", row.tipPlace);
  return facts;
}

function stepsOf({ row, events, placedOn = 0 }: LineFacts): readonly CaseStep[] {
  const day = (on: number): number => on - placedOn;
  const flag = (name: string, value: Maybe<boolean>): readonly CaseFact[] =>
    isKnown(value) ? [{ name, value, unit: "" }] : [];
  const { end } = row;
  const last = end.kind === "removed" || end.kind === "handed on" ? end.at : end.lastKnown;
  return [
    { day: 0, what: row.knownFrom ? "found" : "placed", facts: [] },
    ...events
      .filter(({ outside }) => !outside)
      .map(({ event, on }): CaseStep => ({
        day: day(on),
        what: event.kind,
        facts: [
          ...flag("clinical", event.clinical),
          ...flag("surveillance", event.surveillance),
          ...flag("pairedCulture", event.pairedCulture),
        ],
      })),
    {
      day: day(dayNumber(localDate(last))),
      what: end.kind,
      facts: end.kind === "removed" && isKnown(end.reason) ? [{ name: "reason", value: end.reason, unit: "" }] : [],
    },
  ].sort((a, b) => a.day - b.day);
}
