/** (zeta(k) - 1) (-1)^k / k for k = 2, 3, ...: mpmath 1.3.0, to the nearest double. */
const ZETA_TERMS = [
  0.3224670334241132, -0.0673523010531981, 0.020580808427784546, -0.007385551028673986, 0.0028905103307415234,
  -0.001192753911703261, 0.0005096695247430425, -0.00022315475845357939, 9.945751278180853e-5, -4.492623673813314e-5,
  2.050721277567069e-5, -9.439488275268397e-6, 4.374866789907488e-6, -2.039215753801366e-6, 9.55141213040742e-7,
  -4.492469198764566e-7, 2.1207184805554665e-7, -1.0043224823968099e-7, 4.7698101693639804e-8, -2.2711094608943164e-8,
  1.0838659214896955e-8, -5.183475041970047e-9, 2.4836745438024785e-9, -1.1921401405860912e-9, 5.731367241678862e-10,
  -2.7595228851242334e-10, 1.330476437424449e-10, -6.4229645638381e-11, 3.1044247747322276e-11,
];
const ONE_LESS_EULER = 0.42278433509846713; // 1 - Euler's constant
const HALF_LOG_TWO_PI = 0.9189385332046728;

/** Above this the asymptotic series of Stirling is exact to the last digit. */
export const STIRLING_FROM = 20;

/**
 * ln Gamma(1 + w) near w = 0, where ln Gamma itself vanishes.
 *   ln Gamma(1+w) = -ln(1+w) + (1 - gamma) w + sum over k >= 2 of (-1)^k (zeta(k) - 1) w^k / k
 * Holds: |w| <= 0.5; full relative precision, also beside the zero at w = 0.
 * Source: Abramowitz and Stegun 1964, 6.1.33. Example: logGammaOnePlus(0.5) = -0.1207822.
 */
export function logGammaOnePlus(w: number): number {
  let sum = 0;
  for (let k = ZETA_TERMS.length - 1; k >= 0; k -= 1) sum = (sum + (ZETA_TERMS[k] as number)) * w;
  return -Math.log1p(w) + w * (ONE_LESS_EULER + sum);
}

/**
 * What Stirling's formula leaves out.
 *   e(a) = ln Gamma(a+1) - (a + 1/2) ln a + a - ln(2 pi) / 2 = 1/(12 a) - 1/(360 a^3) + ...
 * Holds: a >= 20; absolute error below 1e-17. Source: Abramowitz and Stegun 1964, 6.1.41.
 * Example: stirlingError(100) = 0.000833331.
 */
export function stirlingError(a: number): number {
  const s = 1 / (a * a);
  return (1 / 12 - s * (1 / 360 - s * (1 / 1260 - s * (1 / 1680 - s * (1 / 1188 - s * (691 / 360360 - s / 156)))))) / a;
}

/**
 * Natural logarithm of the gamma function.
 *   ln Gamma(x), by 6.1.33 within a half of 1 and 2, by Gamma(x+1) = x Gamma(x) up to 20, by Stirling above
 * Holds: x > 0, else RangeError; relative error below 1e-14, also beside the zeros at 1 and 2.
 * Source: Abramowitz and Stegun 1964, 6.1.15, 6.1.33 and 6.1.41. Example: logGamma(10) = ln 362880 = 12.801827.
 */
export function logGamma(x: number): number {
  if (!(x > 0)) throw new RangeError(`The gamma function was asked at ${x}; the argument must be above zero.`);
  if (x >= STIRLING_FROM) return (x - 0.5) * Math.log(x) - x + HALF_LOG_TWO_PI + stirlingError(x);
  if (x < 0.5) return logGammaOnePlus(x) - Math.log(x);
  if (x <= 1.5) return logGammaOnePlus(x - 1);
  if (x <= 2.5) return logGammaOnePlus(x - 2) + Math.log1p(x - 2);
  const { product, rest } = downToOne(x);
  return Math.log(product) + logGammaOnePlus(rest);
}

/**
 * The gamma function.
 *   Gamma(x), Gamma(n) = (n-1)! at whole numbers
 * Holds: 0 < x <= 171.6 (beyond, Infinity), else RangeError; relative error below 1e-14.
 * Source: as `logGamma`. Example: gammaFunction(5) = 24.
 */
export function gammaFunction(x: number): number {
  if (!(x > 0)) throw new RangeError(`The gamma function was asked at ${x}; the argument must be above zero.`);
  if (x < 0.5) return Math.exp(logGammaOnePlus(x)) / x;
  if (x < STIRLING_FROM) {
    const { product, rest } = downToOne(x);
    return product * Math.exp(logGammaOnePlus(rest));
  }
  // the power in two halves, for x^x overflows before Gamma(x) does
  const half = x ** (x / 2 - 0.25);
  return half * Math.exp(-x) * half * Math.sqrt(2 * Math.PI) * Math.exp(stirlingError(x));
}

/** Gamma(x) = product x Gamma(1 + rest) with |rest| <= 1/2, for x from 0.5 to 20. */
function downToOne(x: number): { product: number; rest: number } {
  let product = 1;
  let at = x;
  while (at > 1.5) {
    at -= 1;
    product *= at;
  }
  return { product, rest: at - 1 };
}
