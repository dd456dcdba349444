/** What the same catheter does under the three assumptions about the rest of the circulation. */
export interface FlowByAssumption {
  /** Plenty of other veins can take the flow: share of the open vein's flow. */
  readonly equalGradient: number;
  /** The stretch is a share of the resistance of the whole path: share of the open vein's flow. */
  readonly seriesResistance: number;
  /** No other way out: the flow stays, and gradient and wall shear rise by this factor. */
  readonly gradientAtEqualFlow: number;
}

/**
 * The three assumptions side by side.
 *   equal gradient   Q/Q0 = phi
 *   series           Q/Q0 = 1 / (1 - s + s / phi)
 *   equal flow       Q/Q0 = 1, gradient up by 1 / phi
 *   s share of the stretch in the resistance from the capillaries to the heart
 * Holds: 0 < phi <= 1, 0 <= s <= 1, else RangeError. Source: resistances in series, our own arithmetic.
 * Example: phi 0.1625, s 0.2: 0.492.
 */
export function flowByAssumption(relativeFlow: number, shareOfResistance: number): FlowByAssumption {
  if (!(relativeFlow > 0 && relativeFlow <= 1))
    throw new RangeError(`The relative flow is ${relativeFlow}; it must lie above 0 and at most 1.`);
  if (!(shareOfResistance >= 0 && shareOfResistance <= 1))
    throw new RangeError(`The share of the resistance is ${shareOfResistance}; it runs from 0 to 1.`);
  return {
    equalGradient: relativeFlow,
    seriesResistance: 1 / (1 - shareOfResistance + shareOfResistance / relativeFlow),
    gradientAtEqualFlow: 1 / relativeFlow,
  };
}
