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

/** The tip in the chest, drawn at the width there is. */
export function TipPlate({
  side,
  place,
  answer,
}: {
  readonly side: "right" | "left" | undefined;
  readonly place: TipPlace;
  readonly answer: FilmAnswer | undefined;
}): ReactNode {
  const { policy } = useRecord();
  const [box, width] = useWidth();
  const narrow = width > 0 && width < NARROW_PX;
  const figure = useMemo(
    () =>
      tipPlateFromFilm({ id: "tip-plate", side: side ?? notKnown, place, answer, narrow }, tipPolicyFrom(policy.table)),
    [side, place, answer, narrow, policy],
  );
  return (
    <section ref={box} className="tip-plate-box" aria-label="The tip in the chest">
      {figure ? (
        <Drawing figure={figure} plate="" caption="Down is to one scale from the carina; across is drawn to be seen." />
      ) : null}
    </section>
  );
}
