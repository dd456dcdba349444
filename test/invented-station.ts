import type { Station } from "../src/core/arm/index.ts";
import { centimetre, millimetre } from "../src/core/quantity/index.ts";

/** One reading of a vein with nothing in its way. */
export const station = (atCm: number, diameterMm: number, depthMm: number, more: Partial<Station> = {}): Station => ({
  atCm: centimetre(atCm),
  veinPresent: true,
  diameterMm: millimetre(diameterMm),
  depthMm: millimetre(depthMm),
  artery: "none",
  nerveBeside: false,
  compressible: true,
  thrombus: false,
  tourniquetOn: false,
  repeats: 1,
  ...more,
});
