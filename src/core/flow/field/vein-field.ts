import { CENTRED_BELOW, eccentricAnnulus, minusLog, type EccentricAnnulus } from "../vein/eccentric-annulus.ts";

/**
 * The velocity field of one catheter in a round vein, ready to be asked point by point.
 * Lengths in vein radii, origin at the vein's centre, catheter centre at (apart, 0): the narrow side is at (1, 0).
 */
export interface VeinField {
  readonly annulus: EccentricAnnulus;
  /** q = sqrt(D) / (2 w): the share of the pressure force that the catheter takes is q - k^2; q is k when touching. */
  readonly hold: number;
  /** Image points p(1) ... p(N) inside the catheter and their strengths; the last ones carry the tail. */
  readonly images: Float64Array;
  readonly strengths: Float64Array;
  /** Distance of the vein's centre from the middle of the bipolar poles, cosh(alpha). */
  readonly poleDistance: number;
  /** The tail's corrections: a polynomial in g/(1 - p z)^2 and g/(z - p)^2, g = 1 - 2 cosh(alpha) z + z^2. */
  readonly tail: Float64Array;
}

/** How many images stand before the tail; the tail's five terms then leave less than 1e-12. */
const IMAGES = 8;

/** B(2j) / (2j)! for j = 1 ... 5. */
const CORRECTION = [1 / 12, -1 / 720, 1 / 30240, -1 / 1209600, 1 / 47900160];

/**
 * Prepares the field.
 *   u = (1 - r^2)/4 - (q/4) ln(|1 - p z|^2 / |z - p|^2) + (e/2) SUM d(m),   p = p(N)
 *   d(m) = s(m) Re[ 1/(z - p(m)) - z/(1 - p(m) z) ],   p(m) = sinh(m w)/sinh(alpha + m w),   s(m) = (M/sinh(alpha + m w))^2
 * These are the images of the catheter in the vein wall and back: the bipolar series of Piercy, Hooper and Winny with
 * 1/sinh(n w) expanded and the sum over n done. The images from N on are summed by Euler and Maclaurin, whose integral
 * is the logarithm above, so that the form is exact from centred to touching and costs the same everywhere.
 * Holds: 0 < k < 1, 0 <= offset <= 1, else RangeError; absolute error below 1e-11 of the open vein's mean velocity.
 * Source: Piercy NAV, Hooper MS, Winny HF 1933, Phil Mag 15:647 (from memory); image form derived here.
 * Example: velocityAt(veinField(0.45, 0), 0.7, 0) = 0.3076 of the open vein's mean velocity.
 */
export function veinField(ratio: number, offset: number): VeinField {
  const annulus = eccentricAnnulus(ratio, offset);
  const { apart, width, pole, outer, discriminant } = annulus;
  const images = new Float64Array(IMAGES);
  const strengths = new Float64Array(IMAGES);
  const tail = new Float64Array(CORRECTION.length);
  if (offset < CENTRED_BELOW) {
    return { annulus, hold: (1 - ratio * ratio) / (2 * minusLog(ratio)), images, strengths, poleDistance: 0, tail };
  }
  const touching = width === 0;
  // w/M, and both hyperbolic quotients below, keep their value when M and w go to zero together
  const pace = touching ? 1 / ratio - 1 : width / pole;
  for (let m = 1; m <= IMAGES; m += 1) {
    const reach = touching ? 1 + m * pace : Math.sinh(outer + m * width) / pole;
    images[m - 1] = touching ? (m * pace) / reach : Math.sinh(m * width) / (reach * pole);
    strengths[m - 1] = 1 / (reach * reach);
  }
  const weight = apart / 2;
  for (let m = 0; m < IMAGES - 1; m += 1) strengths[m] = weight * (strengths[m] as number);
  // the last image stands for the whole tail: half its own term, then the odd derivatives of coth as a polynomial
  const last = strengths[IMAGES - 1] as number;
  strengths[IMAGES - 1] = (weight * last) / 2;
  const polynomial = cothDerivatives();
  for (let j = 1; j <= CORRECTION.length; j += 1) {
    for (let i = 1; i <= j; i += 1) {
      const scale = pace ** (2 * i - 1) * width ** (2 * (j - i)) * last ** i;
      tail[i - 1] =
        (tail[i - 1] as number) -
        weight * (CORRECTION[j - 1] as number) * ((polynomial[j - 1] as number[])[i - 1] as number) * scale;
    }
  }
  return {
    annulus,
    hold: touching ? ratio : Math.sqrt(discriminant) / (2 * width),
    images,
    strengths,
    poleDistance: Math.cosh(outer),
    tail,
  };
}

/** Rows j: the derivative of order 2j - 1 of coth as a polynomial in v = 1 - coth^2, from v up. */
function cothDerivatives(): number[][] {
  const rows = [[1]];
  while (rows.length < CORRECTION.length) {
    const before = rows.at(-1) as number[];
    const next = Array.from({ length: before.length + 1 }, () => 0);
    for (const [index, coefficient] of before.entries()) {
      const n = index + 1;
      next[index] = (next[index] as number) + 4 * n * n * coefficient;
      next[n] = (next[n] as number) - (4 * n * n + 2 * n) * coefficient;
    }
    rows.push(next);
  }
  return rows;
}
