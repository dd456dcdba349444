// A register of a million lines in SQLite: its dwell table read and every measure counted. The lines are invented and
// written into the table by the writer the record's own fold uses; no event stands behind them.
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import {
  audit,
  dwellTable,
  firstOfMonth,
  foldVersion,
  linePiece,
  monthPack,
  periodOf,
  PIECE,
  readMeasures,
  referralBytes,
  REMOVAL_REASONS,
  ROW_EVENTS,
  type LineRow,
  type ReferralRow,
  type StratumName,
} from "../src/audit/index.ts";
import { dayNumber, type CivilDate, type Instant } from "../src/core/calendar/index.ts";
import type { Moment } from "../src/core/dwell/index.ts";
import { missing } from "../src/core/missing/index.ts";
import { minute } from "../src/core/quantity/index.ts";
import { lineRulesFrom } from "../src/paper/line/index.ts";
import { countLimitsFrom, cultureLimitsFrom, defaultPolicy, surveillanceDefinitions } from "../src/policy/index.ts";
import type { DwellLine } from "../src/register/index.ts";
import { openStore } from "../src/store/index.ts";
import { uniformFrom } from "../reference/generated-lines.ts";
import type { BenchmarkRow } from "./plan.ts";

const NOW = "2026-01-01T09:00+00:00" as Instant;
const FIRST = dayNumber("2016-01-01" as CivilDate);
const DAYS = dayNumber("2026-01-01" as CivilDate) - FIRST;
const STRATA: readonly StratumName[] = ["ward", "size", "lumens", "vein", "third", "ratio band", "side", "attempts"];

const at = (utc: number): Moment => ({ precision: "minute", utc: minute(Math.floor(utc)), offset: minute(60) });
const foldRules = {
  rules: lineRulesFrom(defaultPolicy),
  cultures: cultureLimitsFrom(defaultPolicy.table),
  policyVersion: defaultPolicy.version,
};
const unasked = missing("not asked");

/** One invented line of ten years: a stay of some weeks, now and then an event, a tenth of the values absent. */
function inventedLine(place: number, lines: number, u: () => number): LineRow {
  const placed = (FIRST + (DAYS * place) / lines) * 1440 + Math.floor(u() * 600);
  const out = placed + -Math.log(1 - u()) * 26 * 1440;
  const today = (FIRST + DAYS) * 1440;
  const pick = <Value>(options: readonly Value[]): Value => options[Math.floor(u() * options.length)] as Value;
  const maybe = <Value>(value: Value) => (u() < 0.1 ? missing("not measured") : value);
  const ended = out < today;
  const lost = u() < 0.02;
  const kind = u() < 0.85 ? undefined : pick(ROW_EVENTS);
  const flag = kind === "infection" ? u() < 0.6 : unasked;
  return {
    key: `${place.toString(16).padStart(8, "0")}-3f6a-4c1e-9d52-${(place * 7).toString(16).padStart(12, "0")}`,
    patient: `p${Math.floor(u() * lines * 0.8)}-8b1d-4e7a-a0c3-5f2e9d7c6b1a`,
    placed: at(placed),
    knownFrom: undefined,
    end: lost
      ? { kind: "unknown", lastKnown: at(placed + Math.min(out - placed, 4320)) }
      : ended
        ? { kind: "removed", at: at(out), reason: maybe(pick(REMOVAL_REASONS)) }
        : { kind: "in place", lastKnown: at(today - 600) },
    events:
      kind === undefined
        ? []
        : [
            {
              kind,
              at: at(placed + u() * (Math.min(out, today) - placed)),
              clinical: flag,
              surveillance: flag,
              pairedCulture: unasked,
            },
          ],
    side: maybe(pick(["left arm", "right arm"] as const)),
    vein: maybe(pick(["basilic", "brachial", "cephalic"] as const)),
    sizeFr: pick([4, 4, 5, 6]),
    lumens: pick([1, 1, 2, 3]),
    veinDiameterMm: maybe(Math.round(25 + u() * 30) / 10),
    writtenRatio: unasked,
    positionShare: maybe(Math.round(u() * 280) / 280),
    attempts: maybe(pick([1, 1, 1, 2, 3])),
    inserter: pick(["A", "B", "C", "D", "E", "F"]),
    ward: maybe(`Ward ${Math.floor(u() * 24)}`),
    setting: pick(["ward", "home"] as const),
    ageYears: Math.floor(u() * 95),
    diagnosis: maybe(pick(["infection", "solid cancer", "blood cancer", "other"] as const)),
    indication: unasked,
    tipMethod: maybe(pick(["film", "ECG"] as const)),
    tipPlace: maybe(pick(["lower third of the cava", "cavo-atrial junction"] as const)),
    lot: maybe(`lot ${Math.floor(place / 200)}`),
    catheter: pick(["one", "two", "three"]),
    eGfr: maybe(Math.floor(u() * 110)),
    overdueCare: ended ? [] : pick([[], ["dressing"]]),
    overrides: u() < 0.02 ? ["ratio"] : [],
    idleDays: maybe(Math.floor(u() * 4)),
    owned: true,
    checks: {
      insideCm: maybe(Math.floor(25 + u() * 25)),
      weightKg: maybe(Math.floor(50 + u() * 50)),
      replaces: unasked,
      timeKnownTo: "minute",
      writtenAfter: u() < 0.02 ? ["size_fr"] : [],
    },
  };
}

const inventedReferral = (place: number, lines: number, u: () => number): ReferralRow => ({
  key: `r${place}`,
  receivedOn: at((FIRST + (DAYS * place) / lines) * 1440),
  outcome: u() < 0.9 ? "placed" : "declined",
  instead: u() < 0.9 ? unasked : "midline",
  ward: `Ward ${Math.floor(u() * 24)}`,
});

async function fill(file: string, count: number): Promise<void> {
  const store = await openStore(file);
  const u = uniformFrom(11);
  const persons = new Map<string, number>();
  const base = {
    version: foldVersion(foldRules),
    position: 0,
    asOf: NOW,
    lines: count,
    referrals: count,
    people: count,
  };
  for (let from = 0; from < count; from += PIECE) {
    const rows = new Map<number, { readonly row: LineRow; readonly person: number }>();
    const lines: DwellLine[] = [];
    const referrals: { slot: number; row: ReferralRow }[] = [];
    for (let slot = 0; slot < PIECE && from + slot < count; slot += 1) {
      const place = from + slot;
      const row = inventedLine(place, count, u);
      const person = persons.get(row.patient) ?? persons.size;
      persons.set(row.patient, person);
      rows.set(slot, { row, person });
      referrals.push({ slot, row: inventedReferral(place, count, u) });
      lines.push({
        place,
        subject: `line:${row.key}`,
        patient: row.patient,
        person,
        referral: `r${place}`,
        restless: 0,
      });
    }
    const place = from / PIECE;
    const before = from === 0 ? undefined : base;
    const pieces = [linePiece(place, rows), { kind: "referral" as const, place, data: referralBytes(referrals) }];
    const named = referrals.map(({ row, slot }) => ({ place: from + slot, subject: `referral:${row.key}` }));
    if (!(await store.dwell.write({ state: base, lines, referrals: named, pieces }, before)))
      throw new Error("the table was not written");
  }
  await store.close();
}

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;

/** Wall and processor seconds of a piece of work, added to the rows under its name. */
async function timed<Result>(
  rows: Map<string, { readonly wall: number; readonly cpu: number }[]>,
  name: string,
  work: () => Result | Promise<Result>,
): Promise<Result> {
  const [since, cpu] = [performance.now(), process.cpuUsage()];
  const result = await work();
  const used = process.cpuUsage(cpu);
  const taken = { wall: (performance.now() - since) / 1000, cpu: (used.user + used.system) / 1e6 };
  rows.set(name, [...(rows.get(name) ?? []), taken]);
  return result;
}

export async function benchmarkCount(
  count = Number(process.env["VEINWRIGHT_LINES"] ?? 1_000_000),
  rounds = 5,
): Promise<readonly BenchmarkRow[]> {
  const reading = readMeasures();
  if (reading.kind === "faults") throw new Error(JSON.stringify(reading.faults));
  const { measures } = reading;
  const surveillance = surveillanceDefinitions[0] as (typeof surveillanceDefinitions)[number];
  const rules = { limits: countLimitsFrom(defaultPolicy.table), surveillance };
  const folder = mkdtempSync(join(tmpdir(), "veinwright-count-"));
  const taken = new Map<string, { readonly wall: number; readonly cpu: number }[]>();
  try {
    const file = join(folder, "record.sqlite");
    await timed(taken, "written", () => fill(file, count));
    for (let round = 0; round < rounds; round += 1) {
      const store = await openStore(file);
      const [since, cpu] = [performance.now(), process.cpuUsage()];
      const table = await timed(taken, "read from SQLite", () => dwellTable(store, foldRules, NOW));
      const last = firstOfMonth("2026-01-01" as CivilDate, 0);
      const years = periodOf(table, "2016-01-01" as CivilDate, last);
      const year = periodOf(table, firstOfMonth(last, -12), last);
      await timed(taken, "checked, and every measure over all ten years", () =>
        audit(table, measures, years, [], rules),
      );
      const used = process.cpuUsage(cpu);
      const all = { wall: (performance.now() - since) / 1000, cpu: (used.user + used.system) / 1e6 };
      taken.set("read, checked, counted", [...(taken.get("read, checked, counted") ?? []), all]);
      await timed(taken, "every measure again over twelve months", () => audit(table, measures, year, [], rules));
      await timed(taken, "every measure in eight splits over ten years", () =>
        audit(table, measures, years, STRATA, rules),
      );
      if (round === 0 && count <= 200_000)
        await timed(taken, "the monthly pack", () => monthPack(table, measures, firstOfMonth(last, -1), rules));
      await store.close();
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  return [...taken].flatMap(([name, all]): readonly BenchmarkRow[] => [
    { name: `count, ${count} lines: ${name}`, median: median(all.map(({ wall }) => wall)), unit: "s" },
    { name: `the same, processor`, median: median(all.map(({ cpu }) => cpu)), unit: "s" },
  ]);
}
