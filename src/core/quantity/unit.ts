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
export const minute = (value: number): Minute => value as Minute;
