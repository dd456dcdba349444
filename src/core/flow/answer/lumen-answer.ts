import {
  celsius,
  centimetre,
  millilitre,
  millimetre,
  newton,
  pascal,
  type Centimetre,
  type Millilitre,
  type Millimetre,
  type Pascal,
} from "../../quantity/index.ts";
import { fluidFigures, type Fluid, type FluidAnswer, type FluidFigures } from "../fluid/infusate.ts";
import { dividedBore } from "../lumen/divided-bore.ts";
import { GRAVITY_TEST, gravityDrive, gravityTest, millimetreOfMercury, syringePressure } from "../lumen/drive.ts";
import { lumenFlow, type LumenFlow } from "../lumen/lumen-flow.ts";
import type { Lumen, LumenRefused } from "../lumen/lumen.ts";
import { primingAfterTrim, primingVolume, type TrimmedVolume } from "../lumen/priming.ts";

/** One lumen of one catheter, its fluid and what drives it: a bag's height over the tip, or a pump's limit. */
export interface LumenQuestion {
  readonly outsideDiameterMm: Millimetre;
  readonly lumens: number;
  readonly wallMm?: number | undefined;
  readonly septumMm?: number | undefined;
  readonly lengthCm: Centimetre;
  readonly fluid: Fluid;
  readonly celsius?: number | undefined;
  readonly headCm?: number | undefined;
  readonly pumpLimitMmHg?: number | undefined;
  readonly label?: { readonly volumeMl: number; readonly lengthCm: number } | undefined;
  readonly syringe?: { readonly boreMm: number; readonly forceN: number } | undefined;
}

export interface LumenAnswered {
  readonly kind: "lumen flow";
  readonly lumen: Lumen;
  readonly figures: FluidFigures;
  readonly drive: Pascal;
  readonly flow: LumenFlow;
  readonly priming: Millilitre;
  readonly gravityTestMlPerMinute: number;
  readonly trimmed: TrimmedVolume | undefined;
  readonly syringeKilopascal: number | undefined;
}

const ROOM_CELSIUS = 22;

/**
 * What one lumen carries, with the assumed walls where none were measured.
 * Holds: as `dividedBore`, `fluidFigures` and `lumenFlow`, whose refusals it passes on. Source: those functions.
 * Example: 5 Fr double, 45 cm, water under 1 m against 8 mmHg: 349 mL/h.
 */
export function lumenAnswer(
  question: LumenQuestion,
  assumed: { readonly wallMm: Millimetre; readonly septumMm: Millimetre; readonly veinPressureMmHg: number },
): LumenAnswered | LumenRefused | Extract<FluidAnswer, { readonly kind: "not known" }> {
  const lumen = dividedBore({
    outsideDiameterMm: question.outsideDiameterMm,
    wallMm: millimetre(question.wallMm ?? assumed.wallMm),
    septumMm: millimetre(question.septumMm ?? assumed.septumMm),
    lumens: question.lumens,
  });
  if (lumen.kind === "refused") return lumen;
  const figures = fluidFigures(question.fluid, celsius(question.celsius ?? ROOM_CELSIUS));
  if (figures.kind === "not known") return figures;
  const vein = millimetreOfMercury(assumed.veinPressureMmHg);
  const drive =
    question.headCm === undefined
      ? pascal(millimetreOfMercury(question.pumpLimitMmHg ?? 0) - vein)
      : gravityDrive(centimetre(question.headCm), figures.density, vein);
  const { label, syringe } = question;
  const testWater = fluidFigures("water", celsius(GRAVITY_TEST.waterCelsius)) as FluidFigures;
  const flow = lumenFlow({ lumen, lengthCm: question.lengthCm, fluid: figures }, drive);
  return {
    kind: "lumen flow",
    lumen,
    figures,
    drive,
    flow,
    priming: primingVolume(lumen.area, question.lengthCm, millilitre(0)),
    gravityTestMlPerMinute: gravityTest({ lumen, lengthCm: question.lengthCm, fluid: testWater }).printed,
    trimmed:
      label &&
      primingAfterTrim(
        { volumeMl: millilitre(label.volumeMl), lengthCm: centimetre(label.lengthCm) },
        lumen.area,
        question.lengthCm,
      ),
    syringeKilopascal: syringe && syringePressure(newton(syringe.forceN), millimetre(syringe.boreMm)),
  };
}
