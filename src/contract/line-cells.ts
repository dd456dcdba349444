import {
  ROW_EVENTS,
  type LineRow,
  type ReferralRow,
  type RowEnd,
  type RowEvent,
  type WardMonth,
} from "../audit/index.ts";
import { NOON, MINUTES_PER_DAY, type Moment } from "../core/dwell/index.ts";
import { dayNumber } from "../core/calendar/index.ts";
import { isKnown, missing, type Maybe } from "../core/missing/index.ts";
import type { FaultCode } from "./fault.ts";
import type { LineCell, UndatedEvent } from "./line-cell.ts";

type Cells = Readonly<Record<string, LineCell>>;
interface Wrong {
  readonly kind: "fault";
  readonly column: string;
  readonly code: FaultCode;
  readonly found: string;
  readonly rule: string;
}

const PERCENT = 100;

/** The value under a name, or its absence; a column the file does not have was not asked. */
function get<Value>(cells: Cells, name: string): Maybe<Value> {
  const cell = cells[name];
  if (cell?.kind === "value") return cell.value as Value;
  return missing(cell?.kind === "absent" ? cell.why : "not asked");
}

const known = <Value>(found: Maybe<Value>): Value | undefined => (isKnown(found) ? found : undefined);

const share = (percent: Maybe<number>): Maybe<number> => (isKnown(percent) ? percent / PERCENT : percent);

/** For order only: a date alone is its noon. */
const minuteOf = (at: Moment): number =>
  at.precision === "minute" ? at.utc : dayNumber(at.date) * MINUTES_PER_DAY + NOON;

const lacks = (column: string, rule: string): Wrong => ({
  kind: "fault",
  column,
  code: "missing-field",
  found: "",
  rule,
});

/** A line out of its cells. What is wrong inside one row and can be counted stays in: the quality check judges it. */
export function lineRowFrom(cells: Cells, asOf: Moment): { readonly kind: "line"; readonly row: LineRow } | Wrong {
  const key = known(get<string>(cells, "line_key"));
  const patient = known(get<string>(cells, "patient_key"));
  if (key === undefined) return lacks("line_key", "a key for each line");
  if (patient === undefined) return lacks("patient_key", "a key of the person for each line");
  const end = endFrom(cells, asOf);
  if (end.kind === "fault") return end;
  const events = known(get<readonly (RowEvent | UndatedEvent)[]>(cells, "events")) ?? [];
  const undated = ROW_EVENTS.filter((kind) => events.some((event) => event.at === undefined && event.kind === kind));
  return {
    kind: "line",
    row: {
      key,
      patient,
      placed: known(get<Moment>(cells, "placed_at")),
      knownFrom: known(get<Moment>(cells, "known_from")),
      end,
      events: events.filter((event): event is RowEvent => event.at !== undefined),
      ...(undated.length > 0 ? { undated } : {}),
      side: get(cells, "side"),
      vein: get(cells, "vein"),
      sizeFr: get(cells, "size_fr"),
      lumens: get(cells, "lumens"),
      veinDiameterMm: get(cells, "vein_diameter_mm"),
      writtenRatio: share(get(cells, "ratio_percent")),
      positionShare: share(get(cells, "position_percent")),
      attempts: get(cells, "attempts"),
      inserter: get(cells, "inserter_key"),
      ward: get(cells, "ward"),
      setting: get(cells, "setting"),
      ageYears: get(cells, "age_years"),
      diagnosis: get(cells, "diagnosis"),
      indication: get(cells, "indication"),
      tipMethod: get(cells, "tip_method"),
      tipPlace: get(cells, "tip_place"),
      lot: get(cells, "lot_key"),
      catheter: get(cells, "catheter_key"),
      eGfr: get(cells, "egfr_ml_min_173"),
      overdueCare: get(cells, "overdue_care"),
      overrides: get(cells, "overrides"),
      idleDays: get(cells, "idle_days"),
      owned: get(cells, "owned"),
      ...checksFrom(cells),
    },
  };
}

const CHECK_CELLS = ["inside_cm", "weight_kg", "replaces_key", "time_known_to", "written_after"] as const;

/** Most rows have nothing in these columns: they then carry nothing of it. */
function checksFrom(cells: Cells): Pick<LineRow, "checks"> {
  const written = (cell: LineCell | undefined) =>
    cell !== undefined && !(cell.kind === "absent" && cell.why === "not asked");
  if (!CHECK_CELLS.some((name) => written(cells[name]))) return {};
  return {
    checks: {
      insideCm: get(cells, "inside_cm"),
      weightKg: get(cells, "weight_kg"),
      replaces: get(cells, "replaces_key"),
      timeKnownTo: get(cells, "time_known_to"),
      writtenAfter: get(cells, "written_after"),
    },
  };
}

/** An end without its kind is asked for; a line in place whose last day nobody gave was last known at the table's moment. */
function endFrom(cells: Cells, asOf: Moment): RowEnd | Wrong {
  const kind = known(get<string>(cells, "end_kind"));
  const at = known(get<Moment>(cells, "end_at"));
  if (kind === undefined && at !== undefined) return lacks("end_kind", "removed, handed on, in place or unknown");
  if (kind === "removed" || kind === "handed on") {
    if (at === undefined) return lacks("end_at", "when it came out or was handed on; unknown otherwise");
    return kind === "removed" ? { kind, at, reason: get(cells, "end_reason") } : { kind, at };
  }
  if (kind === "in place") return { kind, lastKnown: at && minuteOf(at) <= minuteOf(asOf) ? at : asOf };
  const placed = known(get<Moment>(cells, "placed_at"));
  const seen = known(get<Moment>(cells, "known_from"));
  // nobody wrote how it stopped: known to be in when it was first seen here, or placed, and no longer
  return { kind: "unknown", lastKnown: at ?? seen ?? placed ?? asOf };
}

export function referralRowFrom(cells: Cells): { readonly kind: "referral"; readonly row: ReferralRow } | Wrong {
  const key = known(get<string>(cells, "line_key"));
  const receivedOn = known(get<Moment>(cells, "placed_at"));
  const outcome = known(get<ReferralRow["outcome"]>(cells, "referral_outcome"));
  if (key === undefined) return lacks("line_key", "a key for each referral");
  if (receivedOn === undefined) return lacks("placed_at", "when the call came");
  if (outcome === undefined) return lacks("referral_outcome", "what came of the referral");
  return {
    kind: "referral",
    row: { key, receivedOn, outcome, instead: get(cells, "instead"), ward: get(cells, "ward") },
  };
}

export function wardMonthFrom(cells: Cells): { readonly kind: "ward month"; readonly row: WardMonth } | Wrong {
  const key = known(get<string>(cells, "line_key"));
  const month = known(get<Moment>(cells, "placed_at"));
  const ward = known(get<string>(cells, "ward"));
  if (key === undefined) return lacks("line_key", "a key for each month of a ward");
  if (month === undefined) return lacks("placed_at", "the first day of the month");
  if (ward === undefined) return lacks("ward", "the ward of the month");
  return {
    kind: "ward month",
    row: {
      key,
      ward,
      month,
      patientDays: get(cells, "patient_days"),
      manualDays: get(cells, "manual_line_days"),
      sampledWithLine: get(cells, "sampled_line_days"),
      sampledAll: get(cells, "sampled_patient_days"),
      sampledDays: get(cells, "sampled_days"),
      everyCentralLine: get(cells, "every_central_line"),
    },
  };
}
