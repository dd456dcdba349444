import { millimetre, type Millimetre } from "../../quantity/index.ts";
import { gaussLegendre } from "../numeric/gauss-legendre.ts";
import { columnsOf, leastSquares } from "../numeric/least-squares.ts";
import { lumenOf, lumenRefused, roundLumen, type LumenAnswer } from "./lumen.ts";

export interface CatheterWalls {
  readonly outsideDiameterMm: Millimetre;
  readonly wallMm: Millimetre;
  /** Between neighbouring lumens; not used by a single lumen. */
  readonly septumMm: Millimetre;
  readonly lumens: number;
}

/** Wedge functions kept; they leave 5e-8 where the septum is thinnest. */
const FUNCTIONS = 48;
const RULE = gaussLegendre(24);

/**
 * One of n equal lumens: a round bore cut by flat septa that meet in the middle.
 *   bore r = OD/2 - wall, septum half thickness h; the lumen is a wedge of half angle f = pi/n with its apex
 *   h / sin f from the middle, closed by the arc of the bore
 *   u = u0 + SUM c(m) rho^s cos(s t), s = (2 m - 1) pi / (2 f): no slip on the flat walls exactly, on the arc by least
 *   squares; conductance = INT u over the lumen
 * Holds: one to six lumens, walls that leave a lumen, else refused; relative error of the conductance below 1e-7.
 * Real corners are rounded, and a maker may shape lumens otherwise: a label or a measured bore beats this.
 * Source: separation of variables in a wedge, our own fit; checked against finite elements.
 * Example: 5 Fr double, wall 0.25, septum 0.20: 0.41841 mm2 and 4.812e-3 mm4, a tenth of the single lumen.
 */
export function dividedBore(walls: CatheterWalls): LumenAnswer {
  const { outsideDiameterMm, wallMm, septumMm, lumens } = walls;
  if (!(outsideDiameterMm > 0 && wallMm >= 0 && septumMm >= 0)) return lumenRefused("a measure is not above zero");
  if (!(Number.isInteger(lumens) && lumens >= 1 && lumens <= 6))
    return lumenRefused("the number of lumens is not one to six");
  const bore = outsideDiameterMm / 2 - wallMm;
  if (!(bore > 0)) return lumenRefused("walls thicker than the bore");
  if (lumens === 1) return roundLumen(millimetre(2 * bore));
  const halfAngle = Math.PI / lumens;
  const apex = septumMm / 2 / Math.sin(halfAngle);
  if (!(bore > apex)) return lumenRefused("walls thicker than the bore");
  // from here on in units of the corner's distance from the apex, which is the longest
  const arcFromApex = (t: number) => -apex * Math.cos(t) + Math.sqrt(bore ** 2 - (apex * Math.sin(t)) ** 2);
  const corner = arcFromApex(halfAngle);
  const rim = (t: number) => arcFromApex(t) / corner;
  const arc = Math.asin(Math.min(1, (corner * Math.sin(halfAngle)) / bore));
  return lumenOf(lumens === 2 ? "half-moon" : "sector", "sharp", {
    area: corner ** 2 * wedgeIntegral(halfAngle, (t) => rim(t) ** 2 / 2),
    conductance: corner ** 4 * wedgeConductance(halfAngle, rim),
    perimeter: 2 * corner + 2 * arc * bore,
  });
}

/** INT over both halves of the wedge, in pieces that narrow toward the corner. */
function wedgeIntegral(halfAngle: number, f: (t: number) => number): number {
  let sum = 0;
  let far = 1;
  for (const near of [0.5, 0.2, 0.05, 0.01, 0]) {
    const half = ((far - near) * halfAngle) / 2;
    for (const [index, node] of RULE.nodes.entries())
      sum += 2 * half * (RULE.weights[index] as number) * f(halfAngle * (1 - far) + half * (1 + node));
    far = near;
  }
  return sum;
}

function wedgeConductance(halfAngle: number, rim: (t: number) => number): number {
  const powers = Array.from({ length: FUNCTIONS }, (_, m) => ((2 * m + 1) * Math.PI) / (2 * halfAngle));
  const particular = particularOf(halfAngle);
  const rows = 6 * FUNCTIONS;
  const table = columnsOf(rows, FUNCTIONS);
  const right = new Float64Array(rows);
  for (let row = 0; row < rows; row += 1) {
    // places crowd at the corner, where the velocity bends most
    const t = halfAngle * Math.sin(((row + 0.5) / rows) * (Math.PI / 2));
    const weight = Math.sqrt(Math.cos(((row + 0.5) / rows) * (Math.PI / 2)));
    const r = rim(t);
    right[row] = -weight * particular.at(r, t);
    for (const [m, s] of powers.entries()) table.values[m * rows + row] = weight * r ** s * Math.cos(s * t);
  }
  const coefficients = leastSquares(table, right);
  return wedgeIntegral(halfAngle, (t) => {
    const r = rim(t);
    let ray = particular.alongRay(r, t);
    for (const [m, s] of powers.entries())
      ray += ((coefficients[m] as number) * r ** (s + 2) * Math.cos(s * t)) / (s + 2);
    return ray;
  });
}

/**
 * A solution of Laplace(u) = -1 that is zero on both flat walls, and its integral u r dr from the apex.
 *   r^2/4 (cos 2t / cos 2f - 1); for four lumens, where cos 2f is zero, r^2/4 (4/pi (t sin 2t - ln r cos 2t) - 1)
 */
function particularOf(halfAngle: number): {
  readonly at: (r: number, t: number) => number;
  readonly alongRay: (r: number, t: number) => number;
} {
  const double = Math.cos(2 * halfAngle);
  if (Math.abs(double) > 1e-9)
    return {
      at: (r, t) => (r * r * (Math.cos(2 * t) / double - 1)) / 4,
      alongRay: (r, t) => (r ** 4 * (Math.cos(2 * t) / double - 1)) / 16,
    };
  const turn = (t: number) => (4 / Math.PI) * t * Math.sin(2 * t) - 1;
  return {
    at: (r, t) => (r * r * (turn(t) - (4 / Math.PI) * Math.log(r) * Math.cos(2 * t))) / 4,
    alongRay: (r, t) => (r ** 4 * (turn(t) - (4 / Math.PI) * (Math.log(r) - 1 / 4) * Math.cos(2 * t))) / 16,
  };
}
