/**
 * Trigamma, the second derivative of ln Gamma.
 *   psi1(x) = SUM(n>=0) 1/(x + n)^2, raised by psi1(x) = 1/x^2 + psi1(x + 1), then Stirling's series
 * Holds: x > 0; relative error below 1e-15. Source: Abramowitz M, Stegun IA 1964, 6.4.6 and 6.4.12.
 * Example: trigamma(1) = pi^2/6.
 */
export function trigamma(x: number): number {
  let raised = x;
  let sum = 0;
  while (raised < RAISE_TO) {
    sum += 1 / (raised * raised);
    raised += 1;
  }
  const y = 1 / (raised * raised);
  const bernoulli = 1 / 6 - y * (1 / 30 - y * (1 / 42 - y * (1 / 30 - y * (5 / 66 - y * (691 / 2730 - (y * 7) / 6)))));
  return sum + (1 + y * bernoulli) / raised + y / 2;
}

/** From here up seven Bernoulli terms reach full double precision. */
const RAISE_TO = 12;
