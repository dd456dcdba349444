import type { AgeGroup } from "../age/index.ts";
import type { Vein } from "../arm/index.ts";
import { isMissing, type Maybe } from "../missing/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import type { TipPolicy } from "./tip-policy.ts";

export interface ArmMovementQuestion {
  /** Undefined while the age is missing. */
  readonly group: AgeGroup | undefined;
  readonly vein: Maybe<Vein>;
  /** Degrees the arm is brought in to the body; below zero, moved away from it. */
  readonly broughtInDegree: number;
}

/** Which way a tip goes, and by how much where a series measured it. */
export interface ArmMovement {
  readonly way: "in" | "out" | "not known" | "none";
  readonly expectedCm: number | undefined;
  readonly leastCm: number | undefined;
  readonly mostCm: number | undefined;
  readonly findings: readonly Finding[];
}

const ADULT_ROWS = ["tip.arm-away-mean", "tip.arm-away-least", "tip.arm-away-most"];
const CHILD_ROWS = ["tip.child-arm-mean", "tip.child-arm-most"];
const NEWBORN_ROWS = ["tip.newborn-per-degree", "tip.newborn-per-degree-low", "tip.newborn-per-degree-high"];

/**
 * How a tip moves when the arm does. Adult, arm brought to the side: deeper by the printed mean. Newborn: basilic and
 * axillary veins carry the tip in with the arm, the cephalic vein carries it out; basilic, per degree.
 *   newborn basilic: movement = degrees x cm per degree
 * Holds: the whole way from away to the side for adults; the opposite movement was not measured and gets no number.
 * Source: Forauer 2000, J Vasc Interv Radiol; Nadroo 2002; Connolly 2006. Example: newborn, basilic, 90 degrees in: 1.5 cm in.
 */
export function armMovement({ group, vein, broughtInDegree }: ArmMovementQuestion, policy: TipPolicy): ArmMovement {
  const none = { expectedCm: undefined, leastCm: undefined, mostCm: undefined };
  if (broughtInDegree === 0) return { way: "none", ...none, findings: [] };
  if (group === undefined)
    return { way: "not known", ...none, findings: [finding("outside-age-missing", "not known", "ask")] };
  if (group === "newborn") return newbornMovement(vein, broughtInDegree, policy);
  const inward = broughtInDegree > 0;
  if (group === "child") {
    const said = finding("arm-movement-child", "not known", "note", { ...policy.childArm }, { policy: CHILD_ROWS });
    return { way: inward ? "in" : "out", ...none, findings: [said] };
  }
  if (!inward)
    return { way: "not known", ...none, findings: [finding("arm-movement-out-unknown", "not known", "note")] };
  const { meanCm, leastCm, mostCm } = policy.armAway;
  const values = { meanCm, leastCm, mostCm };
  const said = finding("arm-movement-adult", "not known", "note", values, { policy: ADULT_ROWS });
  return { way: "in", expectedCm: meanCm, leastCm, mostCm, findings: [said] };
}

function newbornMovement(vein: Maybe<Vein>, degrees: number, { newbornArm }: TipPolicy): ArmMovement {
  const none = { expectedCm: undefined, leastCm: undefined, mostCm: undefined };
  if (isMissing(vein)) {
    const asked = finding("arm-movement-vein-missing", "not known", "ask", { missing: vein.missing }, { path: "vein" });
    return { way: "not known", ...none, findings: [asked] };
  }
  // brachial veins were in neither series
  if (vein !== "basilic" && vein !== "axillary" && vein !== "cephalic")
    return { way: "not known", ...none, findings: [finding("arm-movement-vein-unknown", "not known", "note")] };
  const way = degrees > 0 === (vein === "cephalic") ? "out" : "in";
  const said = finding("arm-movement-newborn", "not known", "note", { vein, way });
  if (vein !== "basilic") return { way, ...none, findings: [said] };
  const [expectedCm, leastCm, mostCm] = [
    newbornArm.perDegreeCm * Math.abs(degrees),
    newbornArm.lowPerDegreeCm * Math.abs(degrees),
    newbornArm.highPerDegreeCm * Math.abs(degrees),
  ];
  const values = { way, expectedCm, leastCm, mostCm };
  const amount = finding("arm-movement-newborn-basilic", "not known", "note", values, { policy: NEWBORN_ROWS });
  return { way, expectedCm, leastCm, mostCm, findings: [said, amount] };
}
