import { isMissing, type Maybe } from "../missing/index.ts";
import { milligram, millilitre, type Kilogram, type Milligram, type Millilitre } from "../quantity/index.ts";
import type { Finding } from "../reason/index.ts";

export interface CeilingRow {
  readonly mgPerKg: number;
  readonly mostMg: number;
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
 * Holds: adults. Children have no row until local policy fills one. Source: lidocaine label text, maximum doses.
 * Example: 50 kg, plain, 1 %: 225 mg, 22.5 mL.
 */
export function lidocaineCeiling(
  entry: {
    readonly adult: boolean;
    readonly weightKg: Maybe<Kilogram>;
    readonly concentrationPercent: Maybe<number>;
    readonly withAdrenaline: Maybe<boolean>;
  },
  rows: { readonly plain: CeilingRow; readonly withAdrenaline: CeilingRow },
): LidocaineCeiling {
  const { weightKg, concentrationPercent, withAdrenaline } = entry;
  const refuse = (code: string): LidocaineCeiling => ({
    mostMg: undefined,
    mostMl: undefined,
    findings: [
      {
        code,
        verdict: "not known",
        level: "ask",
        values: {},
        policy: ["anaesthetic.plain-mg-per-kg"],
        path: "anaesthetic",
      },
    ],
  });
  if (!entry.adult) return refuse("anaesthetic-no-child-row");
  if (
    isMissing(weightKg) ||
    isMissing(concentrationPercent) ||
    isMissing(withAdrenaline) ||
    concentrationPercent <= 0
  ) {
    return refuse("anaesthetic-not-known");
  }
  const row = withAdrenaline ? rows.withAdrenaline : rows.plain;
  const mg = Math.min(row.mgPerKg * weightKg, row.mostMg);
  // a hair is added before rounding down, so that 22.5 stays 22.5 when it is stored as 22.499999
  const ml = Math.floor((mg / (10 * concentrationPercent)) * 10 + 1e-9) / 10;
  return { mostMg: milligram(mg), mostMl: millilitre(ml), findings: [] };
}
