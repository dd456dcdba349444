import { readMixingText } from "../../contract/index.ts";
import { acidityShift, flowToStayUnder, mixedOsmolarity } from "../../core/flow/index.ts";
import { millilitrePerHour, millilitrePerMinute, milliosmolePerLitre } from "../../core/quantity/index.ts";
import { amount, mixingSentence, safetyStatement } from "../../language/index.ts";
import { defaultPolicy, flowAssumptionsFrom } from "../../policy/index.ts";
import type { Command } from "./command.ts";
import { faultOutput } from "./fault-output.ts";

const assumed = flowAssumptionsFrom(defaultPolicy.table);

/** What reaches the blood beyond the tip after full mixing, and what does not follow from it. */
export const mixingCommand: Command = {
  name: "mixing",
  summary: "Say how an infusion mixes at the tip, on average.",
  usage: "veinwright mixing MIXING.json [--json]",
  readsFile: true,
  run: ({ text, json }) => {
    const reading = readMixingText(text);
    if (reading.kind === "faults") return faultOutput(reading.faults, json, "mixing");
    const { osmolarity, rateMlPerHour, bloodFlowMlPerMinute, haematocrit, limit, titratableAcidity, bufferValue } =
      reading.data;
    const infusion = { osmolarity: milliosmolePerLitre(osmolarity), rate: millilitrePerHour(rateMlPerHour) };
    const flow = millilitrePerMinute(bloodFlowMlPerMinute);
    const mixed = mixedOsmolarity(infusion, {
      flow,
      haematocrit: haematocrit ?? assumed.haematocrit,
      osmolarity: assumed.bloodOsmolarity,
    });
    const needed =
      limit === undefined ? undefined : flowToStayUnder(infusion, milliosmolePerLitre(limit), assumed.bloodOsmolarity);
    const acidity =
      titratableAcidity === undefined || bufferValue === undefined
        ? undefined
        : acidityShift({ rate: infusion.rate, titratableAcidity }, { flow, bufferValue });
    if (json) return { exit: 0, output: JSON.stringify({ mixed, neededFlow: needed, acidity }, null, 2) };
    const lines = [
      `After mixing: ${amount(mixed.wholeBlood, "mOsm/L", 0)}; in plasma only ${amount(mixed.plasmaOnly, "mOsm/L", 0)}; at the wall up to ${amount(mixed.undiluted, "mOsm/L", 0)}.`,
      ...(limit === undefined
        ? []
        : [
            needed === undefined
              ? `No flow is enough to stay under ${limit} mOsm/L.`
              : `To stay under ${limit} mOsm/L the mean needs ${amount(needed, "mL/min")} of blood.`,
          ]),
      ...(acidity === undefined
        ? []
        : [
            acidity.kind === "undiluted"
              ? "No blood flows: nothing buffers the fluid."
              : `The blood's pH moves by ${acidity.change.toFixed(3)}: buffering, not averaging.`,
          ]),
      mixingSentence,
      "",
      safetyStatement,
    ];
    return { exit: 0, output: lines.join("\n") };
  },
};
