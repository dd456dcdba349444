import type { CivilDate } from "../core/calendar/index.ts";
import type { SurveillanceDefinition } from "../core/complication/index.ts";
import type { DenominatorRule } from "../core/dwell/index.ts";

/**
 * Surveillance definitions by the date they came into force. The manual is revised every January: a year that changes a
 * rule gets a row of its own, and events before it keep theirs. The organism lists are short; a name on none is asked.
 */
export const surveillanceDefinitions: readonly SurveillanceDefinition[] = [
  {
    name: "bloodstream infection put down to a central line, window and frame of 2015",
    validFrom: "2015-01-01" as CivilDate,
    source:
      "CDC/NHSN, Patient Safety Component Manual, ch. 2, 4 and 16; day it began and infant's temperature from memory",
    eligibleFromLineDay: 3,
    daysAfterRemoval: 1,
    repeatFrameDays: 14,
    daysWithoutLineToRestart: 1,
    windowDaysBefore: 3,
    windowDaysAfter: 3,
    healthcareFromDay: 3,
    feverAboveCelsius: 38,
    hypothermiaBelowCelsius: 36,
    infantToYears: 1,
    commensalDaysApart: 1,
    organisms: {
      pathogens: [
        "staphylococcus aureus",
        "staphylococcus lugdunensis",
        "enterococcus",
        "streptococcus pneumoniae",
        "streptococcus pyogenes",
        "streptococcus agalactiae",
        "escherichia",
        "klebsiella",
        "enterobacter",
        "serratia",
        "citrobacter",
        "proteus",
        "pseudomonas",
        "acinetobacter",
        "stenotrophomonas",
        "bacteroides",
        "bacillus anthracis",
        "corynebacterium diphtheriae",
        "candida",
        "mycobacterium",
      ],
      excluded: [
        "blastomyces",
        "coccidioides",
        "cryptococcus",
        "histoplasma",
        "paracoccidioides",
        "pneumocystis",
        "salmonella",
      ],
      commensals: [
        {
          name: "coagulase-negative staphylococci",
          covers: [
            "coagulase-negative staphylococcus",
            "staphylococcus epidermidis",
            "staphylococcus hominis",
            "staphylococcus haemolyticus",
            "staphylococcus capitis",
            "staphylococcus warneri",
          ],
        },
        {
          name: "viridans streptococci",
          covers: ["streptococcus viridans", "streptococcus mitis", "streptococcus oralis", "streptococcus sanguinis"],
        },
        { name: "corynebacterium", covers: ["corynebacterium"] },
        { name: "cutibacterium", covers: ["cutibacterium", "propionibacterium"] },
        { name: "bacillus", covers: ["bacillus"] },
        { name: "micrococcus", covers: ["micrococcus"] },
        { name: "aerococcus", covers: ["aerococcus"] },
      ],
    },
    // all of it from memory of the manual's chapter 4
    mucosal: {
      organisms: [
        "bacteroides",
        "candida",
        "clostridium",
        "enterococcus",
        "fusobacterium",
        "peptostreptococcus",
        "prevotella",
        "veillonella",
        "citrobacter",
        "enterobacter",
        "escherichia",
        "klebsiella",
        "morganella",
        "proteus",
        "providencia",
        "serratia",
      ],
      commensals: [
        "viridans streptococci",
        "streptococcus viridans",
        "streptococcus mitis",
        "streptococcus oralis",
        "streptococcus sanguinis",
        "rothia",
      ],
      cellsBelow: 500,
      daysBelow: 2,
      cellDaysBefore: 3,
      cellDaysAfter: 3,
      transplantWithinDays: 365,
      gutDaysBefore: 7,
    },
  },
];

/** How a ward may make up its days, by the date it came into force. */
export const denominatorRules: readonly DenominatorRule[] = [
  {
    name: "count on one weekday, or by machine, as of 2015",
    validFrom: "2015-01-01" as CivilDate,
    source:
      "CDC/NHSN, Patient Safety Component Manual, ch. 4: 75 line-days and the day it began from memory; three months of agreement as quoted by others",
    leastLineDaysToSample: 75,
    agreementMonths: 3,
  },
];
