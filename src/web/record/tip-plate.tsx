import { useMemo, type ReactNode } from "react";
import type { FilmAnswer, TipPlace } from "../../core/tip/index.ts";
import { missing } from "../../core/missing/index.ts";
import { tipPlateFromFilm } from "../../figure/index.ts";
import { tipPolicyFrom } from "../../policy/index.ts";
import { Drawing } from "../plan/drawing.tsx";
import { useWidth } from "../plan/use-width.ts";
import { useRecord } from "./record-context.tsx";

const NARROW_PX = 560;
const notKnown = missing("not known");

/** The tip in the chest, drawn at the width there is; from no arm while the sources name none or two. */
export function TipPlate({
  arms,
  place,
  answer,
}: {
  /** Every arm that somebody wrote, each once. */
  readonly arms: readonly ("right" | "left")[];
  readonly place: TipPlace;
  readonly answer: FilmAnswer | undefined;
}): ReactNode {
  const { policy } = useRecord();
  const [box, width] = useWidth();
  const narrow = width > 0 && width < NARROW_PX;
  const [side, other] = arms;
  const figure = useMemo(
    () =>
      tipPlateFromFilm(
        {
          id: "tip-plate",
          side: side === undefined || other !== undefined ? notKnown : side,
          sidesDiffer: other !== undefined,
          place,
          answer,
          narrow,
        },
        tipPolicyFrom(policy.table),
      ),
    [side, other, place, answer, narrow, policy],
  );
  return (
    <section ref={box} className="tip-plate-box" aria-label="The tip in the chest">
      {figure ? (
        <Drawing figure={figure} plate="" caption="Down is to one scale from the carina; across is drawn to be seen." />
      ) : null}
    </section>
  );
}
