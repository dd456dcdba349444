import { isMissing, type Maybe } from "../missing/index.ts";
import { milligram, millilitre, type Day, type Kilogram, type Milligram, type Millilitre } from "../quantity/index.ts";
import type { Finding } from "../reason/index.ts";

export interface CeilingRow {
  readonly mgPerKg: number;
  readonly mostMg: number;
}

export interface LidocaineRows {
  readonly plain: CeilingRow;
  readonly withAdrenaline: CeilingRow;
  /** 0 until local policy sets a child's figure: then no number is shown. The adult's most still caps it. */
  readonly childMgPerKg: { readonly plain: number; readonly withAdrenaline: number };
  readonly infantUnderDays: Day;
  readonly infantShare: number;
}

export interface AnaestheticEntry {
  /** Undefined while the age is missing. */
  readonly group: "newborn" | "child" | "adult" | undefined;
  readonly ageDays: Maybe<Day>;
  readonly weightKg: Maybe<Kilogram>;
  readonly concentrationPercent: Maybe<number>;
  readonly withAdrenaline: Maybe<boolean>;
}

export interface LidocaineCeiling {
  readonly mostMg: Milligram | undefined;
  /** Rounded down to 0.1 mL, so that the volume never holds more than the milligrams. */
  readonly mostMl: Millilitre | undefined;
  readonly findings: readonly Finding[];
}

/**
 * The most lidocaine for skin and tunnel together: a ceiling, never a dose to give.
 *   mg = min(mg per kg x kg, most)      mL = mg / (10 x per cent), rounded down to 0.1
 * Holds: adults; children once local policy has set their figure, of which the youngest get a share; newborns never.
 * Source: lidocaine label text, maximum doses.
 * Example: 50 kg, plain, 1 %: 225 mg, 22.5 mL.
 */
export function lidocaineCeiling(entry: AnaestheticEntry, rows: LidocaineRows): LidocaineCeiling {
  const { weightKg, concentrationPercent, withAdrenaline, ageDays } = entry;
  if (entry.group === undefined || isMissing(ageDays)) return refuse("anaesthetic-age-missing");
  if (entry.group === "newborn") return refuse("anaesthetic-no-child-row");
  if (isMissing(weightKg) || isMissing(concentrationPercent) || isMissing(withAdrenaline)) {
    // a child's missing figure outweighs a missing entry: nothing the person types would give a number
    const noRow = entry.group === "child" && rows.childMgPerKg.plain <= 0 && rows.childMgPerKg.withAdrenaline <= 0;
    return refuse(noRow ? "anaesthetic-no-child-row" : "anaesthetic-not-known");
  }
  if (!(concentrationPercent > 0 && weightKg > 0)) return refuse("anaesthetic-not-known");
  const { mgPerKg: adultMgPerKg, mostMg } = withAdrenaline ? rows.withAdrenaline : rows.plain;
  let mgPerKg = adultMgPerKg;
  if (entry.group === "child") {
    const child = withAdrenaline ? rows.childMgPerKg.withAdrenaline : rows.childMgPerKg.plain;
    if (child <= 0) return refuse("anaesthetic-no-child-row");
    mgPerKg = ageDays < rows.infantUnderDays ? child * rows.infantShare : child;
  }
  const mg = Math.min(mgPerKg * weightKg, mostMg);
  // a hair is added before rounding down, so that 22.5 stays 22.5 when it is stored as 22.499999
  const ml = Math.floor((mg / (10 * concentrationPercent)) * 10 + 1e-9) / 10;
  return { mostMg: milligram(mg), mostMl: millilitre(ml), findings: [] };
}

const refuse = (code: string): LidocaineCeiling => ({
  mostMg: undefined,
  mostMl: undefined,
  findings: [
    {
      code,
      verdict: "not known",
      level: "ask",
      values: {},
      policy:
        code === "anaesthetic-no-child-row" ? ["anaesthetic.child-plain-mg-per-kg"] : ["anaesthetic.plain-mg-per-kg"],
      path: "anaesthetic",
    },
  ],
});
