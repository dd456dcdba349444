import { describe, expect, test } from "vitest";
import { readChart, type ChartFile } from "../../src/contract/index.ts";
import { fewestLumens, type DrugChart, type FewestLumens } from "../../src/core/drug-chart/index.ts";
import { minute } from "../../src/core/quantity/index.ts";
import { lumenStrip } from "../../src/figure/index.ts";
import { lumenOfferSentence, lumensSentence, proofSentence, unknownPairSentence } from "../../src/language/index.ts";
import { defaultPolicyTable } from "../../src/policy/index.ts";
import { practiceCharts } from "../../src/practice/index.ts";

/** Drug charts as pages a ward can read: the chart, the sentence, the strip. */
const shortRun = defaultPolicyTable["chart.short-run"].value;

function answered(
  file: ChartFile,
  shortRunMin = shortRun,
): { readonly chart: DrugChart; readonly answer: FewestLumens } {
  const reading = readChart(JSON.parse(JSON.stringify(file)), 0.25);
  if (reading.kind === "faults") throw new Error(JSON.stringify(reading.faults));
  const answer = fewestLumens(reading.chart, { mayGoOn: () => true, shortRunMin: minute(shortRunMin) });
  if (answer.kind === "refused") throw new Error(JSON.stringify(answer.faults));
  return { chart: reading.chart, answer };
}

const practice = (id: string): ChartFile => practiceCharts.find((one) => one.id === id)?.chart as ChartFile;
const sentence = (file: ChartFile) => {
  const { answer, chart } = answered(file);
  return lumensSentence(answer, chart);
};

describe("the practice charts", () => {
  test("looks like three lumens, needs two: which doses move and from when", () => {
    expect(sentence(practice("looks-like-three"))).toBe(
      "Two lumens if vancomycin moves from 21:00 to 19:45, aciclovir moves from 08:00 to 07:45, fluconazole moves from 10:30 to 11:15; three lumens as charted.",
    );
  });

  test("drugs that take turns need one", () => {
    expect(sentence(practice("one-is-enough"))).toContain("One lumen if");
  });

  test("three arcs that overlap in pairs, never more than two at once, need three (circular-arc colouring)", () => {
    const { answer } = answered(practice("three-that-chase"));
    expect(answer.asCharted).toMatchObject({ lumens: 3, status: "proven" });
    expect(proofSentence(answer.asCharted)).toBe(
      "Fewer is impossible: drug A, drug B, drug C. Leave any one out and fewer suffice.",
    );
  });
});

describe("what is never done silently", () => {
  test("nutrition is never moved, and a tolerance typed for it is asked about", () => {
    const file = (moveMinutes: number) => ({
      infusions: [
        { name: "nutrition", times: "08:00", runMinutes: 600, content: "nutrition", moveMinutes },
        { name: "drug", times: "09:00", runMinutes: 60, moveMinutes: 30 },
      ],
    });
    const faults = readChart(file(600), 0.25);
    expect(faults.kind === "faults" ? faults.faults.map(({ rule }) => rule) : []).toEqual([
      "0: nutrition is never moved",
    ]);
    const { answer } = answered(file(0) as ChartFile);
    expect(answer.retimed.doses.find(({ infusionId }) => infusionId === "nutrition")?.movedMin).toBe(0);
    expect(answer.retimed.lumens).toBe(2);
  });

  test("doses of one drug keep their order and their distance: no move beyond a quarter of the time between them", () => {
    const file = (moveMinutes: number) => ({
      infusions: [{ name: "drug", times: "every 4 h from 02:00", runMinutes: 45, moveMinutes }],
    });
    const rules = (moveMinutes: number, share = 0.25) => {
      const reading = readChart(file(moveMinutes), share);
      return reading.kind === "faults" ? reading.faults.map(({ rule }) => rule) : [];
    };
    expect(rules(60)).toEqual([]);
    expect(rules(75)).toEqual(["at most 60, 0.25 of the time between its doses"]);
    expect(rules(75, 0.35)).toEqual([]);
    expect(rules(10)).toEqual(["0, or at least one step of 15 min"]);
  });

  test("a pair nobody looked up is kept apart and named; known to mix, it shares", () => {
    const pair = [
      { name: "A", times: "08:00", runMinutes: 60 },
      { name: "B", times: "08:30", runMinutes: 60 },
    ];
    const { answer } = answered({ infusions: pair });
    expect(answer.asCharted.lumens).toBe(2);
    expect(answer.unknownPairs.map(unknownPairSentence)).toEqual(["A with B: not known, so kept apart. Ask pharmacy."]);
    expect(answered({ infusions: pair, together: [["A", "B", "compatible"]] }).answer.asCharted.lumens).toBe(1);
  });

  test("two that mix share only within the lumen's labelled flow", () => {
    const file = (flow: number): ChartFile => ({
      lumenFlowMlPerHour: flow,
      infusions: [
        { name: "A", times: "08:00", runMinutes: 60, rateMlPerHour: 100 },
        { name: "B", times: "08:30", runMinutes: 60, rateMlPerHour: 100 },
      ],
      together: [["A", "B", "compatible"]],
    });
    expect(answered(file(200)).answer.asCharted.lumens).toBe(1);
    expect(answered(file(199)).answer.asCharted.lumens).toBe(2);
  });

  test("blood keeps its lumen to itself; a flush holds the lumen like the drug", () => {
    const infusions = [
      { name: "blood", times: "10:00", runMinutes: 180, content: "blood" as const },
      { name: "drug", times: "20:00", runMinutes: 30 },
    ];
    expect(answered({ infusions }).answer.asCharted.lumens).toBe(2);
    const tight = (flushAfterMinutes: number): ChartFile => ({
      infusions: [
        { name: "A", times: "08:00", runMinutes: 60, flushAfterMinutes },
        { name: "B", times: "09:00", runMinutes: 60 },
      ],
    });
    expect(answered(tight(0)).answer.asCharted.lumens).toBe(1);
    expect(answered(tight(5)).answer.asCharted.lumens).toBe(2);
  });

  test("a search that was stopped says best found, not proven, with the bound", () => {
    const { answer, chart } = answered(practice("looks-like-three"));
    const stopped = { ...answer.asCharted, status: "best found, not proven" as const, atLeast: 2 };
    const noBetter = { ...answer.retimed, ...stopped };
    expect(lumensSentence({ ...answer, asCharted: stopped, retimed: noBetter }, chart)).toBe(
      "Three lumens (best found, not proven; at least 2) as charted; moving doses saves none.",
    );
    const moves = { ...answer.retimed, movesStatus: "best found, not proven" as const, atLeastMoved: 2 };
    expect(lumensSentence({ ...answer, retimed: moves }, chart)).toContain("at least 2: not proven.");
  });
});

test("a short drug of the chart may be offered a cannula; the limit is local policy", () => {
  const file: ChartFile = {
    infusions: [
      { name: "A", times: "08:00", runMinutes: shortRun, peripheral: true },
      { name: "B", times: "08:15", runMinutes: 600 },
    ],
  };
  const offers = (limit: number) => answered(file, limit).answer.offers.map(lumenOfferSentence);
  expect(offers(shortRun)).toContain("A through a cannula instead: one lumen.");
  expect(offers(shortRun - 1)).not.toContain("A through a cannula instead: one lumen.");
});

test("the strip draws every dose at its time, on its lumen, and marks what moved by shape and word", () => {
  const { answer, chart } = answered(practice("looks-like-three"));
  const { svg, table } = lumenStrip({ id: "t", chart, answer: answer.retimed });
  const drawn = [...svg.matchAll(/data-infusion="([^"]+)" data-start="(\d+)" data-moved="(-?\d+)"/g)];
  expect(drawn).toHaveLength(answer.retimed.doses.length);
  expect(svg.match(/class="moved"/g)).toHaveLength(3);
  expect(svg).toContain("aciclovir, moved from 08:00");
  expect(table.rows).toContainEqual(["lumen 2", "vancomycin", "19:45", "moved from 21:00, 75 min earlier"]);
  // 24 hours over 790 units: read the first run of aciclovir back from its rectangle
  const [, x, width] =
    /data-start="465"[^>]*>(?:<rect class="flush"[^>]*>)?<rect class="run" x="([\d.]+)" y="\d+" width="([\d.]+)"/.exec(
      svg,
    ) ?? [];
  expect(((Number(x) - 90) / 790) * 1440).toBeCloseTo(465, 0);
  expect((Number(width) / 790) * 1440).toBeCloseTo(60, 0);
});
