import { isMissing, type Maybe } from "../missing/index.ts";
import type { Centimetre } from "../quantity/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import { junctionTargets, type JunctionTarget } from "./junction-target.ts";
import { isInCava, type TipPlace } from "./tip-place.ts";
import type { TipPolicy } from "./tip-policy.ts";

/** A film as a person read it. Lengths below the carina count up; a tip above it is negative. */
export interface FilmReading {
  readonly place: Maybe<TipPlace>;
  /** Carina to tip as measured on the film. */
  readonly filmCm: Maybe<Centimetre>;
  /** Film length of a thing divided by its true length. */
  readonly magnification: Maybe<number>;
  /** One vertebral body and disc as measured on the same film. */
  readonly unitOnFilmCm: Maybe<Centimetre>;
  readonly ageYears: Maybe<number>;
  readonly arm: Maybe<"at the side" | "away from the body">;
  /** Who says that the arm lay at the side although the film does not show it; "" while nobody does. */
  readonly armConfirmedBy: string;
  readonly outsideCm: Maybe<Centimetre>;
  readonly insideCm: Maybe<Centimetre>;
  readonly symptoms: Maybe<boolean>;
}

/**
 * What a film asks for.
 *   withdraw    three numbers: by how much, and what is outside and inside after it
 *   leave       the tip is no deeper than the target: nothing is drawn back, nothing is pushed in
 *   picture     the tip is not in the cava: a picture and no number
 *   no number   something is missing or the arm was away: the findings say what to do
 */
export type FilmAnswer = (
  | {
      readonly kind: "withdraw";
      readonly trueDepthCm: number;
      readonly withdrawCm: number;
      readonly outsideCm: number;
      readonly insideCm: number;
    }
  | { readonly kind: "leave"; readonly trueDepthCm: number; readonly aboveTargetCm: number }
  | { readonly kind: "picture"; readonly place: TipPlace }
  | { readonly kind: "no number" }
) & {
  /** Every published series with its target, the enabled ones marked: the spread a reader sees. */
  readonly targets: readonly JunctionTarget[];
  readonly findings: readonly Finding[];
};

/**
 * The least withdrawal a film asks for: true depth = film / magnification; withdrawal = true depth - the deepest central
 * target of the enabled series; outside and inside change by the same amount.
 * Lengths in cm. It gives no number for an arm away from the body, a tip outside the cava, or a missing length; the
 * spread of the series is shown and its low end never turns a withdrawal into none.
 * Source: targets as named in each series; the arm, Forauer 2000 (J Vasc Interv Radiol).
 * Example: film 7.3, magnification 1.12, target 4.03, outside 0.5, inside 43.5: withdraw 2.49, outside 2.99, inside 41.01.
 */
export function correctFilm(reading: FilmReading, policy: TipPolicy): FilmAnswer {
  const { place } = reading;
  const findings: Finding[] = [];
  const none = (): FilmAnswer => ({ kind: "no number", targets: [], findings });
  if (isMissing(place)) {
    findings.push(finding("film-place-missing", "not known", "ask"));
    return none();
  }
  if (!isInCava(place)) {
    return {
      kind: "picture",
      place,
      targets: [],
      findings: [finding("film-tip-not-in-cava", "not met", "stop", { place })],
    };
  }
  const scale = scaleOf(reading, policy, findings);
  if (isMissing(reading.filmCm)) findings.push(finding("film-distance-missing", "not known", "ask"));
  if (isMissing(reading.ageYears)) findings.push(finding("film-age-missing", "not known", "ask"));
  if (isMissing(reading.filmCm) || isMissing(reading.ageYears) || scale === undefined) return none();
  const trueDepthCm = reading.filmCm / scale.filmPerTrue;
  const targets = junctionTargets(reading.ageYears, scale.unitCm, policy);
  const counted = targets.filter(({ enabled, cm }) => enabled && cm !== undefined);
  if (counted.length === 0) {
    const unscaled = targets.some(({ enabled }) => enabled);
    findings.push(
      finding(unscaled ? "film-unit-missing" : "film-no-target", "not known", "ask", {}, { policy: ["tip.series"] }),
    );
    return { ...none(), targets };
  }
  // neither depth nor targets: a reader would subtract them, and the number would be of another arm position
  if (!armLayAtTheSide(reading, policy, findings)) return none();
  const deepest = Math.max(...counted.map(({ cm }) => cm as number));
  const withdrawCm = trueDepthCm - deepest;
  findings.push(
    finding(
      "film-over-reads",
      "not known",
      "note",
      { cm: policy.filmOverReadsCm },
      { policy: ["tip.film-over-reads"] },
    ),
  );
  if (withdrawCm <= 0) {
    findings.push(
      finding("film-not-deeper-than-target", "met", "note", { aboveCm: -withdrawCm }, { policy: ["tip.series"] }),
    );
    return { kind: "leave", trueDepthCm, aboveTargetCm: -withdrawCm, targets, findings };
  }
  if (!isMissing(reading.symptoms) && !reading.symptoms) {
    findings.push(finding("film-no-symptoms-may-stay", "not known", "note", { place }));
  }
  const { outsideCm, insideCm } = reading;
  if (isMissing(outsideCm)) findings.push(finding("film-outside-missing", "not known", "ask"));
  if (isMissing(insideCm)) findings.push(finding("film-inside-missing", "not known", "ask"));
  if (isMissing(outsideCm) || isMissing(insideCm)) return { ...none(), targets };
  if (insideCm <= withdrawCm) {
    findings.push(finding("film-longer-than-inside", "not met", "stop", { insideCm, withdrawCm }));
    return { ...none(), targets };
  }
  return {
    kind: "withdraw",
    trueDepthCm,
    withdrawCm,
    outsideCm: outsideCm + withdrawCm,
    insideCm: insideCm - withdrawCm,
    targets,
    findings,
  };
}

interface Scale {
  /** Film centimetres for one true centimetre. */
  readonly filmPerTrue: number;
  /** One vertebral unit in true centimetres; undefined where the film shows none. */
  readonly unitCm: number | undefined;
}

/** A thing of known size gives the scale; without one an adult's vertebral unit does, and a child's film gives none. */
function scaleOf(reading: FilmReading, policy: TipPolicy, findings: Finding[]): Scale | undefined {
  const { magnification, unitOnFilmCm, ageYears } = reading;
  if (!isMissing(magnification)) {
    const { least, most } = policy.magnification;
    if (magnification < least || magnification > most) {
      findings.push(
        finding(
          "film-magnification-unusual",
          "not met",
          "ask",
          { magnification, least, most },
          {
            policy: ["tip.magnification-least", "tip.magnification-most"],
          },
        ),
      );
    }
    return { filmPerTrue: magnification, unitCm: isMissing(unitOnFilmCm) ? undefined : unitOnFilmCm / magnification };
  }
  const adult = !isMissing(ageYears) && ageYears >= policy.adultFromYears;
  if (!isMissing(unitOnFilmCm) && adult) {
    findings.push(
      finding("film-scaled-by-vertebra", "not known", "note", { unitCm: policy.unitCm }, { policy: ["tip.unit"] }),
    );
    return { filmPerTrue: unitOnFilmCm / policy.unitCm, unitCm: policy.unitCm };
  }
  findings.push(finding("film-scale-missing", "not known", "ask"));
  return undefined;
}

function armLayAtTheSide(reading: FilmReading, policy: TipPolicy, findings: Finding[]): boolean {
  if (!isMissing(reading.arm) && reading.arm === "at the side") return true;
  const { meanCm, leastCm, mostCm } = policy.armAway;
  const away = !isMissing(reading.arm);
  const confirmed = !away && reading.armConfirmedBy.trim() !== "";
  findings.push(
    finding(
      away ? "film-arm-away" : confirmed ? "film-arm-confirmed" : "film-arm-not-known",
      away ? "not met" : "not known",
      confirmed ? "note" : "ask",
      { meanCm, leastCm, mostCm, ...(confirmed ? { by: reading.armConfirmedBy.trim() } : {}) },
      { policy: ["tip.arm-away-mean", "tip.arm-away-least", "tip.arm-away-most"] },
    ),
  );
  return confirmed;
}
