import type { Side } from "../../core/arm/index.ts";
import { isMissing, type Maybe } from "../../core/missing/index.ts";
import { isInCava, type FilmAnswer, type TipPlace, type TipPolicy } from "../../core/tip/index.ts";
import { armWords, depthWords, sayFilm, tipPlateWords } from "../../language/index.ts";
import type { Figure } from "../plate/index.ts";
import { tipPlate } from "./tip-plate.ts";

/** What of a film is drawn; "answer" is undefined where the film's numbers are of another day. */
export interface FilmPlate {
  readonly id: string;
  readonly side: Maybe<Side>;
  /** Plan, placing and film name two arms: the tip is drawn from neither. */
  readonly sidesDiffer?: boolean;
  readonly place: Maybe<TipPlace>;
  readonly answer: FilmAnswer | undefined;
  readonly grey?: boolean;
  readonly narrow?: boolean;
}

/**
 * The plate of one film; undefined while nobody has read a place. Numbers are drawn only where the answer gives a depth;
 * otherwise the place stands there and no number. The doubt is that between two readers; cava and junction are adult means.
 */
export function tipPlateFromFilm(film: FilmPlate, policy: TipPolicy): Figure | undefined {
  const { id, place, answer, grey = false, narrow = false } = film;
  if (isMissing(place)) return undefined;
  const side = isMissing(film.side) || film.sidesDiffer ? undefined : film.side;
  const arm = film.sidesDiffer
    ? tipPlateWords.armNotSettled
    : side === undefined
      ? tipPlateWords.armNotKnown
      : armWords(side);
  const adult = policy.series.find(({ name }) => policy.enabled.includes(name)) ?? policy.series[0];
  const junctionCm = adult && "cm" in adult.centre ? adult.centre.cm : 2 * policy.unitCm;
  const drawn = { id, side, armWords: arm, cavaCm: policy.cavaLengthCm, junctionCm, grey, narrow };
  const seen = `${arm}, ${tipPlateWords.view}.`;
  if (answer?.kind !== "withdraw" && answer?.kind !== "leave") {
    const why = isInCava(place) ? tipPlateWords.notNow : tipPlateWords.reposition;
    const sentence = `${seen} ${tipPlateWords.seenAt(place)} ${tipPlateWords.pictureOnly}`;
    return tipPlate({ ...drawn, kind: "elsewhere", place, why, sentence });
  }
  const { trueDepthCm, targets } = answer;
  const withdrawCm = answer.kind === "withdraw" ? answer.withdrawCm : undefined;
  const counted = targets.flatMap(({ cm, enabled }) => (enabled && cm !== undefined ? [cm] : []));
  const deepest = Math.max(...counted);
  return tipPlate({
    ...drawn,
    kind: "on the way",
    sentence: `${seen} Tip ${depthWords(trueDepthCm)}. ${sayFilm(answer)}`,
    depthCm: trueDepthCm,
    doubtCm: { low: trueDepthCm + policy.readers.lowCm, high: trueDepthCm + policy.readers.highCm },
    targets: targets.flatMap(({ name, cm, sdCm, enabled }) =>
      cm === undefined
        ? []
        : [
            {
              name,
              cm,
              ...(sdCm === undefined ? {} : { lowCm: cm - sdCm, highCm: cm + sdCm }),
              counted: enabled,
              sets: enabled && cm === deepest,
            },
          ],
    ),
    withdrawCm,
    shownCm: withdrawCm,
  });
}
