import { describe, expect, test } from "vitest";
import {
  audit,
  checkTable,
  monitorService,
  periodOf,
  readMeasures,
  type AuditTable,
  type Figure,
  type LineRow,
  type Measure,
} from "../../src/audit/index.ts";
import { ruleInForce } from "../../src/core/dwell/index.ts";
import { countLimitsFrom, defaultPolicyTable, surveillanceDefinitions } from "../../src/policy/index.ts";
import { dated, happened, on, plainRow, removed, timed } from "../../reference/by-hand/count/plain-row.ts";

/*
 * Every edge of a count, in every zone and over a change of clocks. The outside: a month has the hours that the zone
 * database of this machine (IANA, through Intl) gives it; the day after local midnight is the next date, wherever it is.
 */
const surveillance = ruleInForce(surveillanceDefinitions, on("2025-03-01")) as (typeof surveillanceDefinitions)[number];
const rules = { limits: countLimitsFrom(defaultPolicyTable), surveillance };
const read = readMeasures();
const measures = read.kind === "measures" ? read.measures : [];
const measure = (id: string): Measure => measures.find((one) => one.id === id) as Measure;

/** Whole hours from twelve behind to fourteen ahead, and the zones of half and three quarter hours. */
const ZONES = [...Array.from({ length: 27 }, (_, at) => (at - 12) * 60), -570, -210, 330, 345, 525, 765];
const offsetText = (minutes: number): string => {
  const [sign, away] = [minutes < 0 ? "-" : "+", Math.abs(minutes)];
  return `${sign}${String(Math.floor(away / 60)).padStart(2, "0")}:${String(away % 60).padStart(2, "0")}`;
};
const tableOf = (asOf: AuditTable["asOf"], ...lines: readonly LineRow[]): AuditTable => ({
  asOf,
  lines,
  referrals: [],
});
const asked = (table: AuditTable, from: string, to: string, ids: readonly string[]): readonly Figure[] =>
  audit(table, ids.map(measure), periodOf(table, on(from), on(to)), [], rules).figures;
const numbers = (table: AuditTable, from: string, to: string, ...ids: readonly string[]): readonly number[] =>
  asked(table, from, to, ids).map(({ numerator }) => numerator);

describe.each(ZONES.map(offsetText))("given a table written by a clock at %s", (zone) => {
  const minute = (text: string) => `${text}${zone}`;
  const clockRow = plainRow("clock", minute("2025-03-20T09:00"), removed(minute("2025-04-10T09:00")));

  test("when a line has dates alone, then its last day of March is March's and its first of April April's", () => {
    const table = tableOf(
      dated("2025-06-01"),
      clockRow,
      plainRow("dates", "2025-03-31", removed("2025-04-02"), { events: [happened("occlusion", "2025-03-31")] }),
    );
    const without = tableOf(dated("2025-06-01"), clockRow);
    const ids = ["placed", "occlusion", "line-days-exact", "line-days-calendar"] as const;
    const own = (from: string, to: string) => {
      const [all, others] = [numbers(table, from, to, ...ids), numbers(without, from, to, ...ids)];
      return all.map((count, at) => count - (others[at] as number));
    };
    // noon of the 31st to midnight is half a day; then to noon of the 2nd a day and a half
    expect(own("2025-03-01", "2025-04-01")).toEqual([1, 1, expect.closeTo(0.5, 12), 1]);
    expect(own("2025-04-01", "2025-05-01")).toEqual([0, 0, expect.closeTo(1.5, 12), 2]);
  });

  test("when a line goes in half an hour before the month turns, then half an hour is the month's", () => {
    const table = tableOf(
      dated("2025-06-01"),
      plainRow("late", minute("2025-03-31T23:30"), removed(minute("2025-04-01T00:45")), {
        events: [happened("occlusion", minute("2025-04-01T00:10"))],
      }),
    );
    const ids = ["placed", "removed", "occlusion", "line-days-exact"];
    expect(numbers(table, "2025-03-01", "2025-04-01", ...ids)).toEqual([1, 0, 0, expect.closeTo(30 / 1440, 12)]);
    expect(numbers(table, "2025-04-01", "2025-05-01", ...ids)).toEqual([0, 1, 1, expect.closeTo(45 / 1440, 12)]);
  });

  test("when a line came with the patient, then its days are the service's from that date on", () => {
    const table = tableOf(
      dated("2025-06-01"),
      plainRow("came", "2025-02-03", removed(minute("2025-04-02T12:00")), { knownFrom: dated("2025-03-31") }),
    );
    expect(numbers(table, "2025-03-01", "2025-04-01", "placed", "line-days-exact")).toEqual([
      0,
      expect.closeTo(0.5, 12),
    ]);
    expect(numbers(table, "2025-04-01", "2025-05-01", "line-days-exact")).toEqual([expect.closeTo(1.5, 12)]);
  });

  test("when the record is counted far away, then today's line here is not a line of tomorrow", () => {
    const here = timed(minute("2025-04-01T12:00")) as Extract<AuditTable["asOf"], { readonly precision: "minute" }>;
    const abroad = ["2025-01-01T00:00-12:00", "2025-01-01T00:00Z", "2025-01-01T00:00+14:00"].map(timed);
    // the moment at which the clock here shows noon, written by the clock of the one who counts
    for (const other of abroad) {
      const asOf = { ...other, utc: here.utc } as AuditTable["asOf"];
      const table = tableOf(
        asOf,
        plainRow("now", minute("2025-04-01T11:00"), { kind: "in place", lastKnown: timed(minute("2025-04-01T11:30")) }),
        plainRow("tomorrow", minute("2025-04-02T00:30"), {
          kind: "in place",
          lastKnown: timed(minute("2025-04-02T00:30")),
        }),
      );
      const { issues } = checkTable(table, rules.limits, surveillance);
      expect(issues.filter(({ code }) => code === "T2").map(({ lines }) => lines)).toEqual([["tomorrow"]]);
    }
  });
});

/** What the clocks of a place show at an instant, as minutes ahead of UTC: by the zone database of this machine. */
function aheadOfUtc(zone: string, utc: number): number {
  const parts = new Intl.DateTimeFormat("en-GB", {
    timeZone: zone,
    hourCycle: "h23",
    year: "numeric",
    month: "2-digit",
    day: "2-digit",
    hour: "2-digit",
    minute: "2-digit",
  }).formatToParts(utc);
  const part = (type: string) => Number(parts.find((one) => one.type === type)?.value);
  return (Date.UTC(part("year"), part("month") - 1, part("day"), part("hour"), part("minute")) - utc) / 60_000;
}

describe.each([
  // place, month, hours of that month: 24 x days less or plus the shift of that spring or autumn
  ["Europe/London", "2025-03", 31 * 24 - 1],
  ["Europe/London", "2025-10", 31 * 24 + 1],
  ["America/New_York", "2025-11", 30 * 24 + 1],
  ["America/St_Johns", "2025-03", 31 * 24 - 1],
  ["Australia/Lord_Howe", "2025-04", 30 * 24 + 0.5],
  ["Pacific/Auckland", "2025-09", 30 * 24 - 1],
  ["Pacific/Kiritimati", "2025-03", 31 * 24],
  ["Pacific/Pago_Pago", "2025-03", 31 * 24],
] as const)("given clocks of %s in %s", (zone, month, hours) => {
  const at = (day: string, hour: string) => {
    const wall = Date.parse(`${day}T${hour}Z`);
    const first = aheadOfUtc(zone, wall);
    return timed(`${day}T${hour}${offsetText(aheadOfUtc(zone, wall - first * 60_000))}`);
  };
  const [year, one] = month.split("-").map(Number) as [number, number];
  const next = `${one === 12 ? year + 1 : year}-${String((one % 12) + 1).padStart(2, "0")}`;
  const row = (
    key: string,
    placed: LineRow["placed"],
    out: LineRow["placed"],
    more: Partial<LineRow> = {},
  ): LineRow => ({
    ...plainRow(
      key,
      "2025-01-01",
      { kind: "removed", at: out as NonNullable<typeof out>, reason: "treatment ended" },
      more,
    ),
    placed,
  });
  const before = at(`${month}-01`, "08:00");
  const beforeBase = timed(
    `${year - 1}-11-05T10:00${offsetText(aheadOfUtc(zone, Date.parse(`${year - 1}-11-05T10:00Z`)))}`,
  );
  const table = tableOf(
    dated("2026-06-01"),
    row("base", beforeBase, at(`${next}-20`, "10:00")),
    row("first", before, at(`${month}-01`, "20:00")),
    row("last", at(`${next}-01`, "08:00"), at(`${next}-03`, "08:00")),
  );

  test("when a line lay in all month, then it has the hours of that month", () => {
    const [days] = numbers(table, `${month}-01`, `${next}-01`, "line-days-exact");
    expect((days as number) * 24).toBeCloseTo(hours + 12, 9);
  });

  test("when the days are told one by one for a chart, then they sum to the same", () => {
    const now = periodOf(table, on(`${month}-01`), on(`${next}-01`));
    const base = periodOf(table, on(`${year - 1}-11-01`), now.from);
    const [chart] = monitorService(table, [measure("occlusion")], base, now, rules).charts;
    expect((chart?.sinceLast as number) * 24).toBeCloseTo(hours + 12, 9);
  });
});
