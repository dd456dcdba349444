import { isMissing, type Maybe } from "../missing/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import { junctionTargets } from "./junction-target.ts";
import { lengthChange, tipEstimate, type ChangeSteps, type LengthChange, type TipEstimate } from "./tip-estimate.ts";
import type { TipPolicy } from "./tip-policy.ts";

export interface OutsideQuestion {
  readonly ageYears: Maybe<number>;
  /** Carina to tip on the last film that a person confirmed, cm. */
  readonly depthAtFilmCm: Maybe<number>;
  readonly outsideAtFilmCm: Maybe<number>;
  readonly outsideNowCm: Maybe<number>;
  /** Swelling, pain, leak, palpitations or the like. */
  readonly symptoms: Maybe<boolean>;
  readonly bloodReturn: Maybe<boolean>;
  /** One vertebral body and disc of this person, true cm: without it a child's junction is not known. */
  readonly unitCm?: number | undefined;
}

/** What a changed outside length means. Never a confirmation: a tape does not see the tip. */
export interface OutsideAnswer {
  readonly changeCm: number | undefined;
  readonly step: LengthChange | undefined;
  /** By the deepest enabled target; undefined for a child whose film shows no unit, and for a line that went in. */
  readonly estimate: TipEstimate | undefined;
  /** How far short of the junction that is by the published series: the least and the most of all, counted or not. */
  readonly shortOfJunctionCm: { readonly least: number; readonly most: number } | undefined;
  /** Vesicants and nutrition wait. */
  readonly hold: boolean;
  readonly imageFirst: boolean;
  readonly findings: readonly Finding[];
}

const STEP_ROWS = ["release.noise", "release.out"];

/**
 * What the outside length says since the last confirmed tip: an upper bound of its depth, whether vesicants wait,
 * whether to image first.
 *   change = outside now - outside at the film;  depth now <= depth at the film - change
 * Lengths in cm. A line that went in has no bound; a change within the noise is no change.
 * Source: imaging after a change is common practice, no source; series as each names itself.
 * Example: 4.03 cm at the film, outside 2 then and 5 now: at most 1.03 cm below the carina, image first.
 */
export function judgeOutside(question: OutsideQuestion, policy: TipPolicy, steps: ChangeSteps): OutsideAnswer {
  const { ageYears, depthAtFilmCm, outsideAtFilmCm, outsideNowCm, symptoms, bloodReturn } = question;
  const findings: Finding[] = [];
  const ask = (code: string, path: string, value: Maybe<unknown>) => {
    if (isMissing(value)) findings.push(finding(code, "not known", "ask", { missing: value.missing }, { path }));
  };
  ask("outside-at-film-missing", "outsideAtFilmCm", outsideAtFilmCm);
  ask("outside-now-missing", "outsideNowCm", outsideNowCm);
  ask("outside-depth-missing", "depthAtFilmCm", depthAtFilmCm);
  ask("outside-age-missing", "age", ageYears);
  ask("outside-symptoms-missing", "symptoms", symptoms);
  ask("outside-blood-return-missing", "bloodReturn", bloodReturn);
  const changeCm = isMissing(outsideAtFilmCm) || isMissing(outsideNowCm) ? undefined : outsideNowCm - outsideAtFilmCm;
  const step = changeCm === undefined ? undefined : lengthChange(changeCm, steps);
  if (changeCm !== undefined && step !== undefined) findings.push(stepFinding(step, changeCm, steps));
  if (symptoms === true) findings.push(finding("outside-symptoms", "not met", "stop"));
  if (bloodReturn === false) findings.push(finding("outside-no-blood-return", "not met", "stop"));
  const adult = !isMissing(ageYears) && ageYears >= policy.adultFromYears;
  const { unitCm } = question;
  const child = !isMissing(ageYears) && !adult && unitCm !== undefined;
  // the adult series stay on the adult unit, as the film's own answer for a film without one
  const targets = adult || child ? junctionTargets(ageYears, child ? unitCm : undefined, policy) : [];
  const centres = targets.flatMap(({ cm }) => (cm === undefined ? [] : [cm]));
  const counted = targets.flatMap(({ cm, enabled }) => (enabled && cm !== undefined ? [cm] : []));
  // within the noise a bound must not be tighter than the tape
  const by = changeCm === undefined || step === "in" ? undefined : step === "noise" ? Math.min(changeCm, 0) : changeCm;
  const estimate =
    by === undefined || counted.length === 0
      ? undefined
      : tipEstimate(
          depthAtFilmCm,
          by,
          Math.max(...counted),
          // a child's cava was not measured: how far short, and no part of it by name
          adult ? policy : { ...policy, cavaLengthCm: undefined },
        );
  if (estimate) findings.push(...estimate.findings);
  const depth = estimate?.depthAtMostCm;
  return {
    changeCm,
    step,
    estimate,
    shortOfJunctionCm:
      depth === undefined ? undefined : { least: Math.min(...centres) - depth, most: Math.max(...centres) - depth },
    hold: step !== "noise" || symptoms !== false || bloodReturn !== true,
    imageFirst: step === "out" || step === "in" || symptoms === true,
    findings,
  };
}

function stepFinding(step: LengthChange, changeCm: number, { noiseCm, outCm }: ChangeSteps): Finding {
  const values = { changeCm, noiseCm, outCm };
  const rows = { policy: STEP_ROWS };
  if (step === "noise") return finding("outside-as-before", "met", "note", values, rows);
  if (step === "out a little") return finding("outside-measure-again", "at the limit", "ask", values, rows);
  return finding(step === "out" ? "outside-moved-out" : "outside-moved-in", "not met", "stop", values, rows);
}
