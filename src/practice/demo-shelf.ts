import type { StockCatheter } from "../core/catheter/index.ts";
import { missing } from "../core/missing/index.ts";
import {
  centimetre,
  french,
  millilitre,
  millilitrePerHour,
  millilitrePerSecond,
  millimetre,
} from "../core/quantity/index.ts";

/** An invented, generic shelf for practice. A hospital types its own from the labels in its cupboard. */
const item = (
  id: string,
  name: string,
  size: number,
  lumens: number,
  label: { od: number; volumes: number[]; flow: number; contrast: number; length?: number },
): StockCatheter => ({
  id,
  name,
  nominalFrench: french(size),
  outsideDiameterMm: millimetre(label.od),
  lumens,
  lengthCm: centimetre(label.length ?? 60),
  lumenVolumesMl: label.volumes.map(millilitre),
  flowLabelMlPerHour: millilitrePerHour(label.flow),
  bloodByLabel: size >= 3,
  contrastLabelMlPerSecond: millilitrePerSecond(label.contrast),
  material: "polyurethane",
});

export const demoShelf: readonly StockCatheter[] = [
  item("2-single", "2 Fr single", 2, 1, { od: 0.67, volumes: [0.15], flow: 60, contrast: 0, length: 30 }),
  item("3-single", "3 Fr single", 3, 1, { od: 1, volumes: [0.3], flow: 350, contrast: 1 }),
  item("4-single", "4 Fr single", 4, 1, { od: 1.33, volumes: [0.5], flow: 1000, contrast: 3.5 }),
  item("4-double", "4 Fr double", 4, 2, { od: 1.35, volumes: [0.35, 0.35], flow: 400, contrast: 0 }),
  item("5-double", "5 Fr double", 5, 2, { od: 1.67, volumes: [0.5, 0.5], flow: 900, contrast: 5 }),
  item("5-double-tapered", "5 Fr double, tapered", 5, 2, { od: 2, volumes: [0.55, 0.55], flow: 950, contrast: 5 }),
  {
    ...item("6-triple", "6 Fr triple", 6, 3, { od: 2, volumes: [0.6, 0.45, 0.45], flow: 800, contrast: 5 }),
    contrastLabelMlPerSecond: missing("not known"),
  },
];
