import { requireOffset } from "./eccentric-annulus.ts";
import { residualFlow } from "./residual-flow.ts";

/**
 * The catheter-to-vein ratio that leaves a wanted share of the flow: the inverse of `residualFlow`.
 *   phi(k, offset) = wanted, by halving ln(1/k), where phi only rises
 * Holds: 0 < wanted < 1, 0 <= offset <= 1, else RangeError. Absolute error of the ratio below 1e-12.
 * Centred, the ratio for a wanted flow near 1 is a hair (k = 0.000045 for 0.9): the model pins the fastest layer there.
 * Source: definition. Example: half the flow, touching: k = 0.37351.
 */
export function ratioForFlow(wanted: number, offset: number): number {
  if (!(wanted > 0 && wanted < 1))
    throw new RangeError(`The wanted flow is ${wanted}; it is a share of the open vein, above 0 and below 1.`);
  requireOffset(offset);
  let thick = 0;
  let thin = LONGEST_LOG;
  for (let step = 0; step < 64 && thin - thick > 1e-15 * thin; step += 1) {
    const middle = (thick + thin) / 2;
    if (residualFlow(Math.exp(-middle), offset) < wanted) thick = middle;
    else thin = middle;
  }
  return Math.exp(-(thick + thin) / 2);
}

/** ln(1/k) of the thinnest catheter looked for; a flow that needs a thinner one is answered with this one. */
const LONGEST_LOG = 700;
