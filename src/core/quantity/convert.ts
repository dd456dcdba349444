import {
  centimetre,
  french,
  kilogram,
  millimetre,
  radian,
  type Centimetre,
  type Degree,
  type French,
  type Inch,
  type Kilogram,
  type Millimetre,
  type Pound,
  type Radian,
} from "./unit.ts";

/** One French is a third of a millimetre of outside diameter (the trade's definition of the unit). */
const FRENCH_PER_MILLIMETRE = 3;
const MILLIMETRE_PER_INCH = 25.4; // exact, international inch (1959)
const KILOGRAM_PER_POUND = 0.45359237; // exact, international avoirdupois pound (1959)

export const frenchToMillimetre = (size: French): Millimetre => millimetre(size / FRENCH_PER_MILLIMETRE);
export const millimetreToFrench = (diameter: Millimetre): French => french(diameter * FRENCH_PER_MILLIMETRE);
export const millimetreToCentimetre = (length: Millimetre): Centimetre => centimetre(length / 10);
export const inchToCentimetre = (length: Inch): Centimetre => centimetre((length * MILLIMETRE_PER_INCH) / 10);
export const poundToKilogram = (weight: Pound): Kilogram => kilogram(weight * KILOGRAM_PER_POUND);
export const degreeToRadian = (angle: Degree): Radian => radian((angle * Math.PI) / 180);
