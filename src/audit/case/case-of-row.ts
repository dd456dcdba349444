import { dayNumber } from "../../core/calendar/index.ts";
import { localDate } from "../../core/dwell/index.ts";
import { isKnown, type Maybe } from "../../core/missing/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import { NOT_KNOWN, stratumOf } from "../figure/index.ts";
import { LINE_COLUMNS, type LineFacts, type LineRow } from "../line/index.ts";
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
  const { ageBand } = knownToMany(row, limits);
  const facts: CaseFact[] = [{ name: "ageBand", value: ageBand, unit: ageBand === NOT_KNOWN ? "" : "years" }];
  const add = (name: string, column: string, value: Maybe<string | number>, unit = ""): void => {
    if (isKnown(value) && isListed(column, value)) facts.push({ name, value, unit });
  };
  add("diagnosis", "diagnosis", row.diagnosis);
  add("indication", "indication", row.indication);
  add("side", "side", row.side);
  add("vein", "vein", row.vein);
  add("sizeFr", "size_fr", row.sizeFr, "Fr");
  add("lumens", "lumens", row.lumens);
  add("veinDiameterMm", "vein_diameter_mm", row.veinDiameterMm, "mm");
  if (isKnown(row.positionShare) && typeof row.positionShare === "number")
    facts.push({ name: "third", value: stratumOf(row, "third", limits), unit: "" });
  add("attempts", "attempts", row.attempts);
  add("tipPlace", "tip_place", row.tipPlace);
  return facts;
}

/** Whether a value is one that its column allows: a name that slipped into a choice does not leave the service. */
function isListed(column: string, value: string | number): boolean {
  const { kind, options = [], least = 0, most = Infinity } = LINE_COLUMNS.find(({ name }) => name === column) ?? {};
  if (kind === "choice") return options.some((option) => option === value);
  return (kind === "number" || kind === "whole") && typeof value === "number" && value >= least && value <= most;
}

/** The day a line ended, or the last on which anything was known of it, an event among that. */
export function lastDayOf({ row: { end }, events }: LineFacts): number {
  if (end.kind === "removed" || end.kind === "handed on") return dayNumber(localDate(end.at));
  return Math.max(dayNumber(localDate(end.lastKnown)), ...events.filter(({ outside }) => !outside).map(({ on }) => on));
}

function stepsOf(line: LineFacts): readonly CaseStep[] {
  const { row, events, placedOn = 0 } = line;
  const day = (on: number): number => on - placedOn;
  const flag = (name: string, value: Maybe<boolean>): readonly CaseFact[] =>
    isKnown(value) ? [{ name, value, unit: "" }] : [];
  const { end } = row;
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
          ...(event.mucosal === undefined ? [] : flag("mucosal", event.mucosal)),
        ],
      })),
    {
      day: day(lastDayOf(line)),
      what: end.kind,
      facts:
        end.kind === "removed" && isKnown(end.reason) && isListed("end_reason", end.reason)
          ? [{ name: "reason", value: end.reason, unit: "" }]
          : [],
    },
  ].sort((a, b) => a.day - b.day);
}
