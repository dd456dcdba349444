import { inch, inchToCentimetre, type Centimetre } from "../quantity/index.ts";
import type { Finding } from "../reason/index.ts";
import type { PlausibleLimits } from "./plausible-limits.ts";
import { question } from "./question.ts";

/** Asks when an adult's tape looks like inches; echoes both readings and converts nothing. */
export function tapeQuestion(tapeCm: Centimetre, path: string, limits: PlausibleLimits): readonly Finding[] {
  if (tapeCm >= limits.shortestAdultTapeCm) return [];
  const values = { cm: tapeCm, asCm: inchToCentimetre(inch(tapeCm)) };
  return [question("length-in-inches", path, "plausible.shortest-adult-tape", values)];
}

/** Asks when an upper arm is short enough to be inches, or too long for the person. */
export function armLengthQuestion(
  armCm: Centimetre,
  path: string,
  person: { readonly adult: boolean; readonly heightCm: Centimetre | undefined },
  limits: PlausibleLimits,
): readonly Finding[] {
  if (person.adult && armCm < limits.shortestAdultArmCm) {
    const values = { cm: armCm, asCm: inchToCentimetre(inch(armCm)) };
    return [question("arm-in-inches", path, "plausible.shortest-adult-arm", values)];
  }
  if (person.adult && armCm > limits.longestAdultArmCm) {
    return [
      question("arm-long", path, "plausible.longest-adult-arm", { cm: armCm, limitCm: limits.longestAdultArmCm }),
    ];
  }
  const most = person.heightCm === undefined ? Infinity : limits.mostArmShareOfHeight * person.heightCm;
  if (armCm <= most) return [];
  return [question("arm-long", path, "plausible.most-arm-share-of-height", { cm: armCm, limitCm: most })];
}
