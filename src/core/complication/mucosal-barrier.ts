import { midnightsBetween, type CivilDate } from "../calendar/index.ts";
import { isMissing, type Maybe } from "../missing/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import { allMet, anyMet, type Flag, type InfectionFlag } from "./clinical-infection.ts";
import { organismKey } from "./culture-bottle.ts";
import type { SurveillanceDefinition } from "./surveillance-definition.ts";
import type { BloodSpecimen, SurveillanceFlag } from "./surveillance-infection.ts";

/** White cells or neutrophils of a day, whichever were counted, per cubic millimetre. */
export interface CellCount {
  readonly on: CivilDate;
  readonly perCubicMm: number;
}

/** What makes a gut let its organisms through. Missing while nobody has asked; an empty list when there was none. */
export interface MucosalFacts {
  readonly cellCounts: Maybe<readonly CellCount[]>;
  readonly transplantsOn: Maybe<readonly CivilDate[]>;
  /** Days of severe graft-versus-host disease of the gut, or of diarrhoea as much as the definition asks. */
  readonly gutDiseaseOn: Maybe<readonly CivilDate[]>;
}

/**
 * Whether a surveillance infection is one of an injured mucosal barrier, which is reported apart: gut organisms alone, and
 * either few white cells or a transplant with a sick gut.
 *   organisms: all grown are on the definition's mucosal list; of a commensal criterion, on its mucosal commensals
 *   cells: on as many days as the definition asks, in the window around the first specimen, below its limit
 *   gut: a transplant within the days it names before the specimen, and gut disease within its days before it
 *   met when the surveillance flag is met, the organisms are, and cells or gut are; not met when one cannot be
 * Holds: one patient's episode, after `judgeSurveillance`; from others' marrow only. Source: CDC/NHSN, Patient Safety
 * Component Manual, ch. 4 (from memory), by the definition's row. Example: E. coli, 300 cells on two days: met.
 */
export function judgeMucosalBarrier(
  { flag, definition, criterion }: Pick<SurveillanceFlag, "flag" | "definition" | "criterion">,
  specimens: readonly BloodSpecimen[],
  facts: MucosalFacts,
): InfectionFlag {
  const drawn = specimens.map(({ drawnOn }) => drawnOn).sort()[0];
  if (definition === undefined || drawn === undefined || flag !== "met") {
    const verdict = flag === "not met" ? "not met" : "not known";
    return { flag: verdict, findings: [finding("mucosal-of-surveillance-only", verdict, "note")] };
  }
  const organisms = organismCriterion(specimens, criterion, definition);
  const cells = cellCriterion(facts.cellCounts, drawn, definition);
  const gut = gutCriterion(facts, drawn, definition);
  const host = anyMet([cells.verdict as Flag, gut.verdict as Flag]);
  return { flag: allMet([organisms.verdict as Flag, host]), findings: [organisms, cells, gut] };
}

function organismCriterion(
  specimens: readonly BloodSpecimen[],
  criterion: SurveillanceFlag["criterion"],
  { mucosal }: SurveillanceDefinition,
): Finding {
  const grown = specimens.flatMap(({ organism }) => (organism === "none" ? [] : [organism]));
  const names = grown.flatMap((organism) => (isMissing(organism) ? [] : [organism]));
  const listed = criterion === "pathogen" ? mucosal.organisms : mucosal.commensals;
  const other = names.find((name) => !listed.some((start) => begins(organismKey(name), organismKey(start))));
  if (other !== undefined) return finding("mucosal-organisms", "not met", "note", { organism: other });
  return names.length < grown.length
    ? finding("mucosal-organisms", "not known", "ask")
    : finding("mucosal-organisms", "met", "note", { organism: names[0] as string });
}

const begins = (key: string, start: string): boolean => key === start || key.startsWith(`${start} `);

function cellCriterion(
  counts: MucosalFacts["cellCounts"],
  drawn: CivilDate,
  { mucosal }: SurveillanceDefinition,
): Finding {
  const values = { limit: mucosal.cellsBelow, least: mucosal.daysBelow };
  if (isMissing(counts)) return finding("mucosal-cells", "not known", "ask", values);
  const low = new Set(
    counts
      .filter(
        ({ on, perCubicMm }) =>
          perCubicMm < mucosal.cellsBelow &&
          midnightsBetween(on, drawn) <= mucosal.cellDaysBefore &&
          midnightsBetween(drawn, on) <= mucosal.cellDaysAfter,
      )
      .map(({ on }) => on),
  );
  return finding("mucosal-cells", low.size >= mucosal.daysBelow ? "met" : "not met", "note", {
    ...values,
    days: low.size,
  });
}

function gutCriterion(facts: MucosalFacts, drawn: CivilDate, { mucosal }: SurveillanceDefinition): Finding {
  const within = (dates: Maybe<readonly CivilDate[]>, days: number): Flag => {
    if (isMissing(dates)) return "not known";
    return dates.some((on) => on <= drawn && midnightsBetween(on, drawn) <= days) ? "met" : "not met";
  };
  const verdict = allMet([
    within(facts.transplantsOn, mucosal.transplantWithinDays),
    within(facts.gutDiseaseOn, mucosal.gutDaysBefore),
  ]);
  return finding("mucosal-gut", verdict, verdict === "not known" ? "ask" : "note");
}
