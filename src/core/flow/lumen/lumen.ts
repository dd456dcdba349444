import {
  millimetre,
  quarticMillimetre,
  squareMillimetre,
  type Millimetre,
  type QuarticMillimetre,
  type Radian,
  type SquareMillimetre,
} from "../../quantity/index.ts";

export type LumenShape = "round" | "half-moon" | "sector" | "elliptical";

/** One lumen's cross-section, as far as laminar flow needs it. */
export interface Lumen {
  readonly kind: "lumen";
  readonly shape: LumenShape;
  /** Corners are computed sharp; a real lumen is rounded there, which costs area but little flow. */
  readonly corners: "none" | "sharp";
  readonly area: SquareMillimetre;
  /** G a^4 in Q = conductance x pressure gradient / viscosity; pi r^4 / 8 when round. */
  readonly conductance: QuarticMillimetre;
  /** 4 area / wetted perimeter. */
  readonly hydraulicDiameterMm: Millimetre;
}

export interface LumenRefused {
  readonly kind: "refused";
  readonly reason:
    | "a measure is not above zero"
    | "walls thicker than the bore"
    | "an angle is outside zero to a full turn"
    | "the number of lumens is not one to six";
}
export type LumenAnswer = Lumen | LumenRefused;

export const lumenRefused = (reason: LumenRefused["reason"]): LumenRefused => ({ kind: "refused", reason });

export const lumenOf = (
  shape: LumenShape,
  corners: Lumen["corners"],
  measures: { readonly area: number; readonly conductance: number; readonly perimeter: number },
): Lumen => ({
  kind: "lumen",
  shape,
  corners,
  area: squareMillimetre(measures.area),
  conductance: quarticMillimetre(measures.conductance),
  hydraulicDiameterMm: millimetre((4 * measures.area) / measures.perimeter),
});

/**
 * A round lumen.
 *   conductance = pi d^4 / 128
 * Holds: bore above zero, else refused. Source: Hagen 1839 and Poiseuille 1840, any text on viscous flow.
 * Example: 0.8333 mm: 1.183627e-2 mm4.
 */
export function roundLumen(boreMm: Millimetre): LumenAnswer {
  if (!(boreMm > 0)) return lumenRefused("a measure is not above zero");
  return lumenOf("round", "none", {
    area: (Math.PI * boreMm ** 2) / 4,
    conductance: (Math.PI * boreMm ** 4) / 128,
    perimeter: Math.PI * boreMm,
  });
}

/**
 * An elliptical lumen, or a round one that is pressed flat.
 *   conductance = (pi/4) a^3 b^3 / (a^2 + b^2), a and b half axes
 * Holds: both axes above zero, else refused; the perimeter by the arithmetic-geometric mean.
 * Source: Boussinesq 1868, closed form (from memory). Example: half axes 1 and 0.5 mm: pi/40 mm4.
 */
export function ellipticalLumen(longMm: Millimetre, shortMm: Millimetre): LumenAnswer {
  if (!(longMm > 0 && shortMm > 0)) return lumenRefused("a measure is not above zero");
  const [a, b] = [longMm / 2, shortMm / 2];
  return lumenOf("elliptical", "none", {
    area: Math.PI * a * b,
    conductance: ((Math.PI / 4) * (a * b) ** 3) / (a * a + b * b),
    perimeter: ellipsePerimeter(a, b),
  });
}

/** 2 pi (a^2 - SUM 2^(n-1) c(n)^2) / AGM; Abramowitz M, Stegun IA 1964, 17.6. */
function ellipsePerimeter(long: number, short: number): number {
  let [a, b] = [Math.max(long, short), Math.min(long, short)];
  let sum = a * a - (a * a - b * b) / 2;
  for (let power = 1; Math.abs(a - b) > 1e-16 * a && power < 1e9; power *= 2) {
    const c = (a - b) / 2;
    sum -= power * c * c;
    [a, b] = [(a + b) / 2, Math.sqrt(a * b)];
  }
  return (2 * Math.PI * sum) / a;
}

/**
 * An ideal sector of a round bore: no walls, sharp corners. The half-moon is the sector of half a turn.
 *   conductance = r^4 (2 g / pi^2) SUM(n odd) 1 / [n^2 (n pi / g + 2)^2],   g full angle
 * Holds: 0 < g <= 2 pi and radius above zero, else refused; relative error below 1e-12.
 * Source: the classical series, in positive terms; Shah RK, London AL 1978 print f.Re 15.767 for the half-moon.
 * Example: half a turn, radius 1: pi/8 - 1/pi.
 */
export function sectorLumen(radiusMm: Millimetre, angle: Radian): LumenAnswer {
  if (!(radiusMm > 0)) return lumenRefused("a measure is not above zero");
  if (!(angle > 0 && angle <= 2 * Math.PI + 1e-12)) return lumenRefused("an angle is outside zero to a full turn");
  let sum = 0;
  for (let n = LAST_TERM; n >= 1; n -= 2) sum += 1 / (n * ((n * Math.PI) / angle + 2)) ** 2;
  // the rest by the middle rule: half the integral from the next even number, in falling powers
  const [x, c] = [LAST_TERM + 1, (2 * angle) / Math.PI];
  const rest = (1 / (3 * x ** 3) - (2 * c) / (4 * x ** 4) + (3 * c * c) / (5 * x ** 5)) / 2;
  sum += (angle / Math.PI) ** 2 * rest;
  return lumenOf(Math.abs(angle - Math.PI) < 1e-12 ? "half-moon" : "sector", "sharp", {
    area: (angle / 2) * radiusMm ** 2,
    conductance: ((2 * angle) / Math.PI ** 2) * sum * radiusMm ** 4,
    perimeter: (2 + angle) * radiusMm,
  });
}

const LAST_TERM = 1999;
