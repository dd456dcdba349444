import { skinRuler } from "../../figure/index.ts";
import { centimetres, skinWords } from "../../language/index.ts";
import type { LineView } from "../../register/index.ts";
import { lengthNow } from "./line-value.ts";
import type { Block } from "./sheet.ts";

/** The line where it leaves the skin, to be laid beside the arm; nothing is drawn while its outside length is missing. */
export function atTheSkin(
  of: LineView | { readonly outsideCm: number; readonly insideCm: number },
  caption: string,
): readonly Block[] {
  const [outsideCm, inside] =
    "happenings" in of
      ? [lengthNow(of, "outsideCm").cm, lengthNow(of, "insideCm").value]
      : [of.outsideCm, centimetres(of.insideCm)];
  if (outsideCm === undefined) return [];
  const outside = centimetres(outsideCm);
  const figure = skinRuler({
    id: "skin",
    outsideCm,
    outsideWords: skinWords.outside(outside),
    insideWords: skinWords.inside(inside),
    skinWords: skinWords.skin,
    sentence: skinWords.sentence(outside, inside),
  });
  const size = figure.trueSize ? skinWords.trueSize : skinWords.halfSize;
  const drawing = { svg: figure.svg, alt: figure.sentence, widthMm: figure.widthMm };
  return [{ kind: "drawing", drawing, caption: `${caption} ${size}` }];
}
