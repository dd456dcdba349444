import { outsideDiameter, type StockCatheter } from "../../catheter/index.ts";
import { celsius, type Centimetre, type MillilitrePerHour, type Millimetre } from "../../quantity/index.ts";
import { fluidFigures, type FluidFigures } from "../fluid/infusate.ts";
import { canCarry, type CarryAnswer } from "../lumen/carry.ts";
import { gravityDrive, millimetreOfMercury } from "../lumen/drive.ts";

const ROOM_CELSIUS = 22;

/**
 * Whether each catheter of a shelf carries a rate of water under a hanging bag: by its label where there is one.
 * Holds: as `canCarry`. Source: as `canCarry`. Example: a 4 Fr double of 50 cm without a label carries 66 mL/h.
 */
export function shelfCarries(
  shelf: readonly StockCatheter[],
  rate: MillilitrePerHour,
  assumed: {
    readonly wallMm: Millimetre;
    readonly septumMm: Millimetre;
    readonly veinPressureMmHg: number;
    readonly headCm: Centimetre;
  },
): readonly { readonly catheter: StockCatheter; readonly answer: CarryAnswer }[] {
  const water = fluidFigures("water", celsius(ROOM_CELSIUS)) as FluidFigures;
  const drive = gravityDrive(assumed.headCm, water.density, millimetreOfMercury(assumed.veinPressureMmHg));
  return [...shelf]
    .sort((a, b) => a.lumens - b.lumens || outsideDiameter(a) - outsideDiameter(b))
    .map((catheter) => ({
      catheter,
      answer: canCarry(catheter, { rate, fluid: water, drive, lengthCm: catheter.lengthCm }, assumed),
    }));
}
