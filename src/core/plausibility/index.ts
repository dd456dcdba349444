export { tapeQuestion, usualWeightKg, weightQuestion, type PlausibleLimits } from "./plausible-entry.ts";
