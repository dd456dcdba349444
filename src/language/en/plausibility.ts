import type { Finding } from "../../core/reason/index.ts";
import { amount } from "./number.ts";

type Values = Finding["values"];
const n = (values: Values, key: string): number => Number(values[key]);

/** Both readings of a number that may be in another unit. The person chooses; nothing is converted. */
export const plausibilitySentences: Readonly<Record<string, (values: Values) => string>> = {
  "weight-in-pounds": (v) =>
    `${n(v, "kg")} kg is much for this age. ${n(v, "kg")} lb is ${amount(n(v, "asKg"), "kg", 2)}.`,
  "weight-low-for-age": (v) => `${n(v, "kg")} kg is little at ${n(v, "years")} years. Are the years months?`,
  "weight-high-for-height": (v) =>
    `${n(v, "kg")} kg is much at ${n(v, "heightCm")} cm. ${n(v, "kg")} lb is ${amount(n(v, "asKg"), "kg")}.`,
  "weight-low-for-height": (v) => `${n(v, "kg")} kg is little at ${n(v, "heightCm")} cm. Check both units.`,
  "height-in-inches": (v) =>
    `${n(v, "cm")} cm is short for an adult. ${n(v, "cm")} in is ${amount(n(v, "asCm"), "cm")}.`,
  "length-in-inches": (v) =>
    `${n(v, "cm")} cm is short for an adult. ${n(v, "cm")} in is ${amount(n(v, "asCm"), "cm")}.`,
  "arm-in-inches": (v) =>
    `${n(v, "cm")} cm is short for an adult arm. ${n(v, "cm")} in is ${amount(n(v, "asCm"), "cm")}.`,
  "arm-long": (v) => `${amount(n(v, "cm"), "cm")} is long for this arm. Measured from elbow bone to armpit line?`,
  "vein-width-lost-point": (v) => `${n(v, "mm")} mm is wide for an arm vein. Is it ${amount(n(v, "asMm"), "mm")}?`,
  "vein-width-in-centimetres": (v) => `${n(v, "mm")} mm is narrow. ${n(v, "mm")} cm is ${amount(n(v, "asMm"), "mm")}.`,
  "vein-depth-in-centimetres": (v) =>
    `${n(v, "mm")} mm is shallow for an adult. ${n(v, "mm")} cm is ${amount(n(v, "asMm"), "mm")}.`,
};
