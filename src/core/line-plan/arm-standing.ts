import { SIDES, thirdsOf, type Side, type Thirds, type VeinProfile, type VeinSurvey } from "../arm/index.ts";
import { isMissing } from "../missing/index.ts";
import type { Finding } from "../reason/index.ts";
import type { ArmInput, Override, PlanInput } from "./plan-input.ts";
import type { PlanPolicy } from "./plan-policy.ts";

/** One arm before any vein of it is judged: may it be used, how gladly, and what must be said about it. */
export interface ArmStanding {
  readonly side: Side;
  /** False when barred, or when something that must be known about it is missing. */
  readonly usable: boolean;
  readonly barred: boolean;
  /** No reason 0, weak 1, strong 2, barred but planned against 3. */
  readonly reasonRank: number;
  /** Non-dominant 0, dominant 1; 0 for both while nobody has asked. */
  readonly dominanceRank: number;
  readonly thirds: Thirds | undefined;
  readonly profiles: readonly VeinProfile[];
  readonly findings: readonly Finding[];
}

/** An override counts only with a typed reason and two different names. */
export function validOverride(overrides: readonly Override[], side: Side, code: string): Override | undefined {
  return overrides.find(
    (override) =>
      override.side === side &&
      override.code === code &&
      override.reason.trim() !== "" &&
      override.names.every((name) => name.trim() !== "") &&
      override.names[0].trim().toLowerCase() !== override.names[1].trim().toLowerCase(),
  );
}

export function armStandings(
  input: PlanInput,
  policy: PlanPolicy,
  profileOf: (survey: VeinSurvey) => VeinProfile,
): readonly ArmStanding[] {
  const standings = SIDES.map((side) => armStanding(side, input, policy, profileOf));
  const anyOpen = standings.some((standing) => !standing.barred);
  // a barred arm stops the plan only when no other arm is left
  return anyOpen
    ? standings.map((standing) => ({ ...standing, findings: standing.findings.map(quietBar) }))
    : standings;
}

const quietBar = (finding: Finding): Finding =>
  finding.code === "arm-barred" ? { ...finding, level: "note" } : finding;

function armStanding(
  side: Side,
  input: PlanInput,
  policy: PlanPolicy,
  profileOf: (survey: VeinSurvey) => VeinProfile,
): ArmStanding {
  const arm = input.arms[side];
  const bars = barFindings(side, arm, input.overrides, policy);
  const seen = surveyFindings(side, arm);
  const surveyed = arm.surveys.some((survey) => survey.stations.length > 0);
  const findings: Finding[] = [...bars.findings, ...seen];
  const length = arm.armLengthCm;
  const lengthKnown = !isMissing(length) && length > 0;
  if (surveyed && !lengthKnown && !bars.barred) {
    findings.push({
      code: "arm-length-missing",
      verdict: "not known",
      level: "ask",
      values: { side },
      policy: [],
      path: `arms.${side}.armLengthCm`,
    });
  }
  if (!surveyed && !bars.barred) {
    findings.push({
      code: "arm-not-surveyed",
      verdict: "not known",
      level: "note",
      values: { side },
      policy: [],
      path: `arms.${side}.surveys`,
    });
  }
  return {
    side,
    usable: !bars.barred && bars.asked && lengthKnown,
    barred: bars.barred,
    reasonRank: bars.rank,
    dominanceRank: input.patient.dominantArm === side ? 1 : 0,
    thirds: lengthKnown ? thirdsOf(length) : undefined,
    profiles: arm.surveys.map(profileOf),
    findings,
  };
}

/** A vein that does not compress anywhere in the arm is asked about, wherever the line goes in: think of a clot. */
function surveyFindings(side: Side, arm: ArmInput): Finding[] {
  return arm.surveys.flatMap(({ vein, stations }) =>
    stations
      .filter(({ compressible }) => compressible === false)
      .slice(0, 1)
      .map(({ atCm }): Finding => ({
        code: "vein-does-not-compress",
        verdict: "at the limit",
        level: "ask",
        values: { side, vein, atCm },
        policy: [],
        path: `arms.${side}.surveys`,
      })),
  );
}

/** A question about the arm that was not chosen is a quiet note: it does not stand in the way of this line. */
export const quietOtherArm = (findings: readonly Finding[], chosen: Side): readonly Finding[] =>
  findings.map((finding) =>
    finding.level === "ask" && QUIET_ELSEWHERE.has(finding.code) && finding.values["side"] !== chosen
      ? { ...finding, level: "note" }
      : finding,
  );

const QUIET_ELSEWHERE = new Set(["arm-strong-reason", "vein-does-not-compress"]);

interface BarOutcome {
  readonly asked: boolean;
  readonly barred: boolean;
  readonly rank: number;
  readonly findings: readonly Finding[];
}

function barFindings(side: Side, arm: ArmInput, overrides: readonly Override[], policy: PlanPolicy): BarOutcome {
  const path = `arms.${side}.bars`;
  if (isMissing(arm.bars)) {
    const finding: Finding = {
      code: "arm-bars-not-asked",
      verdict: "not known",
      level: "ask",
      values: { side },
      policy: [],
      path,
    };
    return { asked: false, barred: false, rank: 0, findings: [finding] };
  }
  let rank = 0;
  let barred = false;
  // a clot that the probe saw is a reason against the arm whether or not anyone ticked it
  const clotted = arm.surveys.some(({ stations }) => stations.some(({ thrombus }) => thrombus === true));
  const reasons = clotted && !arm.bars.includes("thrombosis") ? [...arm.bars, "thrombosis"] : arm.bars;
  const findings = reasons.map((reason): Finding => {
    const row = [`arm-bar.${reason}`];
    // a reason the policy does not know is taken at its gravest
    const strength = policy.armBars[reason] ?? "bar";
    if (strength === "weak") {
      rank = Math.max(rank, 1);
      return {
        code: "arm-weak-reason",
        verdict: "at the limit",
        level: "note",
        values: { side, reason },
        policy: row,
        path,
      };
    }
    if (strength === "strong") {
      rank = Math.max(rank, 2);
      return {
        code: "arm-strong-reason",
        verdict: "at the limit",
        level: "ask",
        values: { side, reason },
        policy: row,
        path,
      };
    }
    const override = validOverride(overrides, side, `arm-barred.${reason}`);
    if (override) {
      rank = 3;
      const values = { side, reason, typedReason: override.reason, names: override.names };
      return { code: "arm-barred-overridden", verdict: "not met", level: "ask", values, policy: row, path };
    }
    barred = true;
    return { code: "arm-barred", verdict: "not met", level: "stop", values: { side, reason }, policy: row, path };
  });
  return { asked: true, barred, rank, findings };
}
