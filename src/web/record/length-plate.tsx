import { useMemo, type ReactNode } from "react";
import { civilDateOf, instantMs } from "../../core/calendar/index.ts";
import { lengthPlate } from "../../figure/index.ts";
import { sayDay } from "../../language/index.ts";
import { outsideAtTip, type LineView } from "../../register/index.ts";
import { Drawing } from "../plan/drawing.tsx";
import { useWidth } from "../plan/use-width.ts";
import { useRecord } from "./record-context.tsx";
import { rulesFrom } from "./use-line-answer.ts";

const TIP_EVENTS = new Set(["TipRead", "TipCorrected"]);

/** Outside length then and now, drawn at the width there is. */
export function LengthPlate({ line }: { readonly line: LineView }): ReactNode {
  const { policy } = useRecord();
  const [box, width] = useWidth();
  const figure = useMemo(() => {
    if (!line.placed || line.outside.length === 0) return undefined;
    const start = instantMs(line.placed.event.happenedAt);
    const rules = rulesFrom(policy).release;
    const tips = new Set(
      line.happenings.filter(({ event }) => TIP_EVENTS.has(event.type)).map(({ event }) => event.id),
    );
    return lengthPlate(
      {
        readings: line.outside.map(({ value, at, event }) => ({
          day: (instantMs(at) - start) / 86_400_000,
          outsideCm: value,
          label: sayDay(civilDateOf(at)).slice(4, -5),
          fixesTip: tips.has(event),
        })),
        baselineCm: outsideAtTip(line)?.value,
        noiseCm: rules.noiseCm,
        outCm: rules.outCm,
      },
      Math.max(240, Math.min(width || 720, 860)),
    );
  }, [line, policy, width]);
  return (
    <section ref={box} className="length-box" aria-label="Outside length, then and now">
      {figure ? (
        <Drawing figure={figure} plate="" caption="The pale band is what a tape cannot tell apart." />
      ) : (
        <p className="soft">No outside length is written. Without one a moved line looks like any other.</p>
      )}
    </section>
  );
}
