import {
  kilogramPerCubicMetre,
  millipascalSecond,
  type Celsius,
  type KilogramPerCubicMetre,
  type MillipascalSecond,
} from "../../quantity/index.ts";

/**
 * Density of water at one atmosphere.
 *   rho = (a0 + a1 t + ... + a5 t^5) / (1 + b t)
 * Holds: 0 to 100 C, else RangeError. Source: Kell GS 1975, J Chem Eng Data 20:97 (coefficients from memory).
 * Example: 22 C: 997.77 kg/m3.
 */
export function waterDensity(temperature: Celsius): KilogramPerCubicMetre {
  requireTemperature(temperature);
  const t = temperature;
  const rise = t * (16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12))));
  return kilogramPerCubicMetre((999.83952 + rise) / (1 + 16.87985e-3 * t));
}

/** H(i, j) of IAPWS 2008, table 2: power of 1/T - 1, power of rho - 1, coefficient. */
const H: readonly (readonly [i: number, j: number, coefficient: number])[] = [
  [0, 0, 0.520094],
  [1, 0, 0.0850895],
  [2, 0, -1.08374],
  [3, 0, -0.289555],
  [0, 1, 0.222531],
  [1, 1, 0.999115],
  [2, 1, 1.88797],
  [3, 1, 1.26613],
  [5, 1, 0.120573],
  [0, 2, -0.281378],
  [1, 2, -0.906851],
  [2, 2, -0.772479],
  [3, 2, -0.489837],
  [4, 2, -0.25704],
  [0, 3, 0.161913],
  [1, 3, 0.257399],
  [0, 4, -0.0325372],
  [3, 4, 0.0698452],
  [4, 5, 0.00872102],
  [3, 6, -0.00435673],
  [5, 6, -0.000593264],
];

/** Viscosity of water by the international formulation, at a temperature and density. */
export function waterViscosityAt(temperature: Celsius, density: KilogramPerCubicMetre): MillipascalSecond {
  requireTemperature(temperature);
  const t = (temperature + 273.15) / 647.096;
  const d = density / 322;
  const dilute = (100 * Math.sqrt(t)) / (1.67752 + 2.20462 / t + 0.6366564 / t ** 2 - 0.241605 / t ** 3);
  let dense = 0;
  for (const [i, j, coefficient] of H) dense += coefficient * (1 / t - 1) ** i * (d - 1) ** j;
  return millipascalSecond(dilute * Math.exp(d * dense) * 1e-3);
}

/**
 * Viscosity of water at one atmosphere.
 *   mu = mu0(T) exp(rho SUM H(i, j) (1/T - 1)^i (rho - 1)^j), T and rho over 647.096 K and 322 kg/m3
 * Holds: 0 to 100 C, else RangeError; within 1 per cent of the truth, far nearer to 40 C.
 * Source: IAPWS R12-08, 2008, equations 10 to 12, without the critical term. Example: 22 C: 0.9544 mPa.s.
 */
export const waterViscosity = (temperature: Celsius): MillipascalSecond =>
  waterViscosityAt(temperature, waterDensity(temperature));

function requireTemperature(temperature: Celsius): void {
  if (!(temperature >= 0 && temperature <= 100))
    throw new RangeError(`The temperature is ${temperature} C; the formula for water holds from 0 to 100 C.`);
}
