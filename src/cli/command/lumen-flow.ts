import { readLumenText, sizeOf } from "../../contract/index.ts";
import {
  dividedBore,
  fluidFigures,
  gravityDrive,
  lumenFlow,
  millimetreOfMercury,
  primingVolume,
} from "../../core/flow/index.ts";
import { celsius, centimetre, millilitre, millimetre, pascal } from "../../core/quantity/index.ts";
import { amount, flowRefusal, lumenModelSentence, regimeSentence, safetyStatement } from "../../language/index.ts";
import { defaultPolicy, flowAssumptionsFrom } from "../../policy/index.ts";
import type { Command } from "./command.ts";
import { faultOutput } from "./fault-output.ts";

const assumed = flowAssumptionsFrom(defaultPolicy.table);
const ROOM = 22;

/** What one lumen carries of one fluid, under a hanging bag or a pump's limit. */
export const lumenFlowCommand: Command = {
  name: "lumen-flow",
  summary: "Say what one lumen carries, by the model.",
  usage: "veinwright lumen-flow LUMEN.json [--json]",
  readsFile: true,
  run: ({ text, json }) => {
    const reading = readLumenText(text);
    if (reading.kind === "faults") return faultOutput(reading.faults, json, "lumen");
    const { lumens, lengthCm, fluid, headCm, pumpLimitMmHg, rateMlPerHour, ...file } = reading.data;
    const refused = (reason: string) => ({ exit: 3, output: flowRefusal[reason] ?? reason }) as const;
    const lumen = dividedBore({
      outsideDiameterMm: sizeOf(file),
      wallMm: millimetre(file.wallMm ?? assumed.wallMm),
      septumMm: millimetre(file.septumMm ?? assumed.septumMm),
      lumens,
    });
    if (lumen.kind === "refused") return refused(lumen.reason);
    const figures = fluidFigures(fluid, celsius(file.celsius ?? ROOM));
    if (figures.kind === "not known") return refused(figures.reason);
    const vein = millimetreOfMercury(assumed.veinPressureMmHg);
    const drive =
      headCm === undefined
        ? pascal(millimetreOfMercury(pumpLimitMmHg ?? 0) - vein)
        : gravityDrive(centimetre(headCm), figures.density, vein);
    const flow = lumenFlow({ lumen, lengthCm: centimetre(lengthCm), fluid: figures }, drive);
    const perHour = flow.flow * 60;
    const priming = primingVolume(lumen.area, centimetre(lengthCm), millilitre(0));
    const carries = rateMlPerHour === undefined ? undefined : perHour >= rateMlPerHour;
    if (json)
      return {
        exit: 0,
        output: JSON.stringify({ lumen, figures, drivePascal: drive, flow, perHour, priming, carries }, null, 2),
      };
    const lines = [
      `One lumen carries ${amount(perHour, "mL/h", 0)} of ${fluid} (${amount(flow.flow, "mL/min")}).`,
      ...(carries === undefined
        ? []
        : [`${rateMlPerHour} mL/h is ${carries ? "within" : "more than"} what the model carries.`]),
      regimeSentence[flow.regime],
      `Reynolds number ${flow.reynolds.toFixed(0)}. Lumen area ${amount(lumen.area, "mm2", 3)}, volume ${amount(priming, "mL", 2)} without the hub.`,
      `Viscosity ${amount(figures.viscosity, "mPa.s", 2)} (${figures.howKnown}: ${figures.source}).`,
      lumenModelSentence,
      "",
      safetyStatement,
    ];
    return { exit: 0, output: lines.join("\n") };
  },
};
