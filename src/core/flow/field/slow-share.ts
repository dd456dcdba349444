import { gaussLegendre } from "../numeric/gauss-legendre.ts";
import { rootBetween } from "../numeric/root.ts";
import type { VeinField } from "./vein-field.ts";
import { velocityAt } from "./velocity.ts";

export interface SlowShare {
  /** Share of the blood's cross-section. */
  readonly ofBlood: number;
  /** Share of the whole vein's cross-section. */
  readonly ofVein: number;
}

const RULE = gaussLegendre(32);

/**
 * Share of the cross-section that moves slower than a given share of the open vein's mean velocity, at equal gradient.
 *   rays from the catheter's centre: on each the velocity rises to one peak and falls; the slow parts lie at both ends
 * Rays whose peak is slow lie together round the narrow side; the integral starts at the first fast one, with a square
 * in the angle because the fast part opens like a square root there.
 * Holds: 0 < below < 2, else RangeError; absolute error below 1e-6. Source: our own quadrature of `veinField`.
 * Example: k 0.45, below 0.1: 18.29 per cent of the blood centred, 24.28 half-way, 15.36 touching.
 */
export function slowShare(field: VeinField, below: number): SlowShare {
  requireBelow(below);
  const { apart, ratio } = field.annulus;
  const reach = (t: number) => -apart * Math.cos(t) + Math.sqrt(1 - (apart * Math.sin(t)) ** 2);
  const along = (t: number) => {
    const [cos, sin] = [Math.cos(t), Math.sin(t)];
    return (r: number) => velocityAt(field, apart + r * cos, r * sin) - below;
  };
  const peak = (t: number) => peakOf(along(t), ratio, reach(t));
  const excess = (t: number) => along(t)(peak(t));
  const blood = 1 - ratio * ratio;
  if (excess(Math.PI) <= 0) return { ofBlood: 1, ofVein: blood };
  const start = excess(0) >= 0 ? 0 : rootBetween(excess, 0, Math.PI, 1e-12);
  let fast = 0;
  const span = Math.PI - start;
  for (const [index, node] of RULE.nodes.entries()) {
    const s = (1 + node) / 2;
    const t = start + span * s * s;
    const [f, top, edge] = [along(t), peak(t), reach(t)];
    if (f(top) <= 0) continue;
    const inner = rootBetween(f, ratio, top, 1e-13);
    const outer = rootBetween(f, top, edge, 1e-13);
    // both halves of the vein: twice, and the area element r dr
    fast += (RULE.weights[index] as number) * s * span * (outer * outer - inner * inner);
  }
  const slow = Math.PI * blood - fast;
  return { ofBlood: slow / (Math.PI * blood), ofVein: slow / Math.PI };
}

/**
 * The same share in a vein without a catheter.
 *   velocity 2 (1 - r^2) of the mean: below / 2
 * Holds: 0 < below < 2, else RangeError. Source: Poiseuille's parabola. Example: below 0.1: 5 per cent.
 */
export function openVeinSlowShare(below: number): number {
  requireBelow(below);
  return below / 2;
}

function requireBelow(below: number): void {
  if (!(below > 0 && below < 2))
    throw new RangeError(`The slow limit is ${below} of the mean velocity; it must lie above 0 and below 2.`);
}

/** Where a function with one peak is largest, by golden section. */
function peakOf(f: (r: number) => number, from: number, to: number): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  let [a, b] = [from, to];
  let c = b - golden * (b - a);
  let d = a + golden * (b - a);
  let fc = f(c);
  let fd = f(d);
  // the velocity is flat at its peak, so that a peak known to 1e-7 has its height to 1e-14
  while (b - a > 1e-7) {
    if (fc > fd) {
      b = d;
      d = c;
      fd = fc;
      c = b - golden * (b - a);
      fc = f(c);
    } else {
      a = c;
      c = d;
      fc = fd;
      d = a + golden * (b - a);
      fd = f(d);
    }
  }
  return (a + b) / 2;
}
