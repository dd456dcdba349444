import type { MillilitrePerHour, MillilitrePerMinute } from "../../quantity/index.ts";

export type AcidityAnswer =
  | {
      readonly kind: "shift";
      /** Change of the mixed blood's pH: below zero for an acid fluid. */
      readonly change: number;
    }
  /** Without blood there is nothing that buffers: the wall sees the fluid's own pH. */
  | { readonly kind: "undiluted" };

/**
 * Change of the blood's pH at the tip by buffering; pH does not average.
 *   change = -f TA / (Q beta)
 *   f rate, TA titratable acidity of the fluid to pH 7.4 (mEq/L; below zero for an alkaline fluid), Q blood flow,
 *   beta buffer value of the blood (mmol/L per pH unit), about 30 for whole blood (from memory)
 * A fluid of pH 4 with hardly any acid changes nothing, one of pH 5 with much acid does: its pH alone is a poor label.
 * Mean mixing only: the wall sees more. Holds: small changes; f >= 0, Q >= 0 and beta > 0, else RangeError; no flow is
 * answered as undiluted.
 * Source: definition of the buffer value (Van Slyke 1922); the acidity matters by Kuwahara T and others 1999, J Toxicol
 * Sci 24:113. Example: TA 22 at 100 mL/h into 20 mL/min, beta 30: -0.061.
 */
export function acidityShift(
  infusion: { readonly rate: MillilitrePerHour; readonly titratableAcidity: number },
  blood: { readonly flow: MillilitrePerMinute; readonly bufferValue: number },
): AcidityAnswer {
  if (!(infusion.rate >= 0 && Number.isFinite(infusion.titratableAcidity)))
    throw new RangeError(
      `Rate ${infusion.rate} mL/h must be zero or more and titratable acidity ${infusion.titratableAcidity} a number.`,
    );
  if (!(blood.flow >= 0)) throw new RangeError(`The blood flow is ${blood.flow} mL/min; it must be zero or more.`);
  if (!(blood.bufferValue > 0))
    throw new RangeError(`The buffer value is ${blood.bufferValue} mmol/L per pH; it must be above zero.`);
  if (blood.flow === 0) return { kind: "undiluted" };
  const change = -((infusion.rate / 60) * infusion.titratableAcidity) / (blood.flow * blood.bufferValue);
  return { kind: "shift", change: change + 0 };
}
