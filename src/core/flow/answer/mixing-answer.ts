import {
  millilitrePerHour,
  millilitrePerMinute,
  milliosmolePerLitre,
  type MilliosmolePerLitre,
  type MillilitrePerMinute,
} from "../../quantity/index.ts";
import { acidityShift, type AcidityAnswer } from "../mixing/acidity.ts";
import { flowToStayUnder, mixedOsmolarity, type MixedOsmolarity } from "../mixing/osmolarity.ts";

/** One infusion into one flow of blood. */
export interface MixingQuestion {
  readonly osmolarity: number;
  readonly rateMlPerHour: number;
  readonly bloodFlowMlPerMinute: number;
  readonly haematocrit?: number | undefined;
  readonly limit?: number | undefined;
  readonly titratableAcidity?: number | undefined;
  readonly bufferValue?: number | undefined;
}

export interface MixingAnswer {
  readonly mixed: MixedOsmolarity;
  /** Blood flow that keeps the mean under the limit; undefined when none was asked, "none" when no flow is enough. */
  readonly neededFlow: MillilitrePerMinute | "none" | undefined;
  readonly acidity: AcidityAnswer | undefined;
}

/**
 * Mean mixing at the tip: osmolarity, the flow a limit needs, and the shift of pH by buffering. It permits nothing.
 * Holds: as `mixedOsmolarity`, `flowToStayUnder` and `acidityShift`. Source: those functions.
 * Example: 1700 mOsm/L at 100 mL/h into 95 mL/min: 314 in whole blood, 331 in plasma.
 */
export function mixingAnswer(
  question: MixingQuestion,
  assumed: { readonly haematocrit: number; readonly bloodOsmolarity: MilliosmolePerLitre },
): MixingAnswer {
  const { limit, titratableAcidity, bufferValue } = question;
  const infusion = {
    osmolarity: milliosmolePerLitre(question.osmolarity),
    rate: millilitrePerHour(question.rateMlPerHour),
  };
  const flow = millilitrePerMinute(question.bloodFlowMlPerMinute);
  return {
    mixed: mixedOsmolarity(infusion, {
      flow,
      haematocrit: question.haematocrit ?? assumed.haematocrit,
      osmolarity: assumed.bloodOsmolarity,
    }),
    neededFlow:
      limit === undefined
        ? undefined
        : (flowToStayUnder(infusion, milliosmolePerLitre(limit), assumed.bloodOsmolarity) ?? "none"),
    acidity:
      titratableAcidity === undefined || bufferValue === undefined
        ? undefined
        : acidityShift({ rate: infusion.rate, titratableAcidity }, { flow, bufferValue }),
  };
}
