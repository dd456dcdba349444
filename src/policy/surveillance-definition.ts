import type { CivilDate } from "../core/calendar/index.ts";
import type { SurveillanceDefinition } from "../core/complication/index.ts";
import type { DenominatorRule } from "../core/dwell/index.ts";

// What was read of each list, in the text of the manual itself or as it is quoted word for word:
//   2025: CDC/NHSN, Patient Safety Component Manual, January 2025, ch. 4 (its own text; organisms are left to a browser)
//   2013: the same chapter's criteria of 2013, which still name their organisms, as an open-source form quotes them
// A line without either stands from memory.

/**
 * Surveillance definitions by the date they came into force. The manual is revised every January: a year that changes a
 * rule gets a row of its own, and events before it keep theirs. The organism lists are short; a name on none is asked.
 */
export const surveillanceDefinitions: readonly SurveillanceDefinition[] = [
  {
    name: "bloodstream infection put down to a central line, window and frame of 2015",
    validFrom: "2015-01-01" as CivilDate,
    source:
      "CDC/NHSN, Patient Safety Component Manual, ch. 4 of January 2025 as read, ch. 2 and 16 as quoted; day it began from memory",
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
      // 2025, "Pathogen Exclusions": any organism that is not on the list of commensals; these names are from memory
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
        "clostridium",
        "fusobacterium",
        "peptostreptococcus",
        "prevotella",
        "veillonella",
        "morganella",
        "providencia",
      ],
      excluded: [
        // 2025, "Pathogen Exclusions" c: of no definition at all
        "blastomyces",
        "coccidioides",
        "cryptococcus",
        "histoplasma",
        "paracoccidioides",
        "pneumocystis",
        // 2025, "Pathogen Exclusions" b: never the pathogen of a primary infection
        "campylobacter",
        "salmonella",
        "shigella",
        "listeria",
        "vibrio",
        "yersinia",
        "clostridioides difficile",
        "clostridium difficile",
        "enterohemorrhagic escherichia coli",
        "enteropathogenic escherichia coli",
      ],
      // 2013, criterion 2 of a laboratory-confirmed infection: the seven groups; species of a group from memory
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
        // 2025, table 2: its mucosal event must first meet the criterion of commensals
        { name: "rothia", covers: ["rothia"] },
      ],
    },
    mucosal: {
      organisms: [
        // 2013, criterion 1 of a mucosal infection: these eight, and the family of the next
        "bacteroides",
        "candida",
        "clostridium",
        "enterococcus",
        "fusobacterium",
        "peptostreptococcus",
        "prevotella",
        "veillonella",
        // 2013 names the family Enterobacteriaceae; which genera it holds is from memory
        "citrobacter",
        "enterobacter",
        "escherichia",
        "klebsiella",
        "morganella",
        "proteus",
        "providencia",
        "serratia",
      ],
      // 2025, table 2: viridans group and Rothia; species of the group from memory
      commensals: [
        "viridans streptococci",
        "streptococcus viridans",
        "streptococcus mitis",
        "streptococcus oralis",
        "streptococcus sanguinis",
        "rothia",
      ],
      // 2025, table 2, criteria 1 and 2: every number below
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
      "CDC/NHSN, Patient Safety Component Manual, January 2025, ch. 4, table 7, as read; the day it began from memory",
    leastLineDaysToSample: 75,
    agreementMonths: 3,
  },
];
