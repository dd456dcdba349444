import { addDays, civilDateFromDayNumber, dayNumber, type CivilDate } from "../../core/calendar/index.ts";
import {
  localDate,
  localDay,
  mergeRepeats,
  stayInMinutes,
  surveillanceEligibility,
  type Moment,
  type Stay,
  type SurveillanceRule,
} from "../../core/dwell/index.ts";
import { isKnown, missing, type Maybe } from "../../core/missing/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import { daysAfterRemoval } from "./after-removal.ts";
import type { LineRow, RowEvent } from "./line-row.ts";

const MINUTES_A_DAY = 1440;
/** Three French to the millimetre of outside diameter. */
const FRENCH_PER_MM = 3;

/** An event with the local day it counts on and whether it belongs to the line at all. */
export interface DatedEvent {
  readonly event: RowEvent;
  readonly on: number;
  /** Before the line, or before it was known here, or too long after it: kept in the row and in no figure. */
  readonly outside: boolean;
  /** For infections: by the day of the line, whatever the flag says. */
  readonly eligible: boolean;
}

/** What every figure reads of a row, worked out once. */
export interface LineFacts {
  readonly row: LineRow;
  /** From when the service answers for it to the last known moment; undefined when the row cannot be placed in time. */
  readonly stay: Stay | undefined;
  /** The same with an unknown end stretched to the moment of the table. */
  readonly longest: Stay | undefined;
  readonly placedOn: number | undefined;
  readonly endedOn: number | undefined;
  /** Insertion to removal, days; of removed lines only. */
  readonly dwellDays: number | undefined;
  readonly events: readonly DatedEvent[];
}

/**
 * The facts of a row.
 *   stay from knownFrom where there is one, else from placed (T10 stops a row known before it was placed); an unknown end stops at the last known moment, and at `asOf` in the longest reading
 *   an event before the day of knownFrom is outside: no day of then is counted (delayed entry, on one clock with the days)
 * Units: days, day numbers of local dates. Holds: any row; what cannot be placed in time has no stay.
 */
export function lineFacts(
  row: LineRow,
  asOf: Moment,
  limits: Pick<CountLimits, "clotDaysAfter">,
  rule: SurveillanceRule,
): LineFacts {
  const placedOn = row.placed && localDay(row.placed);
  const inserted = row.knownFrom ?? row.placed;
  const out = row.end.kind === "removed" || row.end.kind === "handed on" ? row.end.at : undefined;
  const endedOn = out && localDay(out);
  const stayTo = (last: Moment): Stay | undefined =>
    inserted && {
      patient: row.patient,
      inserted,
      end: out ? { kind: "removed", at: out } : { kind: "in place", lastKnown: last },
    };
  const lastKnown = row.end.kind === "in place" || row.end.kind === "unknown" ? row.end.lastKnown : row.end.at;
  const stay = stayTo(lastKnown);
  const whole: Stay | undefined =
    row.placed && out ? { patient: row.patient, inserted: row.placed, end: { kind: "removed", at: out } } : undefined;
  const span = whole && row.end.kind === "removed" ? stayInMinutes(whole) : undefined;
  return {
    row,
    stay: stay && typeof stayInMinutes(stay) !== "string" ? stay : undefined,
    longest: row.end.kind === "unknown" ? stayTo(asOf) : stay,
    placedOn,
    endedOn,
    dwellDays: span === undefined || typeof span === "string" ? undefined : (span.to - span.from) / MINUTES_A_DAY,
    events: row.events.map((event) =>
      dated(event, { placedOn, knownOn: row.knownFrom && localDay(row.knownFrom), endedOn }, limits, rule),
    ),
  };
}

function dated(
  event: RowEvent,
  {
    placedOn,
    knownOn = -Infinity,
    endedOn,
  }: Pick<LineFacts, "placedOn" | "endedOn"> & { readonly knownOn: number | undefined },
  limits: Pick<CountLimits, "clotDaysAfter">,
  rule: SurveillanceRule,
): DatedEvent {
  const on = localDay(event.at);
  const after = daysAfterRemoval(event.kind, limits, rule);
  const outside =
    placedOn === undefined || on < Math.max(placedOn, knownOn) || (endedOn !== undefined && on > endedOn + after);
  const ordered = placedOn !== undefined && (endedOn === undefined || endedOn >= placedOn);
  const eligible =
    ordered &&
    surveillanceEligibility(
      {
        firstAccess: civilDateFromDayNumber(placedOn),
        ...(endedOn === undefined ? {} : { removed: civilDateFromDayNumber(endedOn) }),
      },
      civilDateFromDayNumber(on),
      rule,
    ) === "eligible";
  return { event, on, outside, eligible };
}

/**
 * Catheter over vein, a share of one.
 *   size / 3 / diameter, or the ratio as it was written when a part is missing
 * Units: Fr, mm. Holds: diameter above zero. Source: definition of the French scale. Example: 4 Fr in 4.0 mm: 0.333.
 */
export function ratioOf({ sizeFr, veinDiameterMm, writtenRatio }: LineRow): Maybe<number> {
  if (isKnown(sizeFr) && isKnown(veinDiameterMm) && veinDiameterMm > 0) return sizeFr / FRENCH_PER_MM / veinDiameterMm;
  if (isKnown(writtenRatio)) return writtenRatio;
  return isKnown(sizeFr) ? (isKnown(veinDiameterMm) ? missing("not measured") : veinDiameterMm) : sizeFr;
}

/** Days on which an event of a patient stands for itself; repeats inside the frame fall on the first. */
export function daysKept(days: readonly number[], rule: SurveillanceRule): ReadonlySet<number> {
  const dates: CivilDate[] = days.map((on) => civilDateFromDayNumber(on));
  return new Set(mergeRepeats(dates, rule).map(({ kept }) => dayNumber(kept)));
}

/** The first day of the provisional tail. */
export const provisionalFrom = (asOf: Moment, days: number): CivilDate => addDays(localDate(asOf), -days);
