/** What the gap between two circles is, in the bipolar coordinates of both: outer radius 1, inner radius k. */
export interface EccentricAnnulus {
  /** Catheter-to-vein ratio, k. */
  readonly ratio: number;
  /** Distance of the centres over its largest value: 0 centred, 1 touching. */
  readonly offset: number;
  /** Distance of the centres, e = offset (1 - k). */
  readonly apart: number;
  /** D = ((1-e)^2 - k^2)((1+e)^2 - k^2) = 4 e^2 M^2; zero when touching. */
  readonly discriminant: number;
  /** w = beta - alpha: thickness of the gap in bipolar coordinates; zero when touching. */
  readonly width: number;
  /** M = sqrt(D) / (2 e), half the distance between the poles; infinite when centred. */
  readonly pole: number;
  /** Vein wall, alpha = asinh M. */
  readonly outer: number;
  /** Catheter wall, beta = asinh(M / k). */
  readonly inner: number;
}

/** Offsets below this are taken as centred: flow and field differ by the square of it. */
export const CENTRED_BELOW = 1e-9;

/**
 * The bipolar constants of a catheter in a vein.
 *   w = 2 asinh sqrt(((1-k)^2 - e^2) / (4 k))    M = sqrt(D) / (2 e)    alpha = asinh M    beta = asinh(M / k)
 * Every small difference is formed as a product, so nothing cancels near the wall or near the centre.
 * Holds: 0 < k < 1, 0 <= offset <= 1. Throws RangeError outside.
 * Source: Piercy NAV, Hooper MS, Winny HF 1933, Phil Mag 15:647 (from memory), rearranged here.
 */
export function eccentricAnnulus(ratio: number, offset: number): EccentricAnnulus {
  requireRatio(ratio);
  requireOffset(offset);
  const gap = 1 - ratio;
  const apart = offset * gap;
  const narrowest = gap * (1 - offset);
  const discriminant = narrowest * (1 - apart + ratio) * (gap + apart) * (1 + apart + ratio);
  const width = 2 * Math.asinh(Math.sqrt((narrowest * gap * (1 + offset)) / (4 * ratio)));
  const pole = apart > 0 ? Math.sqrt(discriminant) / (2 * apart) : Number.POSITIVE_INFINITY;
  return {
    ratio,
    offset,
    apart,
    discriminant,
    width,
    pole,
    outer: Math.asinh(pole),
    inner: Math.asinh(pole / ratio),
  };
}

/** ln(1/k), exact to the last digit at both ends. */
export const minusLog = (ratio: number): number => (ratio < 0.5 ? -Math.log(ratio) : -Math.log1p(ratio - 1));

/** Throws when no blood could pass: the catheter must be thinner than the vein. */
export function requireRatio(ratio: number): void {
  if (!(ratio > 0 && ratio < 1))
    throw new RangeError(
      `The catheter-to-vein ratio is ${ratio}; it must lie above 0 and below 1. Choose a thinner catheter or a wider vein.`,
    );
}

export function requireOffset(offset: number): void {
  if (!(offset >= 0 && offset <= 1))
    throw new RangeError(`The offset is ${offset}; it runs from 0 (centred) to 1 (touching the wall). Enter a share.`);
}
