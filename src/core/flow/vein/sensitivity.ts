import { requireOffset, requireRatio } from "./eccentric-annulus.ts";
import { residualFlow } from "./residual-flow.ts";

/**
 * How many per cent the residual flow changes when the catheter-to-vein ratio changes by one per cent.
 *   d ln(phi) / d ln(k) at a fixed offset, by central differences extrapolated twice
 * The vein's diameter has the opposite sign: a vein that is read one per cent too wide makes the flow look too high.
 * Holds: 0 < k < 1, 0 <= offset <= 1, else RangeError. Relative error below 1e-8 for k from 0.02 to 0.97.
 * Source: definition. Example: k 0.45 centred: -2.17, so a vein read 10 % too wide makes the flow look 21 % too high.
 */
export function flowSensitivity(ratio: number, offset: number): number {
  requireRatio(ratio);
  requireOffset(offset);
  const step = 0.01 * (1 - ratio);
  const slope = (h: number) =>
    (Math.log(residualFlow(ratio * (1 + h), offset)) - Math.log(residualFlow(ratio * (1 - h), offset))) / (2 * h);
  const [coarse, middle, fine] = [slope(step), slope(step / 2), slope(step / 4)] as const;
  const [first, second] = [(4 * middle - coarse) / 3, (4 * fine - middle) / 3] as const;
  return (16 * second - first) / 15;
}
