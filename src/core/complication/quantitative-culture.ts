import { isMissing, type Maybe } from "../missing/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import type { CultureLimits } from "./complication-limits.ts";

/** Colony counts of two blood samples drawn together; the other is peripheral, or the second lumen where no vein gives. */
export interface QuantitativePair {
  readonly lineCfuPerMl: Maybe<number>;
  readonly otherCfuPerMl: Maybe<number>;
  readonly other: "peripheral" | "second lumen";
}

/** A quotient of two decimals may miss a whole number by this share and mean it. */
const ROUNDING = 1e-9;

export interface QuantitativeAnswer {
  readonly fold: number | undefined;
  readonly findings: readonly Finding[];
}

/**
 * How many times more the line grew than the other sample, against both folds in print.
 *   fold = line / other
 * Units: CFU/mL. Holds: the other above zero; growth from the line alone has no fold. Source: three-fold, Mermel LA and
 * others 2009, Clin Infect Dis 49:1; five-fold, Mermel LA and others 2001, Clin Infect Dis 32:1249. Example: 300 and 100:
 * 3.0 meets three-fold, fails five-fold.
 */
export function judgeQuantitative(pair: QuantitativePair, limits: CultureLimits): QuantitativeAnswer {
  const { lineCfuPerMl, otherCfuPerMl, other } = pair;
  if (isMissing(lineCfuPerMl) || isMissing(otherCfuPerMl))
    return { fold: undefined, findings: [finding("quantitative-count-missing", "not known", "ask", { other })] };
  const lumens = other === "second lumen";
  if (otherCfuPerMl === 0 || (lumens && lineCfuPerMl === 0))
    return {
      fold: undefined,
      findings: [finding("quantitative-other-grew-nothing", "not known", "note", { other, lineCfuPerMl })],
    };
  // between two lumens either may be the fuller one
  const fold = lumens
    ? Math.max(lineCfuPerMl / otherCfuPerMl, otherCfuPerMl / lineCfuPerMl)
    : lineCfuPerMl / otherCfuPerMl;
  const held = (code: string, limit: number, row: string) =>
    finding(
      code,
      fold >= limit * (1 - ROUNDING) ? "met" : "not met",
      "note",
      { fold, limit, other },
      { policy: [row] },
    );
  const findings = [held("quantitative-fold", limits.fold, "complication.quantitative-fold")];
  if (!lumens) findings.push(held("quantitative-fold-older", limits.foldOlder, "complication.quantitative-fold-older"));
  return { fold, findings };
}
