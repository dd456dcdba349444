import { isMissing } from "../missing/index.ts";
import { MINUTES_IN_DAY } from "./search/circle.ts";
import { overlapInTime, problemOf } from "./search/problem.ts";
import { dosesOf, type DrugChart, type Infusion } from "./chart.ts";

/** Everything that can be wrong with a chart. The sentence for each stands in src/language. */
export const CHART_FAULT_CODES = [
  "repeated-id",
  "pair-names-no-infusion",
  "pair-listed-twice",
  "step-not-positive",
  "not-whole-minutes",
  "start-not-in-day",
  "no-start",
  "run-not-positive",
  "flush-negative",
  "interval-does-not-divide-day",
  "tolerance-negative",
  "day-not-in-chart",
  "dose-overlaps-itself",
  "rate-not-positive",
  "rate-over-lumen-flow",
] as const;
export type ChartFaultCode = (typeof CHART_FAULT_CODES)[number];

export interface ChartFault {
  readonly code: ChartFaultCode;
  /** Absent for a fault of the chart as a whole. */
  readonly infusionId?: string;
  readonly found: number | string;
}

/** All faults of a chart, none nothing: a chart with a fault is refused whole. */
export function chartFaults(chart: DrugChart): readonly ChartFault[] {
  const faults = [...wholeFaults(chart), ...chart.infusions.flatMap((infusion) => infusionFaults(chart, infusion))];
  return faults.length > 0 ? faults : overlapFaults(chart);
}

function wholeFaults(chart: DrugChart): ChartFault[] {
  const faults: ChartFault[] = [];
  const ids = chart.infusions.map(({ id }) => id);
  for (const id of new Set(ids.filter((id, index) => ids.indexOf(id) !== index)))
    faults.push({ code: "repeated-id", infusionId: id, found: id });
  if (!(chart.stepMin > 0)) faults.push({ code: "step-not-positive", found: chart.stepMin });
  else if (!Number.isInteger(chart.stepMin)) faults.push({ code: "not-whole-minutes", found: chart.stepMin });
  const seen = new Map<string, string>();
  for (const { first, second, known } of chart.compatibility) {
    for (const id of [first, second]) if (!ids.includes(id)) faults.push({ code: "pair-names-no-infusion", found: id });
    const key = JSON.stringify([first, second].sort());
    if (first === second || (seen.get(key) ?? known) !== known)
      faults.push({ code: "pair-listed-twice", found: `${first}, ${second}` });
    seen.set(key, known);
  }
  return faults;
}

function infusionFaults(chart: DrugChart, infusion: Infusion): ChartFault[] {
  const { timing, flushBeforeMin, flushAfterMin, toleranceMin, daysActive, rateMlPerHour } = infusion;
  const faults: ChartFault[] = [];
  const add = (code: ChartFaultCode, found: number | string) => faults.push({ code, infusionId: infusion.id, found });
  const interval = timing.kind === "at an interval" ? timing.everyMin : MINUTES_IN_DAY;
  const divides = interval > 0 && MINUTES_IN_DAY % interval === 0;
  if (!divides) add("interval-does-not-divide-day", interval);
  const starts = divides ? dosesOf(timing, MINUTES_IN_DAY) : [];
  const run = timing.kind === "continuous" ? MINUTES_IN_DAY : timing.runMin;
  if (divides && starts.length === 0) add("no-start", 0);
  for (const start of timing.kind === "at an interval" ? [timing.firstMin] : starts)
    if (!(start >= 0 && start < MINUTES_IN_DAY)) add("start-not-in-day", start);
  if (!(run > 0)) add("run-not-positive", run);
  for (const flush of [flushBeforeMin, flushAfterMin]) if (!(flush >= 0)) add("flush-negative", flush);
  if (!(toleranceMin >= 0)) add("tolerance-negative", toleranceMin);
  for (const time of [...starts, run, flushBeforeMin, flushAfterMin])
    if (!Number.isInteger(time)) add("not-whole-minutes", time);
  if (daysActive?.length === 0) add("day-not-in-chart", "none");
  for (const day of daysActive ?? [])
    if (!(Number.isInteger(day) && day >= 0 && day < chart.horizonDays)) add("day-not-in-chart", day);
  if (!isMissing(rateMlPerHour)) {
    if (!(rateMlPerHour > 0)) add("rate-not-positive", rateMlPerHour);
    else if (!isMissing(chart.lumenFlowMlPerHour) && rateMlPerHour > chart.lumenFlowMlPerHour)
      add("rate-over-lumen-flow", rateMlPerHour);
  }
  return faults;
}

/** A dose still running when the next one of the same infusion starts, flushes included, or a bag longer than its cycle. */
function overlapFaults(chart: DrugChart): ChartFault[] {
  const problem = problemOf(chart, false);
  return chart.infusions.flatMap((infusion, index) => {
    const own = problem.options.filter((option) => problem.doses[option.dose]?.infusion === index);
    const days = problem.days[index] as readonly number[];
    const longest = Math.min(
      problem.horizonMin,
      ...days.flatMap((day) =>
        days.flatMap((other) =>
          other === day
            ? []
            : [((((other - day) * MINUTES_IN_DAY) % problem.horizonMin) + problem.horizonMin) % problem.horizonMin],
        ),
      ),
    );
    const over = own.find(
      (option, at) =>
        option.length > longest || own.slice(at + 1).some((other) => overlapInTime(problem, option, other)),
    );
    return over ? [{ code: "dose-overlaps-itself", infusionId: infusion.id, found: over.length }] : [];
  });
}
