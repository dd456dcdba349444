import { centimetre, millimetre, millimetreToCentimetre, type Centimetre, type Millimetre } from "../quantity/index.ts";
import type { Thirds } from "./thirds.ts";

export interface Tunnel {
  /** Where the catheter leaves the skin. */
  readonly exitCm: Centimetre;
  /** Where the needle enters the skin. */
  readonly needleSkinCm: Centimetre;
  readonly lengthMm: Millimetre;
}

/**
 * The shortest tunnel that brings the exit down from the upper third into the middle third.
 * The exit stands at least the tape error below the upper border and at least the least tunnel below the needle's skin
 * entry. Undefined when no such exit lies in the middle third, clear of its lower border by the tape error.
 * Source: technique, Ostroff and others 2021, J Vasc Access (from memory); distances are local policy.
 */
export function tunnelFrom(
  thirds: Thirds,
  needleSkinCm: Centimetre,
  limits: { readonly tapeErrorMm: Millimetre; readonly leastTunnelMm: Millimetre },
): Tunnel | undefined {
  const error = millimetreToCentimetre(limits.tapeErrorMm);
  const exit = Math.min(thirds.upperFromCm - error, needleSkinCm - limits.leastTunnelMm / 10);
  if (exit < thirds.middleFromCm + error) return undefined;
  return { exitCm: centimetre(exit), needleSkinCm, lengthMm: millimetre((needleSkinCm - exit) * 10) };
}
