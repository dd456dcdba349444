/**
 * A number that carries its unit in its type, so a millimetre cannot be passed where a centimetre is meant.
 * The brand exists only for the compiler: at run time these are plain numbers and cost nothing.
 */
declare const unit: unique symbol;
export type Quantity<Unit extends string> = number & { readonly [unit]: Unit };

export type Millimetre = Quantity<"mm">;
export type Centimetre = Quantity<"cm">;
export type French = Quantity<"Fr">;
export type Inch = Quantity<"in">;
export type Degree = Quantity<"deg">;
export type Radian = Quantity<"rad">;
export type Kilogram = Quantity<"kg">;
export type Pound = Quantity<"lb">;
export type Milligram = Quantity<"mg">;
export type Millilitre = Quantity<"mL">;
export type MillilitrePerHour = Quantity<"mL/h">;
export type MillilitrePerSecond = Quantity<"mL/s">;
export type Day = Quantity<"d">;
export type MillilitrePerMinute = Quantity<"mL/min">;
export type SquareMillimetre = Quantity<"mm2">;
/** Conductance of a duct, G a^4: flow = conductance x pressure gradient / viscosity. */
export type QuarticMillimetre = Quantity<"mm4">;
export type Celsius = Quantity<"degC">;
export type Pascal = Quantity<"Pa">;
export type Kilopascal = Quantity<"kPa">;
export type Newton = Quantity<"N">;
export type MillipascalSecond = Quantity<"mPa.s">;
export type KilogramPerCubicMetre = Quantity<"kg/m3">;
export type PerSecond = Quantity<"1/s">;
export type MilligramPerDecilitre = Quantity<"mg/dL">;
export type MicromolePerLitre = Quantity<"umol/L">;
/** Filtration scaled to a body surface of 1.73 m2. */
export type MillilitrePerMinute173 = Quantity<"mL/min/1.73 m2">;
export type MilliosmolePerLitre = Quantity<"mOsm/L">;
export type Minute = Quantity<"min">;

export const millimetre = (value: number): Millimetre => value as Millimetre;
export const centimetre = (value: number): Centimetre => value as Centimetre;
export const french = (value: number): French => value as French;
export const inch = (value: number): Inch => value as Inch;
export const degree = (value: number): Degree => value as Degree;
export const radian = (value: number): Radian => value as Radian;
export const kilogram = (value: number): Kilogram => value as Kilogram;
export const pound = (value: number): Pound => value as Pound;
export const milligram = (value: number): Milligram => value as Milligram;
export const millilitre = (value: number): Millilitre => value as Millilitre;
export const millilitrePerHour = (value: number): MillilitrePerHour => value as MillilitrePerHour;
export const millilitrePerSecond = (value: number): MillilitrePerSecond => value as MillilitrePerSecond;
export const day = (value: number): Day => value as Day;

export const milligramPerDecilitre = (value: number): MilligramPerDecilitre => value as MilligramPerDecilitre;
export const micromolePerLitre = (value: number): MicromolePerLitre => value as MicromolePerLitre;
export const millilitrePerMinute173 = (value: number): MillilitrePerMinute173 => value as MillilitrePerMinute173;
export const millilitrePerMinute = (value: number): MillilitrePerMinute => value as MillilitrePerMinute;
export const squareMillimetre = (value: number): SquareMillimetre => value as SquareMillimetre;
export const quarticMillimetre = (value: number): QuarticMillimetre => value as QuarticMillimetre;
export const celsius = (value: number): Celsius => value as Celsius;
export const pascal = (value: number): Pascal => value as Pascal;
export const kilopascal = (value: number): Kilopascal => value as Kilopascal;
export const newton = (value: number): Newton => value as Newton;
export const millipascalSecond = (value: number): MillipascalSecond => value as MillipascalSecond;
export const kilogramPerCubicMetre = (value: number): KilogramPerCubicMetre => value as KilogramPerCubicMetre;
export const perSecond = (value: number): PerSecond => value as PerSecond;
export const milliosmolePerLitre = (value: number): MilliosmolePerLitre => value as MilliosmolePerLitre;
export const minute = (value: number): Minute => value as Minute;
