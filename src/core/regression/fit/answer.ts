export interface Coefficient {
  readonly name: string;
  /** On the log scale, per unit of the covariate. */
  readonly value: number;
  readonly standardError: number;
  /** From the sandwich by cluster, with no small-sample factor; absent when no cluster was given. */
  readonly robustError?: number;
}

/** Why there is no fit. Separation: the likelihood rises for ever along the covariates named; Firth's method holds. */
export type Unfitted =
  | { readonly kind: "no events" }
  | { readonly kind: "collinear"; readonly covariates: readonly string[] }
  | { readonly kind: "separated"; readonly covariates: readonly string[]; readonly logLikelihood: number }
  | { readonly kind: "not settled"; readonly steps: number };

export interface TwoLimits {
  /** Infinite where the likelihood never falls far enough on that side. */
  readonly low: number;
  readonly high: number;
}

export interface CoefficientTest extends TwoLimits {
  /** Twice the (penalised) log likelihood lost at zero; chi-square on 1 degree. */
  readonly statistic: number;
}

export function coefficientsOf(
  names: readonly string[],
  values: Float64Array,
  variance: Float64Array,
  robust?: Float64Array,
): Coefficient[] {
  const size = names.length;
  return names.map((name, j) => ({
    name,
    value: values[j] as number,
    standardError: Math.sqrt(variance[j * size + j] as number),
    ...(robust === undefined ? {} : { robustError: Math.sqrt(robust[j * size + j] as number) }),
  }));
}
