import { readVeinText, sizeOf, type VeinFile } from "../../contract/index.ts";
import {
  CARREAU_YASUDA_BLOOD,
  shearThinningFlow,
  solveSection,
  veinAnswer,
  type SectionAnswer,
} from "../../core/flow/index.ts";
import { millilitrePerMinute, millimetre } from "../../core/quantity/index.ts";
import { crowdedSentence, safetyStatement, thinningSentence, veinFlowLines } from "../../language/index.ts";
import { defaultPolicy, flowAssumptionsFrom } from "../../policy/index.ts";
import type { Command } from "./command.ts";
import { faultOutput } from "./fault-output.ts";
import { refusedOutput } from "./refused-output.ts";

const assumed = flowAssumptionsFrom(defaultPolicy.table);

/** What one catheter leaves of one vein's flow, centred and touching. */
export const flowCommand: Command = {
  name: "flow",
  summary: "Say what a catheter leaves of the vein's flow.",
  usage: "veinwright flow VEIN.json [--json]",
  readsFile: true,
  run: ({ text, json }) => {
    const reading = readVeinText(text);
    if (reading.kind === "faults") return faultOutput(reading.faults, json, "vein");
    const { diameterMm, sdMm = 0, offset = 0 } = reading.data;
    const question = {
      outsideDiameterMm: sizeOf(reading.data),
      diameterMm: millimetre(diameterMm),
      sdMm: millimetre(sdMm),
      offset,
    };
    const answer = veinAnswer(question, assumed);
    if ("kind" in answer) return refusedOutput(answer.reason, json);
    const crowded = crowdedSection(reading.data);
    if (crowded?.kind === "refused") return refusedOutput(crowded.reason, json);
    const { openFlowMlPerMinute } = reading.data;
    const thinning =
      openFlowMlPerMinute === undefined
        ? undefined
        : shearThinningFlow(
            {
              ratio: answer.pair.ratio,
              diameterMm: question.diameterMm,
              openFlow: millilitrePerMinute(openFlowMlPerMinute),
            },
            CARREAU_YASUDA_BLOOD,
          );
    const output = json
      ? JSON.stringify({ ...answer, ...(crowded ? { crowded } : {}), ...(thinning ? { thinning } : {}) }, null, 2)
      : [
          ...veinFlowLines(answer),
          ...(crowded ? [crowdedSentence(crowded)] : []),
          ...(thinning ? [thinningSentence(thinning)] : []),
          "",
          safetyStatement,
        ].join("\n");
    return { exit: 0, output };
  },
};

const TOLERANCE = 1e-6;

/** The same catheter in an oval vein, or beside others, by the general solver; undefined for one in a round vein. */
function crowdedSection(file: VeinFile): SectionAnswer | undefined {
  const { axisRatio = 1, others = [], offset = 0, diameterMm } = file;
  if (axisRatio === 1 && others.length === 0) return undefined;
  const radius = diameterMm / 2;
  const own = sizeOf(file) / 2 / radius;
  return solveSection(
    {
      axisRatio,
      catheters: [
        { x: offset * (1 - own), y: 0, radius: own },
        ...others.map((other) => ({
          x: other.xMm / radius,
          y: other.yMm / radius,
          radius: sizeOf(other) / 2 / radius,
        })),
      ],
    },
    TOLERANCE,
  );
}
