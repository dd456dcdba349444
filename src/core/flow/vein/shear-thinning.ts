import { perSecond, type Millimetre, type MillilitrePerMinute, type PerSecond } from "../../quantity/index.ts";
import { shearRateAt, type ShearThinningLaw } from "../fluid/blood.ts";
import { gaussLegendre, integrate } from "../numeric/gauss-legendre.ts";
import { rootBetween } from "../numeric/root.ts";
import { requireRatio } from "./eccentric-annulus.ts";
import { residualFlow } from "./residual-flow.ts";

export interface ShearThinningFlow {
  /** Share of the open vein's flow at the same pressure gradient, for blood that thins with shear. */
  readonly shearThinning: number;
  /** The same for a Newtonian fluid: `residualFlow` centred. */
  readonly newtonian: number;
  /** Wall shear rate of the open vein as a Newtonian fluid would have it, 4 Q / (pi R^3). */
  readonly openWallRate: PerSecond;
}

const RULE = gaussLegendre(80);

/**
 * Residual flow past a centred catheter when the blood thins with shear.
 *   open vein   Q = pi INT r^2 rate(G r / 2) dr, solved for the gradient G that carries the entered flow
 *   annulus     stress = G/2 |r - c^2/r|, c from no slip on both walls, Q = pi INT r^2 (-du/dr) dr at the same G
 * Holds: 0 < k < 1, flow > 0, diameter > 0, else RangeError; steady, round, rigid, centred. Relative error below 1e-6
 * of the law; the law itself is the doubt.
 * Source: Fredrickson AG, Bird RB 1958, Ind Eng Chem 50:347 for the annulus (from memory); solved here by quadrature.
 * Example: k 0.45, 4 mm, 60 mL/min, Carreau-Yasuda: 0.1395 where a Newtonian fluid has 0.1625.
 */
export function shearThinningFlow(
  vein: {
    readonly ratio: number;
    readonly diameterMm: Millimetre;
    readonly openFlow: MillilitrePerMinute;
  },
  law: ShearThinningLaw,
): ShearThinningFlow {
  requireRatio(vein.ratio);
  if (!(vein.diameterMm > 0)) throw new RangeError(`The vein is ${vein.diameterMm} mm wide; it must be above zero.`);
  if (!(vein.openFlow > 0))
    throw new RangeError(`The open flow is ${vein.openFlow} mL/min; the correction needs a flow above zero.`);
  const radius = vein.diameterMm / 2;
  const flow = (vein.openFlow * 1000) / 60; // mm3/s
  const openWallRate = (4 * flow) / (Math.PI * radius ** 3);
  // the gradient lies between those of the thinnest and the thickest Newtonian fluid; in logarithms it is nearly straight
  const gradientOf = (viscosity: number) => (2 * viscosity * openWallRate) / radius;
  const log = rootBetween(
    (at) => Math.log(openFlow(radius, Math.exp(at), law) / flow),
    Math.log(gradientOf(law.atHighShear) / 2),
    Math.log(gradientOf(law.atRest) * 2),
    1e-13,
  );
  const gradient = Math.exp(log);
  return {
    shearThinning: annulusFlow(radius, vein.ratio, gradient, law) / openFlow(radius, gradient, law),
    newtonian: residualFlow(vein.ratio, 0),
    openWallRate: perSecond(openWallRate),
  };
}

/** In mm3/s; gradient in mPa/mm. */
const openFlow = (radius: number, gradient: number, law: ShearThinningLaw) =>
  Math.PI * integrate(RULE, 0, radius, (r) => r * r * shearRateAt((gradient * r) / 2, law));

function annulusFlow(radius: number, ratio: number, gradient: number, law: ShearThinningLaw): number {
  const catheter = ratio * radius;
  const rate = (r: number, still: number) => shearRateAt((gradient / 2) * Math.abs(r - (still * still) / r), law);
  const slip = (still: number) =>
    integrate(RULE, catheter, still, (r) => rate(r, still)) - integrate(RULE, still, radius, (r) => rate(r, still));
  const still = rootBetween(slip, catheter, radius, 1e-13 * radius);
  return (
    Math.PI *
    (integrate(RULE, still, radius, (r) => r * r * rate(r, still)) -
      integrate(RULE, catheter, still, (r) => r * r * rate(r, still)))
  );
}
