import { dayNumber } from "../../core/calendar/index.ts";
import type { LineClock } from "../../core/dwell/index.ts";
import { provisionalFrom, type AuditTable } from "../line/index.ts";
import type { LineSet, Measure } from "../measure/index.ts";
import { checkColumns } from "../quality/index.ts";
import { countDays, type CountedDays } from "./count-days.ts";
import { countedSet, idleFigures, shareFigures, type CountedSet } from "./count-lines.ts";
import { rateFigures } from "./event-figures.ts";
import type { AuditReport, Figure, Period } from "./figure.ts";
import { daysFigure } from "./figure-of.ts";
import { referralFigures } from "./referral-figures.ts";
import { sceneOf, type AuditRules, type Scene } from "./scene.ts";
import { partsOf, type Parts } from "./split.ts";
import type { StratumName } from "./stratum.ts";

/**
 * Every measure over a period, for the service and for each stratum asked for: numerator, denominator, exact interval
 * with its name, rows used of rows given, what the missing could do to it, and the part that is still provisional.
 *   rate = 1000 x / T (exact Poisson limits); share = x / n (exact binomial limits)
 * Units: per 1000 days of the measure's own clock, or a share of one. Holds: period not empty, else RangeError. Counted
 * by scans over the columns of the table; the same numbers as row by row (reference/by-hand/count/slow-audit).
 * Source: Garwood 1936, Biometrika 28:437; Clopper and Pearson 1934, Biometrika 26:404; bounds: Manski 1989, J Hum
 * Resour 24:343 (all from memory). Example: 3 events, 4,120 days: 0.73 (0.15 to 2.13).
 */
export function audit(
  table: AuditTable,
  measures: readonly Measure[],
  period: Period,
  strata: readonly StratumName[],
  rules: AuditRules,
): AuditReport {
  const steps = auditInSteps(table, measures, period, strata, rules);
  let step = steps.next();
  while (!step.done) step = steps.next();
  return step.value;
}

/** The work of `audit` in steps, for a caller that must answer between them; the same report. Throws as `audit`. */
export function* auditInSteps(
  table: AuditTable,
  measures: readonly Measure[],
  period: Period,
  strata: readonly StratumName[],
  rules: AuditRules,
): Generator<undefined, AuditReport, undefined> {
  if (!(dayNumber(period.from) < dayNumber(period.to)))
    throw new RangeError(`The period runs from ${period.from} to ${period.to}; the end must come after the start.`);
  const checked = checkColumns(table, rules.limits, rules.surveillance);
  const tail = provisionalFrom(table.asOf, rules.limits.provisionalDays);
  const scene = sceneOf(checked, period, dayNumber(tail), rules);
  const parts = partsOf(scene, strata);
  yield;
  const figuresFor = figuresOf(scene, parts);
  const figures: Figure[] = [];
  for (const measure of measures) {
    figures.push(...figuresFor(measure));
    yield;
  }
  return {
    period,
    provisionalFrom: tail,
    figures,
    issues: checked.issues,
    linesUsed: checked.used,
    linesGiven: checked.facts.lines.count,
  };
}

/** The figures of one measure; days on a clock and the lines of a set are counted once for all that ask. */
function figuresOf(scene: Scene, parts: Parts): (measure: Measure) => readonly Figure[] {
  const { facts, limits, checked } = scene;
  const counted = new Map<LineClock, CountedDays>();
  const daysOn = (clock: LineClock): CountedDays => {
    const days = counted.get(clock) ?? countDays(scene, parts, clock);
    counted.set(clock, days);
    return days;
  };
  const sets = new Map<LineSet, CountedSet>();
  const setOf = (name: LineSet): CountedSet => {
    const lines = sets.get(name) ?? countedSet(name, scene);
    sets.set(name, lines);
    return lines;
  };
  return (measure) => {
    const { numerator } = measure;
    const clock = measure.clock as LineClock;
    if (numerator.count === "events") return rateFigures(measure, numerator, daysOn(clock), scene, parts);
    if (numerator.count === "days") {
      if (numerator.of === "idle days") return idleFigures(measure, scene, parts);
      const { days, used } = daysOn(clock);
      return parts.told.map(({ slot, stratum }) =>
        daysFigure(
          measure,
          {
            days: days[slot] as number,
            used: used[slot] as number,
            stopped: slot === 0 ? facts.lines.count - checked.used : 0,
          },
          stratum,
          limits,
        ),
      );
    }
    return numerator.of === "referrals"
      ? referralFigures(measure, numerator.test, scene, parts)
      : shareFigures(measure, numerator, setOf(numerator.of), scene, parts);
  };
}
