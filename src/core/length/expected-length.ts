import type { Side } from "../arm/index.ts";
import { isMissing } from "../missing/index.ts";
import { centimetre, type Centimetre, type Millimetre } from "../quantity/index.ts";
import type { Finding } from "../reason/index.ts";
import type { LengthInput } from "./length-input.ts";

/** One way to the length in the vein: entry to tip. */
export interface LengthWay {
  readonly way: "surface tape" | "second tape" | "adult tape formula" | "children's height formula" | "last good line";
  readonly fromVeinEntryCm: Centimetre;
  readonly target: "third right intercostal space" | "4 cm below the carina" | "carina" | "as last time";
}

export interface ExpectedLength {
  readonly ways: readonly LengthWay[];
  /** Mean of the ways when they agree; undefined when they do not or there is none. */
  readonly fromVeinEntryCm: Centimetre | undefined;
  readonly spreadCm: Centimetre | undefined;
  readonly findings: readonly Finding[];
}

export interface LengthPerson {
  readonly child: boolean;
  readonly heightCm: Centimetre | undefined;
}

/** Carina to the junction of cava and atrium, mean of 112 adults by CT: Mahlon MA, Yoon HC 2007, J Vasc Interv Radiol 18:1106. */
const CARINA_TO_JUNCTION_CM = 4.03;

/**
 * Adult tape formula, elbow crease to carina.
 *   25.0 + 0.5 x clavicle + 0.6 x sternum (cm)
 * Holds: adults; 55 patients, R2 0.3. Source: Korean J Anesthesiol 2018, doi 10.4097/kja.d.18.27185 (abstract).
 * Example: clavicle 15, sternum 20: 44.5 cm.
 */
export const adultCreaseToCarina = (clavicleCm: Centimetre, sternumCm: Centimetre): Centimetre =>
  centimetre(25 + 0.5 * clavicleCm + 0.6 * sternumCm);

/**
 * Children's formula by height, anterior axillary point to carina.
 *   right 0.105 x height + 1.53, left 0.125 x height + 1.21 (cm)
 * Holds: children; 54 lines on the right (R2 0.71), 49 on the left (R2 0.65). Source: Ota H and others 2022.
 * Example: 100 cm tall: 12.03 on the right, 13.71 on the left.
 */
export const childAxillaryToCarina = (side: Side, heightCm: Centimetre): Centimetre =>
  centimetre(side === "right" ? 0.105 * heightCm + 1.53 : 0.125 * heightCm + 1.21);

/**
 * The length from the vein entry to the tip by every way the entry allows, and whether the ways agree.
 * A second tape is a second person's, so a slip of one shows. Ways that differ by more than the limit give no length.
 */
export function expectedLength(
  input: LengthInput,
  place: { readonly side: Side; readonly veinEntryCm: Centimetre },
  person: LengthPerson,
  agreeWithinCm: Centimetre,
): ExpectedLength {
  const ways = waysTo(input, place, person);
  if (ways.length === 0)
    return {
      ways,
      fromVeinEntryCm: undefined,
      spreadCm: undefined,
      findings: [lengthFinding("length-missing", "ask", {})],
    };
  const lengths = ways.map((way) => way.fromVeinEntryCm);
  const shortest = Math.min(...lengths);
  const spreadCm = centimetre(Math.max(...lengths) - shortest);
  const tapes = ways
    .filter(({ way }) => way === "surface tape" || way === "second tape")
    .map((way) => way.fromVeinEntryCm);
  const tapeSpread = tapes.length === 2 ? Math.abs((tapes[0] as number) - (tapes[1] as number)) : 0;
  if (spreadCm > agreeWithinCm || tapeSpread > agreeWithinCm) {
    const values = { differenceCm: spreadCm, limitCm: agreeWithinCm };
    return {
      ways,
      fromVeinEntryCm: undefined,
      spreadCm,
      findings: [lengthFinding("lengths-disagree", "stop", values)],
    };
  }
  const mean = centimetre(lengths.reduce((sum, length) => sum + length, 0) / lengths.length);
  const findings =
    ways.length === 1 ? [lengthFinding("length-by-one-way", "ask", { way: (ways[0] as LengthWay).way })] : [];
  return { ways, fromVeinEntryCm: mean, spreadCm, findings };
}

function waysTo(
  input: LengthInput,
  place: { readonly side: Side; readonly veinEntryCm: Centimetre },
  person: LengthPerson,
): LengthWay[] {
  const { side, veinEntryCm } = place;
  const own = input.sides[side];
  const ways: LengthWay[] = [];
  const add = (way: LengthWay["way"], length: number, target: LengthWay["target"]) => {
    if (length > 0) ways.push({ way, fromVeinEntryCm: centimetre(length), target });
  };
  if (!isMissing(own.surfaceTapeCm)) add("surface tape", own.surfaceTapeCm, "third right intercostal space");
  if (!isMissing(own.secondTapeCm)) add("second tape", own.secondTapeCm, "third right intercostal space");
  if (!isMissing(own.lastGoodLengthCm) && !isMissing(own.lastGoodEntryCm)) {
    // an entry nearer the shoulder leaves less to travel
    add("last good line", own.lastGoodLengthCm - (veinEntryCm - own.lastGoodEntryCm), "as last time");
  }
  if (
    !person.child &&
    !isMissing(input.clavicleCm) &&
    !isMissing(input.sternumCm) &&
    !isMissing(input.creaseBelowEpicondyleCm)
  ) {
    const fromCrease = adultCreaseToCarina(input.clavicleCm, input.sternumCm) + CARINA_TO_JUNCTION_CM;
    add("adult tape formula", fromCrease - (veinEntryCm + input.creaseBelowEpicondyleCm), "4 cm below the carina");
  }
  if (person.child && person.heightCm !== undefined && !isMissing(input.entryToAxillaryPointCm)) {
    add(
      "children's height formula",
      input.entryToAxillaryPointCm + childAxillaryToCarina(side, person.heightCm),
      "carina",
    );
  }
  return ways;
}

function lengthFinding(code: string, level: "ask" | "stop", values: Finding["values"]): Finding {
  return {
    code,
    verdict: level === "stop" ? "not met" : "not known",
    level,
    values,
    policy: ["length.agree-adult", "length.agree-child"],
    path: "length",
  };
}

export interface Trim {
  /** Catheter inside the body: vein, needle track and tunnel. */
  readonly insideCm: Centimetre;
  readonly outsideCm: Centimetre;
  readonly totalCm: Centimetre;
}

/** What to cut: in the vein, along the needle track, through the tunnel, and what stays outside. */
export function trimOf(parts: {
  readonly fromVeinEntryCm: Centimetre;
  readonly trackMm: Millimetre;
  readonly tunnelMm: Millimetre;
  readonly outsideCm: Centimetre;
}): Trim {
  const inside = parts.fromVeinEntryCm + (parts.trackMm + parts.tunnelMm) / 10;
  return { insideCm: centimetre(inside), outsideCm: parts.outsideCm, totalCm: centimetre(inside + parts.outsideCm) };
}
