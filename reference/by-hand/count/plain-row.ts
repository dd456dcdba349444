import type { LineRow, RowEnd, RowEvent } from "../../../src/audit/index.ts";
import { parseCivilDate, parseInstant, type CivilDate, type Instant } from "../../../src/core/calendar/index.ts";
import type { Moment } from "../../../src/core/dwell/index.ts";
import { missing } from "../../../src/core/missing/index.ts";
import { momentOfInstant } from "../../../src/audit/index.ts";

const none = missing("not asked");
export const on = (text: string): CivilDate => parseCivilDate(text) as CivilDate;
export const dated = (text: string): Moment => ({ precision: "date", date: on(text) });
export const timed = (text: string): Moment => momentOfInstant(parseInstant(text) as Instant);
export const removed = (
  text: string,
  reason: Extract<RowEnd, { kind: "removed" }>["reason"] = "treatment ended",
): RowEnd => ({
  kind: "removed",
  at: text.length > 10 ? timed(text) : dated(text),
  reason,
});
export const happened = (kind: RowEvent["kind"], text: string, flags: Partial<RowEvent> = {}): RowEvent => ({
  kind,
  at: text.length > 10 ? timed(text) : dated(text),
  clinical: none,
  surveillance: none,
  pairedCulture: none,
  ...flags,
});

/** A row with nothing but its key, its person, its placing and its end; the rest was not asked. */
export const plainRow = (
  key: string,
  placed: string | undefined,
  end: RowEnd,
  more: Partial<LineRow> = {},
): LineRow => ({
  key,
  patient: `patient of ${key}`,
  placed: placed === undefined ? undefined : placed.length > 10 ? timed(placed) : dated(placed),
  knownFrom: undefined,
  end,
  events: [],
  side: none,
  vein: none,
  sizeFr: none,
  lumens: none,
  veinDiameterMm: none,
  writtenRatio: none,
  positionShare: none,
  attempts: none,
  inserter: none,
  ward: none,
  setting: none,
  ageYears: none,
  diagnosis: none,
  indication: none,
  tipMethod: none,
  tipPlace: none,
  lot: none,
  catheter: none,
  eGfr: none,
  overdueCare: none,
  overrides: none,
  idleDays: none,
  owned: none,
  ...more,
});
