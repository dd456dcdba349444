import type { CivilDate } from "./civil-date.ts";

/** Whole years completed on a date: the number a person would say. Born on 29 February counts from 1 March. */
export function completedYears(born: CivilDate, on: CivilDate): number {
  const years = Number(on.slice(0, 4)) - Number(born.slice(0, 4));
  return on.slice(5) < born.slice(5) ? years - 1 : years;
}
