import { isMissing, type Maybe } from "../missing/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import { anyMet, type Flag } from "./clinical-infection.ts";

export const ARM_VEINS = ["basilic", "cephalic", "brachial", "axillary", "subclavian", "brachiocephalic"] as const;
export type ArmVein = (typeof ARM_VEINS)[number];

const DEEP: ReadonlySet<ArmVein> = new Set(["brachial", "axillary", "subclavian", "brachiocephalic"]);
/** Bone covers these: a probe cannot press them flat, so flow decides there. */
const NOT_COMPRESSIBLE: ReadonlySet<ArmVein> = new Set(["subclavian", "brachiocephalic"]);

/** Deep or superficial by the vein's name; a basilic clot is superficial and lies round the catheter all the same. */
export const veinDepthClass = (vein: ArmVein): "deep" | "superficial" => (DEEP.has(vein) ? "deep" : "superficial");

export interface ClotImage {
  readonly vein: ArmVein;
  readonly compresses: Maybe<boolean>;
  readonly fillingDefect: Maybe<boolean>;
  readonly flow: Maybe<"phasic" | "not phasic" | "none">;
}

/**
 * The imaging criteria of a clot, each met, not met or not known: the vein does not compress, a filling defect is seen,
 * and where bone keeps it from being compressed, no flow or no phasic flow.
 * Holds: one vein. Source: criteria of duplex imaging, from memory. Example: brachial, does not compress: met, deep.
 */
export function judgeClotImage(image: ClotImage): {
  readonly flag: Flag;
  readonly depth: "deep" | "superficial";
  readonly findings: readonly Finding[];
} {
  const { vein, compresses, fillingDefect, flow } = image;
  const covered = NOT_COMPRESSIBLE.has(vein);
  const verdict = (fact: Maybe<boolean>): Flag => (isMissing(fact) ? "not known" : fact ? "met" : "not met");
  const say = (code: string, flag: Flag) => finding(code, flag, flag === "not known" ? "ask" : "note", { vein });
  const findings = [
    covered
      ? say("clot-flow", verdict(isMissing(flow) ? flow : flow !== "phasic"))
      : say("clot-does-not-compress", verdict(isMissing(compresses) ? compresses : !compresses)),
    say("clot-filling-defect", verdict(fillingDefect)),
  ];
  return { flag: anyMet(findings.map((one) => one.verdict as Flag)), depth: veinDepthClass(vein), findings };
}
