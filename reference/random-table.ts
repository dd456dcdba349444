import {
  REFERRAL_OUTCOMES,
  REMOVAL_REASONS,
  ROW_EVENTS,
  type AuditTable,
  type LineRow,
  TIME_KNOWN_TO,
  type ReferralRow,
  type RowChecks,
  type RowEvent,
  type WardMonth,
} from "../src/audit/index.ts";
import { civilDateFromDayNumber, dayNumber, type CivilDate } from "../src/core/calendar/index.ts";
import type { Moment } from "../src/core/dwell/index.ts";
import { missing, MISSING_KINDS, type Maybe } from "../src/core/missing/index.ts";
import { minute } from "../src/core/quantity/index.ts";
import { uniformFrom } from "./generated-lines.ts";

/** Minutes at noon of the first day of the next month. */
const monthAfter = (at: number): number => {
  const month = civilDateFromDayNumber(Math.floor(at / 1440) + 31).slice(0, 7);
  return dayNumber(`${month}-01` as CivilDate) * 1440 + 720;
};
/** So many days later, on the same clock. */
const later = (moment: Moment, days: number): Moment =>
  moment.precision === "date"
    ? { ...moment, date: civilDateFromDayNumber(dayNumber(moment.date) + days) }
    : { ...moment, utc: minute(moment.utc + days * 1440) };
const FIRST = dayNumber("2024-01-01" as CivilDate);
const DAYS = 900;

/**
 * An odd table from a seed: every field, every absence, dates beside times on several clocks, ends before their
 * beginnings, lines known before they were placed, rows and keys that come twice, two lines in one vein, events outside their line, unknown ends, checks in
 * all rows, in some or in none, values that cannot be together, one infection at two lines, lines that name another or
 * nobody as the one before, lines handed on that come back, infections again about where the repeat frame ends, the dead who are seen again, months without writing, months of wards.
 * It is made to differ wherever two ways of counting could differ, and is like no service.
 */
export function randomTable(seed: number, count: number): AuditTable {
  const u = uniformFrom(seed);
  const whole = (least: number, most: number) => least + Math.floor(u() * (most - least + 1));
  const pick = <Value>(options: readonly Value[]): Value => options[whole(0, options.length - 1)] as Value;
  const maybe = <Value>(value: () => Value, share = 0.15): Maybe<Value> =>
    u() < share ? missing(pick(MISSING_KINDS)) : value();
  const dated = u() * 0.4;
  const moment = (at: number): Moment =>
    u() < dated
      ? { precision: "date", date: civilDateFromDayNumber(Math.floor(at / 1440)) }
      : { precision: "minute", utc: minute(Math.round(at)), offset: minute(pick([0, 60, 120, -300, 570])) };
  const event = (placed: number, stay: number): RowEvent => {
    const kind = pick(ROW_EVENTS);
    const flag = () => (kind === "infection" ? maybe(() => u() < 0.6, 0.3) : missing("not asked"));
    const at = placed + (u() * 1.15 - 0.05) * (stay + 2880);
    // some blocked lines were seen to run again
    const cleared = kind === "occlusion" && whole(0, 1) === 1 ? { clearedAt: moment(at + whole(0, 3)) } : {};
    // no draw of its own: tables of before keep their numbers
    const asked = [undefined, true, false, missing("not known")][Math.abs(Math.floor(at)) % 4];
    const mucosal = kind === "infection" && asked !== undefined ? { mucosal: asked } : {};
    return {
      kind,
      at: moment(at),
      clinical: flag(),
      surveillance: flag(),
      pairedCulture: flag(),
      ...mucosal,
      ...cleared,
    };
  };
  // here and there an infection comes again about where the repeat frame of 14 days ends
  const againAtFrame = (one: RowEvent): readonly RowEvent[] =>
    one.kind !== "infection" || u() < 0.7
      ? [one]
      : [one, { ...one, at: later(one.at, whole(12, 16)) }].map((each) => ({ ...each, surveillance: true }));
  const checked = pick([0, 0.7, 1]);
  // in some tables nobody wrote for a quarter of a year
  const silent = u() < 0.6 ? whole(100, 500) : Infinity;
  const day = (): number => {
    const on = u() * DAYS;
    return on >= silent && on < silent + 95 ? on - 95 : on;
  };
  const checks = (): RowChecks => ({
    insideCm: maybe(() => whole(8, 60)),
    weightKg: maybe(() => pick([0.1, 2, 4, 12, 25, 70, 130, 400])),
    replaces: maybe(() => pick([`L${whole(0, count)}`, `L${whole(0, count)}`, "another house"]), 0.8),
    timeKnownTo: maybe(() => (u() < 0.1 ? "month" : pick(TIME_KNOWN_TO.slice(0, 2)))),
    writtenAfter: maybe(() => pick([[], [], ["vein"], ["size_fr", "side"]])),
  });
  const lines: LineRow[] = [];
  for (let at = 0; at < count; at += 1) {
    const before = lines.at(-1);
    if (before && u() < 0.02) {
      lines.push({ ...before, key: u() < 0.5 ? before.key : `again ${at}` });
      continue;
    }
    if (before?.end.kind === "handed on" && u() < 0.3) {
      // it came back, a day too early for two stays in some rows
      lines.push({
        ...before,
        key: `back ${at}`,
        knownFrom: later(before.end.at, whole(-1, 3)),
        end: { kind: "in place", lastKnown: later(before.end.at, whole(2, 20)) },
        events: before.events.map((one) => ({ ...one, at: later(one.at, whole(0, 12)) })),
      });
      continue;
    }
    if (before && u() < 0.03) {
      // the line is another one and the infection the same, but for what the cultures of each showed
      lines.push({
        ...before,
        key: `with ${at}`,
        placed: moment((FIRST + day()) * 1440),
        knownFrom: undefined,
        events: before.events.map((one) => ({ ...one, pairedCulture: u() < 0.5 })),
      });
      continue;
    }
    const placed = (FIRST + day()) * 1440;
    const stay = u() < 0.03 ? 0 : -Math.log(1 - u()) * 30 * 1440 * (u() < 0.02 ? 30 : 1);
    const left = u() < 0.02 ? placed - 3000 : placed + stay;
    const hushed = left / 1440 - FIRST >= silent && left / 1440 - FIRST < silent + 95;
    const out = hushed && stay > 0 ? left + 95 * 1440 : stay > 0 && u() < 0.1 ? monthAfter(left) : left;
    const end = pick(["removed", "removed", "removed", "handed on", "in place", "unknown"] as const);
    lines.push({
      key: `L${at}`,
      patient: `P${whole(0, Math.ceil(count * 0.6))}`,
      placed: u() < 0.01 ? undefined : moment(placed),
      knownFrom: u() < 0.1 ? moment(placed + (u() < 0.2 ? -u() * 2880 : u() * stay)) : undefined,
      end:
        end === "removed"
          ? { kind: end, at: moment(out), reason: maybe(() => pick(REMOVAL_REASONS)) }
          : end === "handed on"
            ? { kind: end, at: moment(out) }
            : { kind: end, lastKnown: moment(out) },
      events: u() < 0.5 ? [] : Array.from({ length: whole(1, 4) }, () => event(placed, stay)).flatMap(againAtFrame),
      side: maybe(() => pick(["left arm", "right arm"] as const)),
      vein: maybe(() => pick(["basilic", "brachial", "cephalic", "axillary"] as const)),
      sizeFr: maybe(() => pick([1.9, 2, 3, 4, 5, 6])),
      lumens: maybe(() => pick([1, 1, 2, 3, 4, 5])),
      veinDiameterMm: maybe(() => Math.round(u() * 50 + 5) / 10, 0.3),
      writtenRatio: maybe(() => u() * 1.2, 0.6),
      positionShare: maybe(() => u()),
      attempts: maybe(() => whole(1, 5)),
      inserter: maybe(() => `S${whole(1, 5)}`),
      ward: maybe(() => pick(["2", "10", "A", "not known", "a"])),
      setting: maybe(() => pick(["ward", "home"] as const)),
      ageYears: maybe(() => (u() < 0.01 ? -1 : whole(0, 95))),
      diagnosis: maybe(() => pick(["infection", "solid cancer", "other"] as const)),
      indication: maybe(() => pick(["antimicrobial", "chemotherapy"] as const)),
      tipMethod: maybe(() => pick(["film", "ECG"] as const)),
      tipPlace: maybe(() => pick(["lower third of the cava", "cavo-atrial junction", "right atrium"] as const)),
      lot: maybe(() => `lot ${whole(1, 9)}`),
      catheter: maybe(() => pick(["one", "two"])),
      eGfr: maybe(() => whole(5, 110)),
      overdueCare: maybe(() => pick([[], ["dressing"], ["flush", "dressing"]])),
      overrides: maybe(() => pick([[], [], ["ratio"]])),
      idleDays: maybe(() => whole(0, 40)),
      owned: maybe(() => u() < 0.8),
      ...(u() < checked ? { checks: checks() } : {}),
    });
  }
  const referrals = Array.from({ length: Math.ceil(count / 5) }, (_, at): ReferralRow => ({
    key: `R${at}`,
    receivedOn: moment((FIRST + u() * DAYS) * 1440),
    outcome: pick(REFERRAL_OUTCOMES),
    instead: maybe(() => pick(["cannula", "midline"])),
    ward: maybe(() => pick(["2", "A", "only referrals"])),
  }));
  const asOf = moment((FIRST + DAYS * (0.8 + u() * 0.3)) * 1440);
  const wardMonths = Array.from({ length: u() < 0.3 ? 0 : whole(1, 12) }, (_, at): WardMonth => ({
    key: `W${at}`,
    ward: pick(["2", "10", "A", "no such ward"]),
    month: { precision: "date", date: `202${whole(4, 6)}-${pick(["01", "02", "04", "07", "12"])}-01` as CivilDate },
    patientDays: maybe(() => whole(0, 6 * count)),
    manualDays: maybe(() => whole(0, count)),
    sampledWithLine: maybe(() => whole(0, 20)),
    sampledAll: maybe(() => whole(0, 40)),
  }));
  return { asOf, lines, referrals, ...(wardMonths.length === 0 ? {} : { wardMonths }) };
}
