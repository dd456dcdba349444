import { describe, expect, test } from "vitest";
import { minute } from "../core/quantity/index.ts";
import { clockWords } from "../language/index.ts";
import { readTimes } from "./clock-text.ts";
import { readChart } from "./read-chart.ts";

describe("times as a chart says them", () => {
  test.each([
    ["06:00 18:00", { kind: "at clock times", startsMin: [360, 1080], runMin: 60 }],
    ["6, 18:30", { kind: "at clock times", startsMin: [360, 1110], runMin: 60 }],
    ["every 8 h from 06:00", { kind: "at an interval", firstMin: 360, everyMin: 480, runMin: 60 }],
    ["12-hourly from 0600", { kind: "at an interval", firstMin: 360, everyMin: 720, runMin: 60 }],
    ["Continuous", { kind: "continuous" }],
    ["24:00", undefined],
    ["06:75", undefined],
    ["twice", undefined],
    ["", undefined],
  ])("%s", (text, timing) => expect(readTimes(text, minute(60))).toEqual(timing));

  test("a clock past midnight starts again", () => {
    expect([clockWords(0), clockWords(375), clockWords(1500), clockWords(-15)]).toEqual([
      "00:00",
      "06:15",
      "01:00",
      "23:45",
    ]);
  });
});

test("nutrition never moves and is kept apart; a drug moves as far as it was given", () => {
  const reading = readChart(
    {
      infusions: [
        { name: "nutrition", times: "20:00", runMinutes: 720, content: "nutrition" },
        { name: "vancomycin", times: "every 12 h from 09:00", runMinutes: 120, moveMinutes: 120 },
      ],
    },
    0.25,
  );
  if (reading.kind === "faults") throw new Error(JSON.stringify(reading.faults));
  expect(
    reading.chart.infusions.map(({ toleranceMin, movable, dedicated }) => [toleranceMin, movable, dedicated]),
  ).toEqual([
    [0, false, true],
    [120, true, false],
  ]);
});

test("every fault is named where it was typed", () => {
  const reading = readChart(
    {
      infusions: [
        { name: "a", times: "noon", runMinutes: 60 },
        { name: "", times: "06:00" },
      ],
    },
    0.25,
  );
  const faults = reading.kind === "faults" ? reading.faults : [];
  expect(faults.map(({ path, code }) => `${path} ${code}`)).toEqual([
    "infusions.0.times wrong-type",
    "infusions.1.name missing-field",
    "infusions.1.runMinutes missing-field",
  ]);
  const second = readChart(
    {
      infusions: [
        { name: "a", times: "every 6 h from 06:00", runMinutes: 400 },
        { name: "a", times: "every 7 h from 06:00", runMinutes: 30 },
      ],
      together: [["a", "z", "compatible"]],
    },
    0.25,
  );
  expect((second.kind === "faults" ? second.faults : []).map(({ path }) => path)).toEqual([
    "infusions.1.name",
    "together",
    "infusions.0.times",
  ]);
});
