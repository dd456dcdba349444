import { element, group } from "../plate/index.ts";
import type { StripFrame } from "./strip-frame.ts";
import type { VeinSlice } from "./vein-band.ts";

/** A gloved finger's height. */
const TARGET_PX = 57;

/** Press targets along the vein, one each millimetre where the scale allows it, only where the vein may be read. */
export function pressLayer(frame: StripFrame, runs: readonly (readonly VeinSlice[])[]): string {
  const everyMm = Math.max(1, Math.ceil(30 / Math.abs(frame.perCm)));
  const targets = runs.flatMap((run) => {
    const [first, last] = [run[0] as VeinSlice, run.at(-1) as VeinSlice];
    const steps: string[] = [];
    for (let mm = Math.ceil(first.cm * 10 - 1e-6); mm <= last.cm * 10 + 1e-6; mm += everyMm) {
      const cm = mm / 10;
      const slice = run.reduce((a, b) => (Math.abs(b.cm - cm) < Math.abs(a.cm - cm) ? b : a));
      const half = run.length === 1 ? TARGET_PX / 2 : (Math.abs(frame.perCm) * everyMm) / 20;
      steps.push(
        element("rect", {
          "data-entry-cm": cm,
          x: frame.x(cm) - half,
          y: frame.y(slice.frontMm + slice.diameterMm / 2) - TARGET_PX / 2,
          width: 2 * half,
          height: TARGET_PX,
        }),
      );
    }
    return steps;
  });
  return group({ "data-part": "press", fill: "transparent", style: "cursor:pointer;touch-action:pan-y" }, ...targets);
}
