import { dayNumber, type CivilDate } from "../calendar/index.ts";
import type { MillilitrePerMinute173 } from "../quantity/index.ts";

export interface DatedFiltration {
  readonly on: CivilDate;
  readonly filtration: MillilitrePerMinute173;
}

const DAYS_PER_YEAR = 365.25;

/**
 * Change of filtration in mL/min/1.73 m2 a year: the least-squares line through dated values. A rough line, no forecast.
 *   slope = sum (t - mean t)(g - mean g) / sum (t - mean t)^2, t in years
 * Holds: two values on different days at least; undefined otherwise.
 * Source: least squares. Example: 48 and then 39 a year later, -9 a year.
 */
export function filtrationTrend(values: readonly DatedFiltration[]): number | undefined {
  const years = values.map(({ on }) => dayNumber(on) / DAYS_PER_YEAR);
  const mean = (list: readonly number[]) => list.reduce((sum, one) => sum + one, 0) / list.length;
  const meanYear = mean(years);
  const meanValue = mean(values.map(({ filtration }) => filtration));
  let covariance = 0;
  let spread = 0;
  for (const [index, { filtration }] of values.entries()) {
    const away = (years[index] as number) - meanYear;
    covariance += away * (filtration - meanValue);
    spread += away * away;
  }
  return spread > 0 ? covariance / spread : undefined;
}
