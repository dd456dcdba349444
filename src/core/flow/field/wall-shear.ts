import { CENTRED_BELOW, eccentricAnnulus, minusLog } from "../vein/eccentric-annulus.ts";
import type { VeinField } from "./vein-field.ts";

export type Wall = "vein" | "catheter";

type Complex = readonly [re: number, im: number];
const times = ([a, b]: Complex, [c, d]: Complex): Complex => [a * c - b * d, a * d + b * c];
const over = ([a, b]: Complex, [c, d]: Complex): Complex => {
  const size = c * c + d * d;
  return [(a * c + b * d) / size, (b * c - a * d) / size];
};
const plus = (...terms: readonly Complex[]): Complex =>
  terms.reduce((sum, term) => [sum[0] + term[0], sum[1] + term[1]]);
const scaled = (factor: number, [a, b]: Complex): Complex => [factor * a, factor * b];

/** Slope of u in x and y: the derivative of the same sum as in `veinField`, term by term. */
function slope(field: VeinField, x: number, y: number): Complex {
  const { images, strengths, tail, hold, poleDistance } = field;
  const z: Complex = [x, y];
  let harmonic: Complex = [0, 0];
  for (let m = 0; m < images.length; m += 1) {
    const p = images[m] as number;
    const far: Complex = [1 - p * x, -p * y];
    const near: Complex = [x - p, y];
    harmonic = plus(
      harmonic,
      scaled(-(strengths[m] as number), plus(over([1, 0], times(near, near)), over([1, 0], times(far, far)))),
    );
    if (m < images.length - 1) continue;
    harmonic = plus(harmonic, scaled(hold / 2, plus(over([p, 0], far), over([1, 0], near))));
    if (poleDistance === 0) continue;
    const g = plus([1, 0], scaled(-2 * poleDistance, z), times(z, z));
    const gSlope: Complex = scaled(2, plus(z, [-poleDistance, 0]));
    for (const [sign, base, baseSlope] of [
      [1, far, -p],
      [-1, near, 1],
    ] as const) {
      const square = times(base, base);
      const a = scaled(-1, over(g, square));
      const aSlope = scaled(-1, plus(over(gSlope, square), scaled(-2 * baseSlope, over(g, times(square, base)))));
      let derivative: Complex = [0, 0];
      for (let i = tail.length; i >= 1; i -= 1)
        derivative = plus(times(derivative, a), [i * (tail[i - 1] as number), 0]);
      harmonic = plus(harmonic, scaled(sign, times(derivative, aSlope)));
    }
  }
  return [harmonic[0] - x / 2, -harmonic[1] - y / 2];
}

/**
 * Wall shear at one place of the vein or of the catheter, as a multiple of the open vein's wall shear at equal gradient.
 *   |du/dn| / (1/2), the angle measured at the centre of that wall from the narrow side, in radians
 * At equal flow divide by `residualFlow`. Zero where catheter and vein touch.
 * Holds: every angle. Source: derivative of `veinField`. Example: k 0.45, offset 0.5: the vein wall has 0.27 to 0.68.
 */
export function wallShear(field: VeinField, wall: Wall, angle: number): number {
  const { apart, ratio, width } = field.annulus;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  if (width === 0 && 1 - cos < 1e-24) return 0;
  const [x, y] = wall === "vein" ? [cos, sin] : [apart + ratio * cos, ratio * sin];
  const [inX, inY] = slope(field, x, y);
  const outward = inX * cos + inY * sin;
  return 2 * (wall === "vein" ? -outward : outward);
}

/**
 * Mean wall shear of both walls, as multiples of the open vein's wall shear at equal gradient.
 *   q = sqrt(D) / (2 w)    vein 1 - q    catheter q / k - k
 *   centred q = (1 - k^2) / (2 ln(1/k)); touching q = k, so both are 1 - k
 * Vein plus k times catheter is 1 - k^2: the pressure on the open area. At equal flow divide by `residualFlow`.
 * Holds: 0 < k < 1, 0 <= offset <= 1, else RangeError. Source: force balance, derived here.
 * Example: k 0.45, offset 0.5: 0.5128 and 0.6327.
 */
export function meanWallShear(ratio: number, offset: number): Readonly<Record<Wall, number>> {
  const { discriminant, width } = eccentricAnnulus(ratio, offset);
  const hold =
    offset < CENTRED_BELOW
      ? (1 - ratio * ratio) / (2 * minusLog(ratio))
      : width === 0
        ? ratio
        : Math.sqrt(discriminant) / (2 * width);
  return { vein: 1 - hold, catheter: hold / ratio - ratio };
}
