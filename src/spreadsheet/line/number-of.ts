import { inch, inchToCentimetre, millimetre, millimetreToFrench } from "../../core/quantity/index.ts";
import { lumensOf, readQuantity, type ColumnMatch, type FieldName } from "../match/index.ts";

const FRACTIONS: ReadonlySet<FieldName> = new Set(["ageYears", "ratioPercent", "weightKg"]);

/** A number in the field's own unit; a unit written in the cell wins over the column's. */
export function numberOf(
  text: string,
  field: FieldName,
  { unit }: ColumnMatch,
): number | "not a number" | "number of another kind" {
  const reading = readQuantity(text);
  if (!reading) return (field === "lumens" ? lumensOf(text) : undefined) ?? "not a number";
  const { value } = reading;
  const written = ["Fr", "mm", "cm", "in"].includes(reading.unit ?? "") ? reading.unit : undefined;
  const from = written ?? unit;
  if (field === "sizeFr")
    return from === "Fr" ? value : from === "mm" ? millimetreToFrench(millimetre(value)) : "number of another kind";
  if (field === "veinDiameterMm") return from === "mm" ? value : from === "cm" ? value * 10 : "number of another kind";
  if (field === "insideCm") {
    if (from === "in") return inchToCentimetre(inch(value));
    return from === "cm" ? value : from === "mm" ? value / 10 : "number of another kind";
  }
  if (written) return "number of another kind";
  return FRACTIONS.has(field) || Number.isInteger(value) ? value : "not a number";
}
