import type { Millimetre } from "../quantity/index.ts";
import type { Finding } from "../reason/index.ts";
import type { PlausibleLimits } from "./plausible-limits.ts";
import { question } from "./question.ts";

/** Asks when a vein's width looks like centimetres, or like millimetres that lost their point. */
export function veinWidthQuestion(widthMm: Millimetre, path: string, limits: PlausibleLimits): readonly Finding[] {
  if (widthMm > limits.widestVeinMm) {
    return [question("vein-width-lost-point", path, "plausible.widest-vein", { mm: widthMm, asMm: widthMm / 10 })];
  }
  if (widthMm < limits.narrowestVeinMm) {
    const values = { mm: widthMm, asMm: widthMm * 10 };
    return [question("vein-width-in-centimetres", path, "plausible.narrowest-vein", values)];
  }
  return [];
}

/** Asks when an adult's vein lies so shallow that the depth looks like centimetres; a newborn's may. */
export function veinDepthQuestion(depthMm: Millimetre, path: string, limits: PlausibleLimits): readonly Finding[] {
  if (depthMm >= limits.shallowestAdultVeinMm) return [];
  const values = { mm: depthMm, asMm: depthMm * 10 };
  return [question("vein-depth-in-centimetres", path, "plausible.shallowest-adult-vein", values)];
}
