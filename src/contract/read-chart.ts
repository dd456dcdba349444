import {
  chartFaults,
  type ChartFault,
  type ChartFaultCode,
  type CompatibilityPair,
  type DrugChart,
  type Infusion,
  type Timing,
} from "../core/drug-chart/index.ts";
import { missing } from "../core/missing/index.ts";
import { millilitrePerHour, minute } from "../core/quantity/index.ts";
import { chartFile, type ChartFile } from "./chart-schema.ts";
import { readTimes } from "./clock-text.ts";
import { shown, type Fault } from "./fault.ts";
import { hiddenSigns } from "./hidden-sign.ts";
import { parsedJson, readJson, type Faults } from "./read-json.ts";

export type ChartReading = { readonly kind: "chart"; readonly chart: DrugChart } | Faults;

const USUAL_STEP_MIN = 15;
const notKnown = missing("not known");

/** Reads the text of a CHART.json; every fault of the file is reported at once. */
export function readChartText(text: string, largestShift: number): ChartReading {
  const parsed = parsedJson(text);
  return parsed.kind === "faults" ? parsed : readChart(parsed.json, largestShift);
}

/**
 * Turns a parsed chart into one the search can take, or into the list of everything wrong with it. No dose may move
 * farther than `largestShift` of the time between its doses (policy), so that they keep their order and their distance.
 */
export function readChart(json: unknown, largestShift: number): ChartReading {
  const reading = readJson(json, chartFile, (data) => acrossFields(data, largestShift));
  return reading.kind === "faults" ? reading : { kind: "chart", chart: chartFrom(reading.data) };
}

function acrossFields(data: ChartFile, largestShift: number): readonly Fault[] {
  const faults: Fault[] = [...hiddenSigns(data, "")];
  for (const [index, { times, runMinutes, name }] of data.infusions.entries()) {
    const path = `infusions.${index}`;
    if (name.trim() === "") faults.push({ path: `${path}.name`, code: "missing-field", found: "", rule: "a name" });
    const key = name.trim().toLowerCase();
    if (data.infusions.findIndex((other) => other.name.trim().toLowerCase() === key) < index)
      faults.push({ path: `${path}.name`, code: "twice", found: name, rule: "one name for one infusion" });
    const timing = readTimes(times, minute(runMinutes ?? 0));
    faults.push(...moveFaults(data, index, timing, largestShift));
    if (timing === undefined) {
      const rule = `clock times such as "06:00 18:00", "every 8 h from 06:00", or "continuous"`;
      faults.push({ path: `${path}.times`, code: "wrong-type", found: shown(times), rule });
    } else if (timing.kind !== "continuous" && runMinutes === undefined) {
      faults.push({ path: `${path}.runMinutes`, code: "missing-field", found: "nothing", rule: "how long it runs" });
    }
  }
  if (data.days !== undefined && data.days !== 1 && data.days !== 7)
    faults.push({ path: "days", code: "not-in-list", found: String(data.days), rule: "one of: 1, 7" });
  // without readable times there is no chart to hold against the rest
  if (faults.some(({ path }) => /\.(times|runMinutes)$/.test(path))) return faults;
  const more = chartFaults(chartFrom(data)).filter(({ code }) => code !== "repeated-id");
  return [...faults, ...more.map((fault) => placed(fault, data))];
}

/** A move that nothing would carry out, or that would bring two doses of one drug together. */
function moveFaults(
  data: ChartFile,
  index: number,
  timing: Timing | undefined,
  largestShift: number,
): readonly Fault[] {
  const { moveMinutes = 0, content } = data.infusions[index] as ChartFile["infusions"][number];
  if (moveMinutes === 0) return [];
  const fault = (rule: string): readonly Fault[] => [
    { path: `infusions.${index}.moveMinutes`, code: "out-of-range", found: String(moveMinutes), rule },
  ];
  if (content === "nutrition") return fault("0: nutrition is never moved");
  const step = data.stepMinutes ?? USUAL_STEP_MIN;
  if (moveMinutes < step) return fault(`0, or at least one step of ${step} min`);
  const most = largestShift * shortestGap(timing);
  return moveMinutes > most ? fault(`at most ${Math.floor(most)}, ${largestShift} of the time between its doses`) : [];
}

const MINUTES_IN_DAY = 1440;

function shortestGap(timing: Timing | undefined): number {
  if (timing === undefined || timing.kind === "continuous") return MINUTES_IN_DAY;
  if (timing.kind === "at an interval") return timing.everyMin;
  const starts = [...timing.startsMin].sort((a, b) => a - b);
  return Math.min(...starts.map((start, at) => (starts[at + 1] ?? (starts[0] as number) + MINUTES_IN_DAY) - start));
}

/** Where a fault of the chart was typed, and its rule; the codes are the core's own. */
function placed({ code, infusionId, found }: ChartFault, data: ChartFile): Fault {
  const index = data.infusions.findIndex(({ name }) => name.trim() === infusionId);
  const [field, rule] = WHERE[code];
  const path = index === -1 ? field : `infusions.${index}.${field}`;
  return { path, code: code === "repeated-id" ? "twice" : "out-of-range", found: String(found), rule };
}

const WHERE: Readonly<Record<ChartFaultCode, readonly [field: string, rule: string]>> = {
  "repeated-id": ["name", "one name for one infusion"],
  "pair-names-no-infusion": ["together", "names of infusions of this chart"],
  "pair-listed-twice": ["together", "two different infusions, and one answer for a pair"],
  "step-not-positive": ["stepMinutes", "more than zero"],
  "not-whole-minutes": ["runMinutes", "whole minutes"],
  "start-not-in-day": ["times", "a clock time of one day"],
  "no-start": ["times", "one clock time at least"],
  "run-not-positive": ["runMinutes", "more than zero"],
  "flush-negative": ["flushAfterMinutes", "zero or more"],
  "interval-does-not-divide-day": ["times", "an interval that divides 24 hours"],
  "tolerance-negative": ["moveMinutes", "zero or more"],
  "day-not-in-chart": ["daysActive", "a day of this chart"],
  "dose-overlaps-itself": ["runMinutes", "a dose over before the next of it starts, flushes included"],
  "rate-not-positive": ["rateMlPerHour", "more than zero"],
  "rate-over-lumen-flow": ["rateMlPerHour", "no more than the lumen's labelled flow"],
};

function chartFrom(data: ChartFile): DrugChart {
  return {
    horizonDays: data.days === 7 ? 7 : 1,
    stepMin: minute(data.stepMinutes ?? USUAL_STEP_MIN),
    lumenFlowMlPerHour:
      typeof data.lumenFlowMlPerHour === "number" ? millilitrePerHour(data.lumenFlowMlPerHour) : notKnown,
    infusions: data.infusions.map(infusionFrom),
    compatibility: (data.together ?? []).map(([first, second, known]): CompatibilityPair => ({
      first: first.trim(),
      second: second.trim(),
      known,
    })),
  };
}

function infusionFrom(row: ChartFile["infusions"][number]): Infusion {
  const name = row.name.trim();
  const content = row.content ?? "drug";
  const movable = content !== "nutrition";
  return {
    id: name,
    name,
    content,
    timing: readTimes(row.times, minute(row.runMinutes ?? 0)) ?? { kind: "continuous" },
    flushBeforeMin: minute(row.flushBeforeMinutes ?? 0),
    flushAfterMin: minute(row.flushAfterMinutes ?? 0),
    toleranceMin: minute(movable ? (row.moveMinutes ?? 0) : 0),
    movable,
    rateMlPerHour: typeof row.rateMlPerHour === "number" ? millilitrePerHour(row.rateMlPerHour) : notKnown,
    dedicated: row.dedicated ?? content !== "drug",
    ...(row.daysActive ? { daysActive: row.daysActive } : {}),
    peripheral: row.peripheral ?? notKnown,
    oralForm: row.oralForm ?? notKnown,
  };
}
