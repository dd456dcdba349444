import type { CivilDate } from "../core/calendar/index.ts";
import type { SurveillanceDefinition } from "../core/complication/index.ts";

/** Definitions by the day they came into force; the newest that is not after the event counts. */
export const surveillanceDefinitions: readonly SurveillanceDefinition[] = [
  {
    name: "Laboratory-confirmed bloodstream infection, central line",
    from: "2015-01-01" as CivilDate,
    source: "CDC FAQ on bloodstream infection events (line day, seen); fever and cold limits, from memory",
    fromLineDay: 3,
    daysAfterRemoval: 1,
    feverAboveC: 38,
    coldBelowC: 36,
    infantUpToYears: 1,
    // kept short and by the beginning of the name; a laboratory completes it
    commensals: [
      "coagulase-negative staph",
      "staphylococcus epidermidis",
      "corynebacterium",
      "micrococcus",
      "cutibacterium",
      "bacillus",
    ],
  },
];

/** The definition in force on a day; undefined before the first. */
export const definitionOn = (day: CivilDate): SurveillanceDefinition | undefined =>
  surveillanceDefinitions.filter(({ from }) => from <= day).at(-1);
