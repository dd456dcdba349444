import { centimetre, type Centimetre } from "../quantity/index.ts";
import type { Finding } from "../reason/index.ts";
import type { LengthInput } from "./length-input.ts";
import type { LengthWay, LengthWayNotUsed } from "./length-way.ts";
import { waysToLength, type LengthPerson, type LengthPlace } from "./ways-to-length.ts";

export interface LengthLimits {
  /** Ways that differ by more give no length. */
  readonly agreeWithinCm: Centimetre;
  /** From the carina down to the junction of cava and atrium in adults. */
  readonly carinaToJunctionCm: Centimetre;
}

export interface ExpectedLength {
  readonly ways: readonly LengthWay[];
  readonly notUsed: readonly LengthWayNotUsed[];
  /** Mean of the ways that end where the tip is wanted; undefined when they disagree or there is none. */
  readonly fromVeinEntryCm: Centimetre | undefined;
  readonly spreadCm: Centimetre | undefined;
  readonly findings: readonly Finding[];
}

/**
 * The length from the vein entry to the tip by every way the entry allows, and whether the ways agree.
 * A second tape is a second person's, so a slip of one shows. Ways that differ by more than the limit give no length.
 * A way that ends at another point is held against the length and never averaged with it.
 */
export function expectedLength(
  input: LengthInput,
  place: LengthPlace,
  person: LengthPerson,
  limits: LengthLimits,
): ExpectedLength {
  const { ways, notUsed } = waysToLength(input, place, person, limits.carinaToJunctionCm);
  const answer = (fromVeinEntryCm: Centimetre | undefined, spreadCm: Centimetre | undefined, findings: Finding[]) => ({
    ways,
    notUsed,
    fromVeinEntryCm,
    spreadCm,
    findings,
  });
  const lengths = ways.filter(({ use }) => use === "length").map((way) => way.fromVeinEntryCm);
  const checks = ways.filter(({ use }) => use === "cross-check");
  if (lengths.length === 0) {
    // a tape whose start nobody wrote down ends three centimetres high or in the heart
    const noStart = notUsed.some(
      ({ way, reason }) => reason === "measure-missing" && (way === "surface tape" || way === "second tape"),
    );
    if (noStart) return answer(undefined, undefined, [lengthFinding("tape-start-missing", "ask", {})]);
    const [only] = checks;
    if (!only) return answer(undefined, undefined, [lengthFinding("length-missing", "ask", {})]);
    const values = { way: only.way, lengthCm: only.fromVeinEntryCm, target: only.target };
    return answer(undefined, undefined, [lengthFinding("length-ends-short", "ask", values)]);
  }
  const shortest = Math.min(...lengths);
  const spreadCm = centimetre(Math.max(...lengths) - shortest);
  const limitCm = limits.agreeWithinCm;
  if (spreadCm > limitCm) {
    return answer(undefined, spreadCm, [
      lengthFinding("lengths-disagree", "stop", { differenceCm: spreadCm, limitCm }),
    ]);
  }
  const mean = centimetre(lengths.reduce((sum, length) => sum + length, 0) / lengths.length);
  for (const check of checks) {
    const missCm = missOf(check, mean, limits.carinaToJunctionCm);
    if (missCm > limitCm) {
      const values = { way: check.way, missCm, limitCm };
      return answer(undefined, spreadCm, [lengthFinding("length-against-formula", "stop", values)]);
    }
  }
  const alone = lengths.length === 1 && checks.length === 0;
  const [first] = ways;
  return answer(mean, spreadCm, alone && first ? [lengthFinding("length-by-one-way", "ask", { way: first.way })] : []);
}

/**
 * How far a length lies from what a cross-check allows. The junction lies below the carina by no more in a child than in
 * an adult (14 children by CT: 2.2 cm, SD 1.0; Ahn 2015, J Vasc Access), so a child's length may run past the formula's
 * carina by 0 to the adult distance. No such room is known below a newborn's target.
 */
function missOf(check: LengthWay, lengthCm: Centimetre, carinaToJunctionCm: Centimetre): Centimetre {
  const past = lengthCm - check.fromVeinEntryCm;
  const room = check.target === "carina" ? carinaToJunctionCm : 0;
  return centimetre(Math.max(0, -past, past - room));
}

function lengthFinding(code: string, level: "ask" | "stop", values: Finding["values"]): Finding {
  return {
    code,
    verdict: level === "stop" ? "not met" : "not known",
    level,
    values,
    policy: ["length.agree-adult", "length.agree-child", "length.carina-to-junction"],
    path: "length",
  };
}
