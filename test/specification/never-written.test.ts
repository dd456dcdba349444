import { describe, expect, test } from "vitest";
import { audit, monthPack, periodOf, readMeasures, type AuditTable, type Measure } from "../../src/audit/index.ts";
import { runCommandLine } from "../../src/cli/run.ts";
import type { CivilDate, Instant } from "../../src/core/calendar/index.ts";
import { figureNumber, packPages, sayFigure, sumLines } from "../../src/language/index.ts";
import { countLimitsFrom, defaultPolicyTable, surveillanceDefinitions } from "../../src/policy/index.ts";
import { happened, on, plainRow, removed, timed } from "../../reference/by-hand/count/plain-row.ts";

// Of an event nobody ever wrote down a service may not say that none happened. Common practice, no source: a form without
// the box counts none.

const limits = countLimitsFrom(defaultPolicyTable);
const surveillance = surveillanceDefinitions[0] as (typeof surveillanceDefinitions)[number];
const read = readMeasures();
if (read.kind === "faults") throw new Error("measures");
const { measures } = read;
const measure = (id: string) => measures.find((one) => one.id === id) as Measure;
/** Clots are written, nothing else ever is; the one clot lies on the left. */
const table: AuditTable = {
  asOf: timed("2025-07-15T12:00Z"),
  lines: Array.from({ length: 40 }, (_, at) =>
    plainRow(`l${at}`, "2025-03-04", removed("2025-03-24"), {
      side: at % 2 === 0 ? "left arm" : "right arm",
      ward: "Ash",
      events: at === 0 ? [happened("thrombosis", "2025-03-10")] : [],
    }),
  ),
  referrals: [],
};
const period = periodOf(table, on("2025-03-01"), on("2025-04-01"));
const { figures } = audit(table, measures, period, ["side"], { limits, surveillance });
const of = (id: string, side?: string) => {
  const found = figures.find(({ measure: own, stratum }) => own === id && stratum?.value === side);
  if (!found) throw new Error(id);
  return found;
};

describe("given a service that only ever wrote clots", () => {
  test.each(["occlusion", "migration", "infection-clinical", "infection-surveillance"])(
    "when %s is asked for, whole or in parts, then no value and no limit is told",
    (id) => {
      for (const side of [undefined, "left arm", "right arm"]) {
        const { form, value, interval, missing } = of(id, side);
        expect([form, value, interval.limits, missing.bounds]).toEqual([
          "never written down",
          undefined,
          undefined,
          undefined,
        ]);
        const said = sayFigure(of(id, side), measure(id));
        expect(said).toContain("Perhaps nobody asks.");
        expect(said).not.toMatch(/at most|per 1,000/);
      }
      expect(figureNumber(of(id), measure(id)).over).toBe("never written down");
      expect(sumLines(of(id), measure(id)).join(" ")).not.toMatch(/Interval|\u00f7/);
    },
  );

  test("when a kind was written once, then its nought elsewhere is a count and has its limit", () => {
    expect(of("thrombosis", "right arm").form).toBe("upper limit only");
    expect(sayFigure(of("thrombosis", "right arm"), measure("thrombosis"))).toContain("at most");
  });

  test("when all kinds are summed, then the sum names the kinds it is without", () => {
    const all = of("any-complication");
    expect(all.numerator).toBe(1);
    expect(all.unwritten).toEqual([
      "infection",
      "occlusion",
      "migration",
      "dislodgement",
      "leak or break",
      "exit site infection",
    ]);
    const said = sayFigure(all, measure("any-complication"));
    for (const kind of all.unwritten ?? []) expect(said).toContain(kind);
    expect(sumLines(all, measure("any-complication")).join(" ")).toContain("for nobody ever wrote one");
    expect(of("thrombosis").unwritten).toBeUndefined();
  });

  test("when nothing was ever written, then all kinds together have no value either", () => {
    const silent = { ...table, lines: table.lines.map((row) => ({ ...row, events: [] })) };
    const all = audit(silent, measures, period, [], { limits, surveillance }).figures.find(
      ({ measure: id }) => id === "any-complication",
    );
    expect([all?.form, all?.value, all?.unwritten]).toEqual(["never written down", undefined, undefined]);
  });

  test("when the pack is printed, then page 3 does not set wards against each other by what nobody wrote", () => {
    const lines = table.lines.map((row, at) => ({ ...row, ward: at % 2 === 0 ? "Ash" : "Birch" }));
    const pack = monthPack({ ...table, lines }, measures, on("2025-03-01"), { limits, surveillance });
    expect(pack.funnels.map(({ measure: id }) => id)).toEqual(["thrombosis"]);
    const pages = packPages(pack, measures, [], limits).map(({ lines }) => lines.join("\n"));
    expect(pages[2]).not.toMatch(/Blocked lines: 0 in/);
    expect(pages[0]).toContain("Not in it, for nobody ever wrote one: infection, occlusion.");
  });

  test("when the command line answers in words or JSON, then it says the same", async () => {
    const HEAD = "line_key,patient_key,placed_at,end_kind,end_at,end_reason,side,events";
    const csv = [
      HEAD,
      ...Array.from({ length: 20 }, (_, at) =>
        [
          `l${at}`,
          `p${at}`,
          "2025-03-04",
          "removed",
          "2025-03-24",
          "treatment ended",
          "left arm",
          at === 0 ? "thrombosis@2025-03-10" : "none",
        ].join(","),
      ),
    ].join("\n");
    const run = (...words: readonly string[]) =>
      runCommandLine(words, {
        read: () => csv,
        write: () => undefined,
        now: () => "1 Jul 2025, 11:02",
        today: () => "2025-07-01" as CivilDate,
        moment: () => "2025-07-01T11:02+00:00" as Instant,
      });
    for (const command of ["audit", "rates"]) {
      const { output } = await run(command, "a.csv", "--by", "side");
      // once of the whole for each of the nine kinds, and in no part again
      expect(output.match(/none in the whole table/g)?.length).toBe(9);
      expect(output).not.toMatch(/Blocked lines: 0 in/);
      // the kinds a sum is without stand once, whole list, however many parts there are
      const named = await run(command, "a.csv", "--by", "side", "--measure", "any-complication");
      expect(named.output).toContain("side left arm: All of these together");
      for (const { output: said } of [named, { output }]) {
        expect(said.match(/nobody ever wrote one/g)?.length).toBe(1);
        expect(said.match(/exit site infection/g)?.length).toBe(1);
      }
      const json = JSON.parse((await run(command, "a.csv", "--by", "side", "--json")).output) as {
        readonly figures: readonly { readonly measure: string; readonly form: string; readonly value?: number }[];
      };
      const blocked = json.figures.filter(({ measure: id }) => id === "occlusion");
      expect(blocked.map(({ form, value }) => [form, value])).toEqual([
        ["never written down", undefined],
        ["never written down", undefined],
      ]);
    }
  });
});
