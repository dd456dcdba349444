import { chiSquareTail } from "../../core/distribution/index.ts";
import { incidenceRate, mantelHaenszel, type Rate, type StratifiedRates } from "../../core/incidence/index.ts";
import { day } from "../../core/quantity/index.ts";
import { logRank, type RiskTable } from "../../core/survival/index.ts";
import type { PoolFile, PooledCount, PoolStratum } from "./pool-file.ts";

export interface PooledRate {
  readonly stratum: string;
  readonly group: string;
  readonly events: number;
  readonly days: number;
  readonly rate: Rate;
  readonly services: number;
}

export interface Pooled {
  readonly measure: string;
  readonly clock: string;
  readonly splitBy: string;
  readonly groups: readonly string[];
  readonly services: readonly string[];
  /** Every stratum of every service is a stratum of its own in both tests below. */
  readonly rates: readonly PooledRate[];
  /** First group over second; undefined with other than two groups. */
  readonly mantelHaenszel: StratifiedRates | "no events on one side" | undefined;
  readonly logRank:
    | {
        readonly chiSquare: number;
        readonly degrees: number;
        readonly chance: number;
        readonly observed: readonly number[];
        readonly expected: readonly number[];
      }
    | undefined;
  /** Rate cells and intervals that were withheld somewhere and so are in no sum above. */
  readonly withheldRates: number;
  readonly withheldIntervals: number;
}

export interface PoolMismatch {
  readonly kind: "mismatch";
  readonly field: "measure" | "clock" | "splitBy" | "strataBy" | "widthDays" | "service";
  readonly found: readonly string[];
}

const SAME = ["measure", "clock", "splitBy", "strataBy", "widthDays"] as const;

/**
 * Several services counted together from their pool files: the same rates, Mantel-Haenszel ratio and stratified log-rank
 * as the joined lines would give at the same grouping, for the sums are the same whole numbers.
 *   strata are service x stratum, so services are never compared with each other
 * Units: those of the files. Holds: files of one measure, clock, split and width, each service once, else the mismatch. A
 * withheld cell leaves its rate, or its interval of time in every group, out of that stratum; both are counted.
 * Source: Mantel 1966; Greenland and Robins 1985, Biometrics 41:55 (from memory).
 */
export function pool(files: readonly PoolFile[], level: number): Pooled | PoolMismatch {
  for (const field of SAME) {
    const found = [...new Set(files.map((file) => String(file[field])))];
    if (found.length > 1) return { kind: "mismatch", field, found };
  }
  const services = files.map(({ service }) => service);
  const again = services.filter((one, at) => services.indexOf(one) !== at);
  if (again.length > 0 || files.length === 0) return { kind: "mismatch", field: "service", found: again };
  const first = files[0] as PoolFile;
  const groups = [...new Set(files.flatMap((file) => file.groups))].sort(
    new Intl.Collator("en", { numeric: true }).compare,
  );
  const strata = files.flatMap((file) => file.strata.map((stratum) => regrouped(stratum, file.groups, groups)));
  const tables = strata.map((stratum) => riskTableOf(stratum, groups.length));
  const cells = strata.flatMap((stratum) =>
    groups.map((group, g) => ({ stratum, group, events: stratum.events[g] ?? null, days: stratum.lineDays[g] ?? 0 })),
  );
  return {
    measure: first.measure,
    clock: first.clock,
    splitBy: first.splitBy,
    groups,
    services,
    rates: pooledRates(cells, first, level),
    mantelHaenszel: groups.length === 2 ? ratioOver(strata, first.clock, level) : undefined,
    logRank: groups.length > 1 ? testOver(tables.map(({ table }) => table)) : undefined,
    withheldRates: cells.filter(({ events }) => events === null).length,
    withheldIntervals: tables.reduce((sum, { dropped }) => sum + dropped, 0),
  };
}

/** A stratum in the common order of groups; a group the service does not have holds nobody. */
function regrouped(stratum: PoolStratum, own: readonly string[], groups: readonly string[]): PoolStratum {
  const pick = <Value>(row: readonly Value[], empty: Value) =>
    groups.map((group) => (own.includes(group) ? (row[own.indexOf(group)] as Value) : empty));
  return {
    stratum: stratum.stratum,
    events: pick<PooledCount>(stratum.events, 0),
    lineDays: pick(stratum.lineDays, 0),
    lines: pick<PooledCount>(stratum.lines, 0),
    atRisk: stratum.atRisk.map((row) => pick<PooledCount>(row, 0)),
    ends: stratum.ends.map((row) => pick<PooledCount>(row, 0)),
  };
}

function riskTableOf(
  { atRisk, ends }: PoolStratum,
  groups: number,
): { readonly table: RiskTable; readonly dropped: number } {
  const whole = atRisk.flatMap((row, k) => {
    const own = ends[k] ?? [];
    const known = [...row, ...own].every((cell) => cell !== null);
    return known ? [{ time: k + 1, row: row as readonly number[], own: own as readonly number[] }] : [];
  });
  const kept = whole.filter(({ own }) => own.some((count) => count > 0));
  return {
    table: {
      groups,
      kinds: 1,
      time: Float64Array.from(kept, ({ time }) => time),
      atRisk: Float64Array.from(kept.flatMap(({ row }) => row)),
      ends: Float64Array.from(kept.flatMap(({ own }) => own)),
      delayedEntry: false,
    },
    dropped: atRisk.length - whole.length,
  };
}

function testOver(tables: readonly RiskTable[]): NonNullable<Pooled["logRank"]> {
  const test = logRank(tables, { kind: "log-rank" }, 1);
  return {
    chiSquare: test.statistic,
    degrees: test.degreesOfFreedom,
    // every interval withheld leaves nothing to tell the groups apart by
    chance: test.degreesOfFreedom === 0 ? 1 : chiSquareTail("upper", test.statistic, test.degreesOfFreedom),
    observed: [...test.observed],
    expected: [...test.expected],
  };
}

function ratioOver(strata: readonly PoolStratum[], clock: string, level: number): Pooled["mantelHaenszel"] {
  const usable = strata.flatMap(({ events, lineDays }) => {
    const [a, b] = events;
    const [n1, n0] = lineDays;
    if (a === null || b === null || a === undefined || b === undefined || !n1 || !n0) return [];
    return [{ first: { events: a, days: day(n1), clock }, second: { events: b, days: day(n0), clock } }];
  });
  return usable.length === 0 ? "no events on one side" : mantelHaenszel(usable, level);
}

/** Summed over services by stratum and group; a service whose cell is withheld adds neither events nor days. */
function pooledRates(
  cells: readonly {
    readonly stratum: PoolStratum;
    readonly group: string;
    readonly events: PooledCount;
    readonly days: number;
  }[],
  { clock }: PoolFile,
  level: number,
): readonly PooledRate[] {
  const sums = new Map<string, { stratum: string; group: string; events: number; days: number; services: number }>();
  for (const { stratum, group, events, days } of cells) {
    if (events === null || days === 0) continue;
    const key = JSON.stringify([stratum.stratum, group]);
    const sum = sums.get(key) ?? { stratum: stratum.stratum, group, events: 0, days: 0, services: 0 };
    sums.set(key, { ...sum, events: sum.events + events, days: sum.days + days, services: sum.services + 1 });
  }
  return [...sums.values()].map((sum) => ({
    ...sum,
    rate: incidenceRate({ events: sum.events, days: day(sum.days), clock }, level, "exact"),
  }));
}
