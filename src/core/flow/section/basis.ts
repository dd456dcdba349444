import type { ImagePlace } from "./image-places.ts";
import type { CircularCatheter, VeinSection } from "./section.ts";

type Pair = readonly [re: number, im: number];

/**
 * Harmonic functions of a section: real and imaginary parts of functions that are analytic in the blood.
 *   Faber polynomials of the ellipse, G(n) = zeta^n + kappa^n zeta^-n on z = (1 + b)/2 (zeta + kappa/zeta)
 *   powers (r/(z - c))^n and ln|z - c| about each catheter, 1/(z - p) at the images p, and ln|z - p| at the first
 *   image beyond the wall, which mirrors the whole catheter
 * Every one has its integral over the blood in closed form, so the flow of a sum has no quadrature error.
 */
export interface Basis {
  /** Columns of real unknowns. */
  readonly size: number;
  readonly fill: (x: number, y: number, row: Float64Array) => void;
  readonly integrals: Float64Array;
}

export function basisOf(section: VeinSection, images: readonly ImagePlace[], order: number, mirrored: boolean): Basis {
  const { axisRatio: b, catheters } = section;
  const rho = (1 + b) / 2;
  const kappa = (1 - b) / (1 + b);
  const mirrorLogs = images.filter(({ inside, order: m }) => inside === undefined && m === 1);
  const analytic = order + catheters.length * order + images.length;
  const first = 1 + catheters.length + mirrorLogs.length;
  const size = first + (mirrored ? 1 : 2) * analytic;
  const re = new Float64Array(analytic);
  const im = new Float64Array(analytic);

  const analyticAt = (x: number, y: number) => {
    let at = 0;
    // G(n) = (z/rho) G(n-1) - kappa G(n-2), with G(0) counted twice
    let [lastRe, lastIm, hereRe, hereIm] = [2, 0, x / rho, y / rho];
    for (let n = 1; n <= order; n += 1) {
      re[at] = hereRe;
      im[at] = hereIm;
      at += 1;
      const nextRe = (x * hereRe - y * hereIm) / rho - kappa * lastRe;
      const nextIm = (x * hereIm + y * hereRe) / rho - kappa * lastIm;
      [lastRe, lastIm, hereRe, hereIm] = [hereRe, hereIm, nextRe, nextIm];
    }
    for (const { x: cx, y: cy, radius } of catheters) {
      const [dx, dy] = [x - cx, y - cy];
      const square = dx * dx + dy * dy;
      const [stepRe, stepIm] = [(radius * dx) / square, (-radius * dy) / square];
      let [powerRe, powerIm] = [stepRe, stepIm];
      for (let n = 1; n <= order; n += 1) {
        re[at] = powerRe;
        im[at] = powerIm;
        at += 1;
        [powerRe, powerIm] = [powerRe * stepRe - powerIm * stepIm, powerRe * stepIm + powerIm * stepRe];
      }
    }
    for (const { x: px, y: py } of images) {
      const [dx, dy] = [x - px, y - py];
      const square = dx * dx + dy * dy;
      re[at] = dx / square;
      im[at] = -dy / square;
      at += 1;
    }
  };

  const fill = (x: number, y: number, row: Float64Array) => {
    row[0] = 1;
    for (const [index, { x: cx, y: cy, radius }] of catheters.entries())
      row[1 + index] = Math.log(Math.hypot(x - cx, y - cy) / radius);
    for (const [index, { x: px, y: py }] of mirrorLogs.entries())
      row[1 + catheters.length + index] = Math.log(Math.hypot(x - px, y - py));
    analyticAt(x, y);
    row.set(re, first);
    if (!mirrored) row.set(im, first + analytic);
  };

  const integrals = new Float64Array(size);
  integrals[0] = Math.PI * b;
  // over each catheter's disk a function without a pole there has the value at the centre times the area
  for (const disk of catheters) {
    const area = Math.PI * disk.radius ** 2;
    const row = new Float64Array(size);
    fill(disk.x, disk.y, row);
    for (let column = 0; column < size; column += 1)
      integrals[column] =
        (integrals[column] as number) - (Number.isFinite(row[column]) ? area * (row[column] as number) : 0);
  }
  for (const [index, disk] of catheters.entries())
    integrals[1 + index] = (integrals[1 + index] as number) + logIntegral(b, disk);
  for (const [index, { x, y }] of mirrorLogs.entries()) {
    const [re, im] = outerZeta(x / (2 * rho), y / (2 * rho), kappa);
    const square = re * re + im * im;
    const far = Math.log(rho * Math.sqrt(square)) + (kappa * (re * re - im * im)) / (2 * square * square);
    const column = 1 + catheters.length + index;
    integrals[column] = (integrals[column] as number) + Math.PI * b * far;
  }
  const wholeVein = wholeVeinIntegrals(section, images, order);
  for (const [index, [real, imaginary]] of wholeVein.entries()) {
    const column = first + index;
    integrals[column] = (integrals[column] as number) + real;
    if (!mirrored) integrals[column + analytic] = (integrals[column + analytic] as number) + imaginary;
  }
  // what the disks above took from a pole that lies inside them off their centre
  for (const [index, place] of images.entries()) {
    if (place.inside === undefined) continue;
    const disk = catheters[place.inside] as CircularCatheter;
    const [dx, dy] = [disk.x - place.x, disk.y - place.y];
    const area = (Math.PI * disk.radius ** 2) / (dx * dx + dy * dy);
    const column = first + order * (1 + catheters.length) + index;
    integrals[column] = (integrals[column] as number) + area * dx;
    if (!mirrored) integrals[column + analytic] = (integrals[column + analytic] as number) - area * dy;
  }
  return { size, fill, integrals };
}

/** INT ln(|z - c|/r) over the ellipse without the disk itself. */
function logIntegral(b: number, { x, y, radius }: CircularCatheter): number {
  const kappa = (1 - b) / (1 + b);
  const overEllipse =
    Math.PI * b * (Math.log((1 + b) / 2) - 0.5) +
    (Math.PI / 2) * (x * x + y * y - kappa * (x * x - y * y)) -
    Math.PI * b * Math.log(radius);
  return overEllipse + (Math.PI * radius ** 2) / 2;
}

/**
 * Integrals over the ellipse, without the disk that holds the pole, of the analytic functions in their order.
 *   (1/2i) CONTOUR conj(z) g dz: polynomials only for n = 2; 1/(z - p) gives pi (kappa p - conj c) for a pole in the
 *   disk about c, its first derivative pi kappa, higher ones nothing; a pole beyond the wall -2 pi b / ((1 + b) zeta(p))
 */
function wholeVeinIntegrals(
  { axisRatio: b, catheters }: VeinSection,
  images: readonly ImagePlace[],
  order: number,
): readonly Pair[] {
  const rho = (1 + b) / 2;
  const kappa = (1 - b) / (1 + b);
  const polynomials = Array.from({ length: order }, (_, index): Pair => [
    index === 1 ? Math.PI * rho * rho * (kappa ** 3 - kappa) : 0,
    0,
  ]);
  const poleIn = (x: number, y: number, disk: CircularCatheter): Pair => [
    Math.PI * (kappa * x - disk.x),
    Math.PI * (kappa * y + disk.y),
  ];
  const powers = catheters.flatMap((disk) =>
    Array.from({ length: order }, (_, index): Pair => {
      if (index === 0) {
        const [real, imaginary] = poleIn(disk.x, disk.y, disk);
        return [disk.radius * real, disk.radius * imaginary];
      }
      return [index === 1 ? disk.radius ** 2 * Math.PI * kappa : 0, 0];
    }),
  );
  const poles = images.map(({ x, y, inside }): Pair => {
    if (inside !== undefined) return poleIn(x, y, catheters[inside] as CircularCatheter);
    const [zetaRe, zetaIm] = outerZeta(x / (2 * rho), y / (2 * rho), kappa);
    const factor = (-2 * Math.PI * b) / (1 + b) / (zetaRe ** 2 + zetaIm ** 2);
    return [factor * zetaRe, -factor * zetaIm];
  });
  return [...polynomials, ...powers, ...poles];
}

/** The root of zeta + kappa/zeta = 2 h that lies outside the unit circle: h + sqrt(h^2 - kappa). */
function outerZeta(hRe: number, hIm: number, kappa: number): Pair {
  const [sRe, sIm] = [hRe * hRe - hIm * hIm - kappa, 2 * hRe * hIm];
  const size = Math.hypot(sRe, sIm);
  const rootRe = Math.sqrt((size + Math.abs(sRe)) / 2);
  const rootIm = rootRe > 0 ? Math.abs(sIm) / (2 * rootRe) : 0;
  const [re, im] = sRe >= 0 ? [rootRe, rootIm] : [rootIm, rootRe];
  const signed: Pair = [re, sIm < 0 ? -im : im];
  // of the two signs the one that adds to h
  const add = hRe * signed[0] + hIm * signed[1] >= 0 ? 1 : -1;
  return [hRe + add * signed[0], hIm + add * signed[1]];
}
