import type { AgeGroup } from "../age/index.ts";
import { isMissing } from "../missing/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import type { Infusate } from "./infusate.ts";

export interface InfusateLimits {
  /** Highest osmolarity for a peripheral vein, any solution, mOsm/L. */
  readonly osmolarity: number;
  readonly nutritionOsmolarityAdult: number;
  readonly nutritionOsmolarityChild: number;
  readonly phFrom: number;
  readonly phTo: number;
}

/** Which kind of vein an infusate asks for. "not known" asks: an unknown drug is never peripheral. */
export type Route = "peripheral" | "central" | "not known";

export interface RouteJudgement {
  readonly route: Route;
  readonly vesicant: boolean;
  readonly findings: readonly Finding[];
}

/**
 * Whether a peripheral vein may carry an infusate under the local limits, and by which of them not.
 * A vesicant or an osmolarity above the limit asks for a central vein; a pH outside the limits is asked about, because
 * as a lone criterion it has been withdrawn from one guideline and kept in others; anything missing asks.
 * Holds: limits are policy; six differ in print. A newborn has no osmolarity limit: nutrition there is central.
 */
export function judgeRoute(infusate: Infusate, group: AgeGroup, limits: InfusateLimits): RouteJudgement {
  const findings = [
    ...classFindings(infusate, group),
    ...osmolarityFindings(infusate, group, limits),
    ...phFindings(infusate, limits),
  ];
  findings.push(sourceFinding(infusate));
  const central = findings.some(({ verdict }) => verdict === "not met");
  const open = findings.some(({ level }) => level === "ask");
  return {
    route: central ? "central" : open ? "not known" : "peripheral",
    vesicant: infusate.tissueClass === "vesicant",
    // a drug that needs a central vein anyway sends nobody to the phone about its pH
    findings: central ? findings.filter(({ code }) => !code.startsWith("infusate-ph-")) : findings,
  };
}

/** Where the drug's figures come from, said beside every use of them. */
const sourceFinding = ({ name, source, howKnown }: Infusate): Finding =>
  finding("infusate-source", "met", "note", { name, source, howKnown });

function classFindings(
  { name, tissueClass, classDisputed, listedClass, againstCancer }: Infusate,
  group: AgeGroup,
): Finding[] {
  if (isMissing(tissueClass)) return [finding("infusate-class-not-known", "not known", "ask", { name })];
  const differs =
    listedClass === undefined
      ? []
      : [finding("infusate-class-differs", "at the limit", "note", { name, tissueClass, listedClass })];
  const disputed = classDisputed
    ? [finding("infusate-class-disputed", "at the limit", "note", { name, tissueClass })]
    : [];
  if (tissueClass === "neither") return [...differs, ...disputed];
  // the lists of irritants are of adults: a newborn's usual fluids stand on them
  if (group === "newborn" && tissueClass === "irritant" && !againstCancer)
    return [finding("infusate-irritant-in-newborn", "not known", "ask", { name })];
  return [finding(`infusate-${tissueClass}`, "not met", "note", { name }), ...differs, ...disputed];
}

function osmolarityFindings(
  { name, osmolarity, nutrition }: Infusate,
  group: AgeGroup,
  limits: InfusateLimits,
): Finding[] {
  if (nutrition && group === "newborn") return [finding("nutrition-in-newborn", "not met", "note", { name })];
  const [limit, row] = !nutrition
    ? [limits.osmolarity, "infusate.osmolarity"]
    : group === "adult"
      ? [limits.nutritionOsmolarityAdult, "infusate.nutrition-osmolarity-adult"]
      : [limits.nutritionOsmolarityChild, "infusate.nutrition-osmolarity-child"];
  if (isMissing(osmolarity)) return [finding("infusate-osmolarity-not-known", "not known", "ask", { name })];
  const values = { name, osmolarity, limit };
  // the adult limits are "up to", the children's is "below"
  const above = nutrition && group !== "adult" ? osmolarity >= limit : osmolarity > limit;
  return above
    ? [finding("infusate-osmolarity-above", "not met", "note", values, { policy: [row] })]
    : [finding("infusate-osmolarity-within", "met", undefined, values, { policy: [row] })];
}

function phFindings({ name, ph }: Infusate, limits: InfusateLimits): Finding[] {
  // a pH that nobody wrote down is common and rarely decides: a note, where an osmolarity would be asked for
  if (isMissing(ph)) return [finding("infusate-ph-not-known", "not known", "note", { name })];
  if (ph >= limits.phFrom && ph <= limits.phTo) return [];
  const values = { name, ph, from: limits.phFrom, to: limits.phTo };
  return [finding("infusate-ph-outside", "at the limit", "ask", values, { policy: ["infusate.ph"] })];
}
