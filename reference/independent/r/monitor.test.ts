import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import {
  monthPack,
  proposedBases,
  readMeasures,
  type AuditTable,
  type Measure,
  type ServiceChart,
  type ServiceMonitor,
} from "../../../src/audit/index.ts";
import { readLineTable } from "../../../src/contract/index.ts";
import { dayNumber, parseCivilDate, type CivilDate, type Instant } from "../../../src/core/calendar/index.ts";
import { ruleInForce } from "../../../src/core/dwell/index.ts";
import { chartInput } from "../../../src/figure/index.ts";
import { countLimitsFrom, defaultPolicyTable, surveillanceDefinitions } from "../../../src/policy/index.ts";
import type { KeptBase, ServiceMemory } from "../../../src/register/index.ts";
import { checkAgainst } from "../../check.ts";
import { AS_OF, monitorYears } from "./monitor-years.ts";

/*
 * Every number of the pack's page on time, twice: here, and by monitor.R, which was written from the definitions and
 * finds the decision limit by an integral equation where this program has a closed form. Kept values of one service
 * stand beside the script; where R is installed they are repeated, with a smaller and a larger one.
 */
const [MONTH, YEAR_FROM, FROZEN_FROM, FROZEN_TO] = ["2025-12", "2025-01-01", "2022-01-01", "2024-01-01"] as const;
const HOUSES = [
  ["kept", 11, 330],
  ["small", 2, 160],
  ["large", 5, 1000],
] as const;
const here = (name: string) => fileURLToPath(new URL(name, import.meta.url));
const date = (text: string) => parseCivilDate(text) as CivilDate;
const limits = countLimitsFrom(defaultPolicyTable);
const surveillance = ruleInForce(
  surveillanceDefinitions,
  date(`${MONTH}-01`),
) as (typeof surveillanceDefinitions)[number];
const rules = { limits, surveillance };
const read = readMeasures();
const measures: readonly Measure[] = read.kind === "measures" ? read.measures : [];
const WATCHED = new Set(["infection-clinical", "thrombosis", "occlusion"]);
const watched = measures.filter(({ id }) => WATCHED.has(id));

function tableOf(csv: string): AuditTable {
  const reading = readLineTable(csv, { precision: "date", date: AS_OF });
  if (reading.kind === "faults") throw new Error(JSON.stringify(reading.faults.slice(0, 3)));
  return reading.table;
}

/** The bases as a person would set them on the first of January of the year drawn; undefined where one cannot be had. */
function frozenMemory(table: AuditTable): ServiceMemory | undefined {
  const span = { from: date(FROZEN_FROM), to: date(FROZEN_TO), until: date(YEAR_FROM) };
  const bases = proposedBases(table, watched, span, rules, {}, "1").map(({ measure, entry }): KeptBase | undefined => {
    const value = (recorded: unknown) => (recorded as { readonly value: number }).value;
    return (
      entry && {
        id: measure,
        at: "2025-01-01T09:00+00:00" as Instant,
        author: { initials: "LO", role: "lead", account: "" },
        measure,
        from: span.from,
        to: span.to,
        events: value(entry.baseEvents),
        lineDays: value(entry.baseLineDays),
        targetPerThousand: undefined,
        decision: value(entry.decision),
        ruleVersion: "1",
        by: "L. Orr",
        why: "two years",
      }
    );
  });
  const kept = bases.filter((base) => base !== undefined);
  return kept.length < bases.length
    ? undefined
    : { subject: "service:here", version: 1, bases: kept, signals: [], actions: [], changes: [] };
}

type Put = (name: string, value: number | boolean | undefined) => void;
const PICTURES = ["each event as a case", "sums of gaps and a quarterly chart", "quarterly chart", "monthly chart"];
const SIGNALS = { high: 1, low: -1 } as const;

function putMonitor(scope: string, monitor: ServiceMonitor, put: Put): void {
  for (const chart of monitor.charts) putChart(`${scope}|${chart.measure}`, chart, monitor, put);
  put(`${scope}|alarms`, monitor.plan.alarms);
  put(`${scope}|months between`, monitor.plan.monthsBetweenFalseSignals);
  put(`${scope}|chance in a year`, monitor.plan.falseSignalChanceInAYear);
}

function putChart(scope: string, chart: ServiceChart, { now }: ServiceMonitor, put: Put): void {
  const own = (name: string, value: number | boolean | undefined) => put(`${scope}|${name}`, value);
  const { plan, watch } = chart;
  own("expected a year", plan.expectedPerYear);
  own("base events", plan.base.events);
  own("base", plan.base.perThousand);
  own("base lower", plan.base.lower);
  own("base upper", plan.base.upper);
  own("enough", plan.base.enough);
  own("picture", PICTURES.indexOf(plan.picture));
  own("decision", plan.alarm?.decision);
  own("years between", plan.alarm?.yearsBetweenFalseSignals);
  own("events to show", plan.alarm?.eventsToShow);
  own("months to show", plan.alarm?.monthsToShow);
  const drawn = chartInput(chart, now, limits.signalChance);
  for (const [at, { events, lineDays, point }] of chart.spans.entries()) {
    const span = (name: string, value: number | boolean | undefined) => own(`span ${at + 1}|${name}`, value);
    span("events", events);
    span("days", lineDays);
    span("rate", point?.rate);
    span("classical lower", point?.lower);
    span("classical upper", point?.upper);
    span("outside", point?.outsideClassical);
    span("as many", point?.asManyOrMore);
    span("as few", point?.asFewOrFewer);
    span("signal", point && (point.signal ? SIGNALS[point.signal] : 0));
    span("drawn upper", drawn?.spans[at]?.upper);
    span("drawn lower", drawn?.spans[at]?.lower);
  }
  for (const [at, { lineDays, chanceOfFour }] of chart.gaps.entries()) {
    own(`gap ${at + 1}`, lineDays);
    own(`gap ${at + 1}|four`, chanceOfFour);
  }
  own("since last", chart.sinceLast);
  if (!watch) return;
  for (const { on, sum } of watch.points) own(`sum|${dayNumber(on)}`, sum);
  own("signals", watch.signals.length);
  for (const [at, signal] of watch.signals.entries()) {
    const one = (name: string, value: number | boolean) => own(`signal ${at + 1}|${name}`, value);
    one("on", dayNumber(signal.on));
    one("since", dayNumber(signal.since));
    one("events", signal.events);
    one("days", signal.lineDays);
    one("expected", signal.expected);
    one("chance", signal.surprise.asManyOrMore);
    one("chance mid", signal.surprise.asManyOrMoreMidP);
    one("strong", signal.strong);
    one("provisional", signal.provisional);
    one("lines", signal.lines.length);
    one("looked at", signal.shared.lookedAt);
    one("by coincidence", signal.shared.byCoincidence);
    one("named", signal.shared.named.length);
    for (const shared of signal.shared.shared) {
      const part = (name: string, value: number) => one(`${shared.exposure} ${shared.value}|${name}`, value);
      part("in cluster", shared.inCluster);
      part("cluster known", shared.clusterKnown);
      part("in all", shared.inAll);
      part("all known", shared.allKnown);
      part("chance", shared.chance);
      part("after looking", shared.chanceAfterLooking);
    }
  }
}

/** Every number of page 2 of a table under the name that monitor.R gives it. */
function numbersOf(where: string, csv: string): ReadonlyMap<string, number> {
  const numbers = new Map<string, number>();
  const put: Put = (name, value) => {
    if (value !== undefined) numbers.set(`${where}|${name}`, Number(value));
  };
  const table = tableOf(csv);
  const moving = monthPack(table, measures, date(`${MONTH}-01`), rules).monitor;
  if (!moving) throw new Error("no base");
  putMonitor("moving", moving, put);
  const memory = frozenMemory(table);
  if (!memory) return numbers;
  for (const { measure, decision } of memory.bases) put(`set|${measure}|decision`, decision);
  putMonitor(
    "frozen",
    monthPack(table, measures, date(`${MONTH}-01`), rules, { memory }).monitor as ServiceMonitor,
    put,
  );
  return numbers;
}

/** What rests on the decision limit is held to the tolerance of the integral equation, the rest to rounding. */
const toleranceOf = (name: string): number =>
  /decision|years between|events to show|months to show|frozen\|(months between|chance in)/.test(name) ? 2e-6 : 1e-9;

function differences(ours: ReadonlyMap<string, number>, theirs: ReadonlyMap<string, number>): readonly string[] {
  return [...new Set([...ours.keys(), ...theirs.keys()])].flatMap((name) => {
    const [own, other] = [ours.get(name), theirs.get(name)];
    if (own === undefined || other === undefined) return [`${name}: ${own} here, ${other} in R`];
    return Math.abs(own - other) <= toleranceOf(name) * Math.abs(other) + 1e-10
      ? []
      : [`${name}: ${own} here, ${other} in R`];
  });
}

const parsed = (text: string) => new Map(Object.entries(JSON.parse(text) as Record<string, number>));
const rscript = (args: readonly string[]) =>
  spawnSync("Rscript", ["--vanilla", ...args], { encoding: "utf8", maxBuffer: 1 << 28 });
const hasR = rscript(["-e", "1"]).status === 0;

const golden = parsed(readFileSync(here("monitor-golden.json"), "utf8"));
const [keptName, keptSeed, keptLines] = HOUSES[0];
const kept = numbersOf(keptName, monitorYears(keptSeed, keptLines));

/** How far apart, as a share of R's number; both at nought is no distance, and a nought beside rounding is told as it is. */
const apartBy = (own: number, other: number): number =>
  Math.abs(own - other) <= 1e-10 ? 0 : Math.abs(own - other) / Math.abs(other);

for (const [quantity, rests] of [
  ["Page on time: decisions, years between false signals and months to show, one service", true],
  ["Page on time: base, chart, gaps, daily sums, signals and what they share, one service", false],
] as const) {
  const names = [...golden.keys()].filter((name) => toleranceOf(name) > 1e-9 === rests);
  checkAgainst(
    {
      quantity,
      unit: "relative",
      source: rests
        ? "R 4.2.2, integral equation of the sum watched at events, collocation"
        : "R 4.2.2, written from the definitions (monitor.R)",
      kind: "independent",
      tolerance: rests ? 2e-6 : 1e-9,
      comparisons: names.length,
    },
    (compare) => {
      for (const name of names) compare(name, apartBy(kept.get(name) ?? Number.NaN, golden.get(name) as number), 0);
    },
  );
}

test("the page of the kept service prints no number that R has not counted, and the other way round", () => {
  expect([...kept.keys()].filter((name) => !golden.has(name))).toEqual([]);
  expect([...golden.keys()].filter((name) => !kept.has(name))).toEqual([]);
  expect([...golden.keys()].filter((name) => /frozen.*signal \d+\|on$/.test(name)).length).toBeGreaterThan(1);
  expect(kept.size).toBeGreaterThan(4000);
});

if (hasR)
  test("R live: the kept service repeats, and a smaller and a larger one give the same numbers and the same signals", () => {
    const folder = mkdtempSync(join(tmpdir(), "veinwright-monitor-"));
    try {
      const ours = new Map<string, number>();
      const files = HOUSES.map(([name, seed, lines]) => {
        const csv = monitorYears(seed, lines);
        for (const [key, value] of numbersOf(name, csv)) ours.set(key, value);
        writeFileSync(join(folder, `${name}.csv`), csv);
        return join(folder, `${name}.csv`);
      });
      const run = rscript([here("monitor.R"), MONTH, AS_OF, FROZEN_FROM, FROZEN_TO, ...files]);
      expect(run.status, run.stderr).toBe(0);
      const theirs = parsed(run.stdout);
      const apart = differences(ours, theirs);
      console.log(`${ours.size} numbers of 3 pages on time against R, ${apart.length} apart.`);
      expect(apart.slice(0, 20)).toEqual([]);
      expect([...theirs.keys()].filter((name) => /frozen.*signal \d+\|on$/.test(name)).length).toBeGreaterThan(1);
      const repeated = [...theirs].filter(([name]) => name.startsWith(`${keptName}|`));
      if (process.env["VEINWRIGHT_WRITE_PAGES"])
        writeFileSync(
          here("monitor-golden.json"),
          `{\n${repeated.map(([name, value]) => `  ${JSON.stringify(name)}: ${value}`).join(",\n")}\n}\n`,
        );
      expect(differences(new Map(repeated), parsed(readFileSync(here("monitor-golden.json"), "utf8")))).toEqual([]);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  }, 240_000);
else
  test("R is not installed here: the kept values stand unrepeated", () => {
    expect(hasR).toBe(false);
  });
