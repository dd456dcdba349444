import {
  celsius,
  kilogramPerCubicMetre,
  millipascalSecond,
  type Celsius,
  type KilogramPerCubicMetre,
  type MillipascalSecond,
} from "../../quantity/index.ts";
import type { HowKnown, Sourced } from "./how-known.ts";
import { waterDensity, waterViscosity } from "./water.ts";

export const FLUIDS = [
  "water",
  "saline 0.9 %",
  "balanced crystalloid",
  "albumin 5 %",
  "hydroxyethyl starch 6 %",
  "glucose 5 %",
  "glucose 10 %",
  "glucose 20 %",
  "glucose 50 %",
  "lipid emulsion 20 %",
  "whole blood",
  "plasma",
  "packed cells",
  "iohexol 300",
  "iohexol 350",
  "iopamidol 300",
  "iopamidol 370",
] as const;
export type Fluid = (typeof FLUIDS)[number];

export interface FluidFigures {
  readonly kind: "figures";
  readonly viscosity: MillipascalSecond;
  readonly density: KilogramPerCubicMetre;
  readonly source: string;
  /** Of the viscosity at the asked temperature; a figure moved from another temperature is at best computed. */
  readonly howKnown: HowKnown;
}

export type FluidAnswer =
  | FluidFigures
  | { readonly kind: "not known"; readonly reason: "no measured figure" | "measured at another temperature only" };

/** A measured viscosity, and whether water's own change with temperature may carry it elsewhere. */
interface FluidRow extends Sourced {
  readonly viscosity: number;
  readonly at: number;
  readonly follows: "water" | "nothing";
  readonly density: number;
}

const KO = "Ko E and others 2022, J Korean Med Sci 37(9):e71";
const CONTRAST = "table of iodinated contrast agents, J Nucl Med Technol, at 37 C";
const ROOM = 22;

/** Densities are from memory and matter little: they move a gravity head by their own few per cent. */
const ROWS: Readonly<Partial<Record<Fluid, FluidRow>>> = {
  "saline 0.9 %": row(1.02, 20, "water", 1005, "handbook table, 1.02 at 20 C; 1.07 measured by Ko 2022", "from memory"),
  "balanced crystalloid": row(1.1, ROOM, "water", 1005, `${KO}, 1.07 to 1.12 at room temperature`, "published"),
  "albumin 5 %": row(1.74 * 1.07, ROOM, "water", 1015, `${KO}, 1.74 times saline of 1.07`, "published"),
  "hydroxyethyl starch 6 %": row(2.59 * 1.07, ROOM, "water", 1025, `${KO}, 2.59 times saline of 1.07`, "published"),
  "whole blood": row(
    3.26,
    37,
    "water",
    1055,
    "Rosenson RS and others 1996, Clin Chem 42:1189, 126 healthy adults at 100 per second",
    "published",
  ),
  plasma: row(1.39, 37, "water", 1025, "Rosenson RS and others 1996, Clin Chem 42:1189", "published"),
  "packed cells": row(4.9, 37, "water", 1085, "haematocrit 0.60 by Pries 1992 in a fluid of 1.0 mPa.s", "estimate"),
  "iohexol 300": row(6.1, 37, "nothing", 1349, CONTRAST, "published"),
  "iohexol 350": row(10.6, 37, "nothing", 1406, CONTRAST, "published"),
  "iopamidol 300": row(4.7, 37, "nothing", 1332, CONTRAST, "published"),
  "iopamidol 370": row(8.6, 37, "nothing", 1405, CONTRAST, "published"),
};

function row(
  viscosity: number,
  at: number,
  follows: FluidRow["follows"],
  density: number,
  source: string,
  howKnown: HowKnown,
): FluidRow {
  return { viscosity, at, follows, density, source, howKnown };
}

/**
 * Viscosity and density of an infusate at a temperature, with its source and how it is known.
 *   mu(T) = mu(T0) x water(T) / water(T0) where the fluid is mostly water; contrast is answered at 37 C alone
 * Glucose to 20 per cent: see `glucoseFigures`. Lipid and glucose 50 per cent have no figure that holds.
 * Holds: 0 to 60 C, else RangeError. Source: in each answer. Example: saline at 22 C: 0.972 mPa.s, from memory.
 */
export function fluidFigures(fluid: Fluid, temperature: Celsius): FluidAnswer {
  if (!(temperature >= 0 && temperature <= 60))
    throw new RangeError(`The temperature is ${temperature} C; an infusate is asked for between 0 and 60 C.`);
  if (fluid === "water")
    return {
      kind: "figures",
      viscosity: waterViscosity(temperature),
      density: waterDensity(temperature),
      source: "IAPWS R12-08, 2008; Kell GS 1975, J Chem Eng Data 20:97",
      howKnown: "published",
    };
  const glucose = /^glucose (5|10|20) %$/.exec(fluid);
  if (glucose) return glucoseFigures(Number(glucose[1]) * 10, temperature);
  const known = ROWS[fluid];
  if (!known) return { kind: "not known", reason: "no measured figure" };
  const here = Math.abs(temperature - known.at) < 0.5;
  if (!here && known.follows === "nothing")
    return { kind: "not known", reason: "measured at another temperature only" };
  const moved = known.follows === "water" ? waterViscosity(temperature) / waterViscosity(celsius(known.at)) : 1;
  return {
    kind: "figures",
    viscosity: millipascalSecond(known.viscosity * moved),
    density: kilogramPerCubicMetre(known.density),
    source: here ? known.source : `${known.source}; moved from ${known.at} C as water`,
    howKnown: here || known.howKnown !== "published" ? known.howKnown : "computed",
  };
}

/** Anhydrous over monohydrate, by molar mass. */
const MONOHYDRATE_MOLAR = 198.17;
const WATER_OF_CRYSTAL = 18.015 / MONOHYDRATE_MOLAR;

/**
 * Glucose, given as grams of monohydrate per litre.
 *   ln(mu / water) = 0.46 x molality;   density = 998.2 + 0.352 g
 * Holds: 0 to 250 g/L, else RangeError; beyond, the rule is extrapolated and fails by tens of per cent.
 * Source: rule fitted to 1 per cent to three measurements (relative viscosity 1.267 at 0.503 and 1.442 at 0.811 mol/kg;
 * 1.90 mPa.s for 20 per cent by mass at 20 C). Example: 10 per cent at 20 C: 1.28 mPa.s.
 */
export function glucoseFigures(gramsPerLitre: number, temperature: Celsius): FluidFigures {
  if (!(gramsPerLitre >= 0 && gramsPerLitre <= 250))
    throw new RangeError(`The glucose is ${gramsPerLitre} g/L; the viscosity rule holds from 0 to 250 g/L.`);
  const density = 998.2 + 0.352 * gramsPerLitre;
  const waterKilogram = (density - gramsPerLitre * (1 - WATER_OF_CRYSTAL)) / 1000;
  const molality = gramsPerLitre / MONOHYDRATE_MOLAR / waterKilogram;
  return {
    kind: "figures",
    viscosity: millipascalSecond(waterViscosity(temperature) * Math.exp(0.46 * molality)),
    density: kilogramPerCubicMetre(density),
    source: "rule ln(relative) = 0.46 x molality, fitted to three printed measurements",
    howKnown: "computed",
  };
}
