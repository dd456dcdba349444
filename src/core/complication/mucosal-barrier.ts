import { midnightsBetween, type CivilDate } from "../calendar/index.ts";
import { isMissing, type Maybe } from "../missing/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import { allMet, anyMet, type Flag, type InfectionFlag } from "./clinical-infection.ts";
import { organismKey } from "./culture-bottle.ts";
import { classOfOrganism, type OrganismClass } from "./organism-class.ts";
import type { SurveillanceDefinition } from "./surveillance-definition.ts";
import { commensalPair, grownIn, type BloodSpecimen, type SurveillanceFlag } from "./surveillance-infection.ts";

/** White cells or neutrophils of a day, whichever were counted, per cubic millimetre. */
export interface CellCount {
  readonly on: CivilDate;
  readonly perCubicMm: number;
}

/** What makes a gut let its organisms through. Missing while nobody has asked; an empty list when there was none. */
export interface MucosalFacts {
  readonly cellCounts: Maybe<readonly CellCount[]>;
  readonly transplantsOn: Maybe<readonly CivilDate[]>;
  /** Graft-versus-host disease of the gut, grade III or IV, written during the stay of the specimen. */
  readonly hostDiseaseThisStay: Maybe<boolean>;
  /** Days on which diarrhoea as much as the definition asks began. */
  readonly diarrhoeaFrom: Maybe<readonly CivilDate[]>;
}

/**
 * Whether a surveillance infection is one of an injured mucosal barrier, which is reported apart: gut organisms alone, and
 * either few white cells or a transplant with a sick gut.
 *   organisms: all that count are on the definition's mucosal lists; of a commensal criterion, on its mucosal commensals.
 *     a commensal of another place does not count, unless two specimens of it would make an infection of their own
 *   cells: on as many days as the definition asks, in the window around the first specimen, below its limit
 *   gut: a transplant within the days it names before the specimen, and graft-versus-host disease of the gut in this stay
 *     or diarrhoea that began within its days before the specimen
 *   met when the surveillance flag is met, the organisms are, and cells or gut are; not met when one cannot be
 * Holds: one patient's episode, after `judgeSurveillance`; from others' marrow only. Source: CDC/NHSN, Patient Safety
 * Component Manual, January 2025, ch. 4, table 2 with its notes, "Blood Specimen Collection" 3 and "Pathogen Exclusions" 3.
 * Example: E. coli, 300 cells on two days: met.
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
  definition: SurveillanceDefinition,
): Finding {
  const { organisms, commensals } = definition.mucosal;
  const grown = grownIn(specimens);
  // a pathogen's event may hold the commensals of the mouth too: it is then one of the pathogen
  const listed = criterion === "pathogen" ? [...organisms, ...commensals] : commensals;
  const isListed = (name: string) => listed.some((start) => begins(organismKey(name), organismKey(start)));
  const others = grown.filter(({ organism }) => !isListed(organism));
  const classed = (wanted: readonly OrganismClass[]) =>
    others.find(({ organism }) => wanted.includes(classOfOrganism(organism, definition)));
  const [pair] = commensalPair(others, definition) ?? [];
  const other = classed(["pathogen", "excluded"]) ?? pair;
  if (other) return finding("mucosal-organisms", "not met", "note", { organism: other.organism });
  const unlisted = classed(["not listed"]);
  if (unlisted) return finding("mucosal-organism-not-listed", "not known", "ask", { organism: unlisted.organism });
  const first = grown.find(({ organism }) => isListed(organism));
  return first === undefined || specimens.some(({ organism }) => isMissing(organism))
    ? finding("mucosal-organisms", "not known", "ask")
    : finding("mucosal-organisms", "met", "note", { organism: first.organism });
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
  const { hostDiseaseThisStay: host } = facts;
  const verdict = allMet([
    within(facts.transplantsOn, mucosal.transplantWithinDays),
    anyMet([
      isMissing(host) ? "not known" : host ? "met" : "not met",
      within(facts.diarrhoeaFrom, mucosal.gutDaysBefore),
    ]),
  ]);
  return finding("mucosal-gut", verdict, verdict === "not known" ? "ask" : "note");
}
