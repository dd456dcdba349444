import { midnightsBetween, type CivilDate } from "../calendar/index.ts";
import { dateOfEvent, lineDay, lineRuns, ruleInForce, surveillanceEligibility, type LineRun } from "../dwell/index.ts";
import { isMissing, type Maybe } from "../missing/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import { allMet, type Flag, type InfectionFlag } from "./clinical-infection.ts";
import { classOfOrganism, sameCommensal } from "./organism-class.ts";
import { signCounts, type InfectionSign, type SurveillanceDefinition } from "./surveillance-definition.ts";

/** One blood specimen; two with the same `occasion` were one draw and count once. */
export interface BloodSpecimen {
  readonly drawnOn: CivilDate;
  readonly occasion: string;
  /** "none" when nothing grew. */
  readonly organism: Maybe<string>;
}

export interface SurveillanceEvent {
  /** Every central line of the patient. */
  readonly lines: readonly LineRun[];
  readonly specimens: readonly BloodSpecimen[];
  /** Missing while nobody has asked; an empty list when there were none. */
  readonly signs: Maybe<readonly InfectionSign[]>;
  readonly ageYears: Maybe<number>;
  readonly secondaryToOtherSite: Maybe<boolean>;
  readonly earlierEventsOn: readonly CivilDate[];
}

export interface SurveillanceFlag extends InfectionFlag {
  readonly definition: SurveillanceDefinition | undefined;
  readonly criterion: "pathogen" | "commensal" | "commensal in an infant" | undefined;
  readonly dateOfEvent: CivilDate | undefined;
}

interface Laboratory {
  readonly flag: Flag;
  readonly criterion?: SurveillanceFlag["criterion"];
  readonly on?: CivilDate;
  readonly findings: readonly Finding[];
}

/**
 * Central line-associated bloodstream infection, the surveillance flag, under the definition of the first specimen's date:
 * laboratory criterion, not secondary to another site, an eligible line, no event of the frame before it.
 *   met when all four are met; not met when one is not met; else not known
 * Holds: one patient's episode. Source: CDC/NHSN, Patient Safety Component Manual, ch. 2 and 4, by the definition's row.
 * Example: placed Monday, pathogen drawn Tuesday: line day 2, not met; drawn Wednesday: met.
 */
export function judgeSurveillance(
  event: SurveillanceEvent,
  definitions: readonly SurveillanceDefinition[],
): SurveillanceFlag {
  const specimens = [...event.specimens].sort((a, b) => (a.drawnOn < b.drawnOn ? -1 : 1));
  const [first] = specimens;
  const nothing = (flag: Flag, one: Finding): SurveillanceFlag => ({
    flag,
    findings: [one],
    definition: undefined,
    criterion: undefined,
    dateOfEvent: undefined,
  });
  if (!first) return nothing("not known", finding("surveillance-no-specimen", "not known", "ask"));
  const rule = ruleInForce(definitions, first.drawnOn);
  const definition = definitions.find((one) => one === rule);
  if (!definition)
    return nothing("not known", finding("surveillance-no-definition", "not known", "ask", { on: first.drawnOn }));
  const laboratory = laboratoryCriterion(specimens, event, definition);
  const on = laboratory.on ?? first.drawnOn;
  const secondary = event.secondaryToOtherSite;
  const notSecondary = isMissing(secondary) ? "not known" : secondary ? "not met" : "met";
  const line = lineCriterion(event.lines, on, definition);
  const repeat = repeatCriterion(event.earlierEventsOn, on, definition);
  const findings = [
    ...laboratory.findings,
    finding("surveillance-not-secondary", notSecondary, notSecondary === "not known" ? "ask" : "note"),
    line,
    repeat,
  ];
  return {
    flag: allMet([laboratory.flag, notSecondary, line.verdict as Flag, repeat.verdict as Flag]),
    findings,
    definition,
    criterion: laboratory.criterion,
    dateOfEvent: laboratory.on,
  };
}

function laboratoryCriterion(
  specimens: readonly BloodSpecimen[],
  event: SurveillanceEvent,
  definition: SurveillanceDefinition,
): Laboratory {
  const grown = grownIn(specimens);
  const unnamed = specimens.some(({ organism }) => isMissing(organism));
  const unlisted = grown.filter(({ organism }) => classOfOrganism(organism, definition) === "not listed");
  const pathogen = grown.find(({ organism }) => classOfOrganism(organism, definition) === "pathogen");
  if (pathogen) {
    const values = { organism: pathogen.organism, on: pathogen.drawnOn };
    const found = finding("surveillance-pathogen", "met", "note", values);
    return { flag: "met", criterion: "pathogen", on: pathogen.drawnOn, findings: [found] };
  }
  const pair = commensalPair(grown, definition);
  if (pair) {
    const judged = commensalCriterion(pair, event, definition);
    if (judged.flag === "met" || (unlisted.length === 0 && !unnamed)) return judged;
  }
  const open = [
    ...unlisted.map(({ organism }) => finding("surveillance-organism-not-listed", "not known", "ask", { organism })),
    ...(unnamed ? [finding("surveillance-organism-missing", "not known", "ask")] : []),
  ];
  return open.length > 0
    ? { flag: "not known", findings: open }
    : { flag: "not met", findings: [finding("surveillance-laboratory-not-met", "not met", "note")] };
}

interface Grown {
  readonly drawnOn: CivilDate;
  readonly occasion: string;
  readonly organism: string;
}

/** The specimens in which something grew that has a name. */
export const grownIn = (specimens: readonly BloodSpecimen[]): readonly Grown[] =>
  specimens.flatMap(({ organism, ...rest }) =>
    isMissing(organism) || organism === "none" ? [] : [{ ...rest, organism }],
  );

/** Two specimens of one commensal, drawn on separate occasions within the definition's days; the earliest such pair. */
export function commensalPair(
  grown: readonly Grown[],
  definition: SurveillanceDefinition,
): readonly [Grown, Grown] | undefined {
  const commensals = grown.filter(({ organism }) => classOfOrganism(organism, definition) === "commensal");
  for (const [index, one] of commensals.entries()) {
    const other = commensals
      .slice(index + 1)
      .find(
        (later) =>
          later.occasion !== one.occasion &&
          midnightsBetween(one.drawnOn, later.drawnOn) <= definition.commensalDaysApart &&
          sameCommensal(one.organism, later.organism, definition),
      );
    if (other) return [one, other];
  }
  return undefined;
}

function commensalCriterion(
  [one]: readonly [Grown, Grown],
  { signs, ageYears }: SurveillanceEvent,
  definition: SurveillanceDefinition,
): Laboratory {
  const specimen = one.drawnOn;
  if (isMissing(signs))
    return { flag: "not known", findings: [finding("surveillance-signs-not-asked", "not known", "ask")] };
  const inWindow = signs.filter(
    ({ on }) =>
      midnightsBetween(on, specimen) <= definition.windowDaysBefore &&
      midnightsBetween(specimen, on) <= definition.windowDaysAfter,
  );
  const counted = inWindow.map((sign) => ({ sign, counts: signCounts(sign, ageYears, definition) }));
  const met = counted.filter(({ counts }) => counts === "at any age" || counts === "in an infant");
  if (met.length > 0) {
    const infant = met.every(({ counts }) => counts === "in an infant");
    const on = dateOfEvent(
      specimen,
      met.map(({ sign }) => sign.on),
      definition,
    );
    const found = finding("surveillance-commensal", "met", "note", { organism: one.organism, on, infant });
    return { flag: "met", criterion: infant ? "commensal in an infant" : "commensal", on, findings: [found] };
  }
  if (counted.some(({ counts }) => counts === "not known"))
    return { flag: "not known", findings: [finding("surveillance-age-missing", "not known", "ask")] };
  const values = { organism: one.organism, specimen };
  return { flag: "not met", findings: [finding("surveillance-no-sign-in-window", "not met", "note", values)] };
}

function lineCriterion(lines: readonly LineRun[], on: CivilDate, definition: SurveillanceDefinition): Finding {
  const runs = lineRuns(lines, definition).map((run) => ({
    lineDay: lineDay(run, on),
    eligibility: surveillanceEligibility(run, on, definition),
  }));
  if (runs.length === 0) return finding("surveillance-line-missing", "not known", "ask");
  const eligible = runs.find(({ eligibility }) => eligibility === "eligible");
  const shown = eligible ?? runs.at(-1);
  return finding("surveillance-line", eligible ? "met" : "not met", "note", shown ?? {});
}

function repeatCriterion(earlier: readonly CivilDate[], on: CivilDate, definition: SurveillanceDefinition): Finding {
  const within = earlier.find((one) => one <= on && midnightsBetween(one, on) < definition.repeatFrameDays);
  return within === undefined
    ? finding("surveillance-not-repeat", "met", "note", { frameDays: definition.repeatFrameDays })
    : finding("surveillance-not-repeat", "not met", "note", { frameDays: definition.repeatFrameDays, earlier: within });
}
