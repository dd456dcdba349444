import { RandomOfR } from "./r-random.ts";

/** Seed of the published scheme. */
const SEED = 20250101;
const MINUTES = 1440;

/** Columns of the simulated lines, in the order of the file. */
export const COLUMNS = [
  "arm_left",
  "french",
  "lumens",
  "ratio",
  "weight",
  "age",
  "cancer",
  "icu",
  "stratum",
  "state",
  "t_min",
  "t_day",
] as const;
export type ColumnName = (typeof COLUMNS)[number];
export type Lines = Readonly<Record<ColumnName, Float64Array>>;

const rounded = (value: number, digits: number) => Math.round(value * 10 ** digits) / 10 ** digits;
const within = (value: number, low: number, high: number) => Math.min(high, Math.max(low, value));

/**
 * Lines with eight covariates and competing ends, whose hazards are known.
 *   infection: exp(log 0.00105 + 0.25 (lumens - 1) + 0.30 cancer + 0.40 icu + 0.10 (french - 4)) a day
 *   thrombosis or occlusion: exp(log 0.0025 + 3 (ratio - 0.35) + 0.15 (french - 4) + 0.20 cancer - 0.10 left arm)
 *   other end: exp(log 0.042 + 0.004 (age - 58) + 0.20 icu - 0.001 (weight - 74)); watched for 0 to 365 days
 * State 0 is still in place, 1 infection, 2 thrombosis or occlusion, 3 other end. Times are whole minutes, in days, and
 * whole days rounded up. Invented lines: they measure speed and digits, and say nothing about patients.
 */
export function simulatedLines(rows: number): Lines {
  const random = new RandomOfR(SEED);
  const column = (draw: () => number) => {
    const values = new Float64Array(rows);
    for (let i = 0; i < rows; i += 1) values[i] = draw();
    return values;
  };
  const armLeft = column(() => random.chance(0.45));
  const french = column(() =>
    random.oneOf([
      [4, 0.45],
      [5, 0.3],
      [3, 0.15],
      [6, 0.1],
    ]),
  );
  const lumens = column(() =>
    random.oneOf([
      [2, 0.45],
      [1, 0.45],
      [3, 0.1],
    ]),
  );
  const ratio = column(() => rounded(within(random.normal(0.35, 0.08), 0.15, 0.7), 3));
  const weight = column(() => rounded(Math.max(random.normal(74, 17), 3), 1));
  const age = column(() => rounded(within(random.normal(58, 18), 0, 99), 0));
  const cancer = column(() => random.chance(0.35));
  const icu = column(() => random.chance(0.2));
  const stratum = column(() =>
    random.oneOf([
      [1, 0.5],
      [2, 0.3],
      [3, 0.2],
    ]),
  );
  const hazard = (i: number): readonly [number, number, number] => {
    const size = (french[i] as number) - 4;
    const ill = cancer[i] as number;
    const intensive = icu[i] as number;
    return [
      Math.exp(Math.log(0.00105) + 0.25 * ((lumens[i] as number) - 1) + 0.3 * ill + 0.4 * intensive + 0.1 * size),
      Math.exp(
        Math.log(0.0025) + 3 * ((ratio[i] as number) - 0.35) + 0.15 * size + 0.2 * ill - 0.1 * (armLeft[i] as number),
      ),
      Math.exp(
        Math.log(0.042) + 0.004 * ((age[i] as number) - 58) + 0.2 * intensive - 0.001 * ((weight[i] as number) - 74),
      ),
    ];
  };
  const exit = new Float64Array(rows);
  for (let i = 0; i < rows; i += 1) {
    const [one, two, three] = hazard(i);
    exit[i] = (1 / (one + two + three)) * random.exponential();
  }
  const state = new Float64Array(rows);
  for (let i = 0; i < rows; i += 1) {
    const [one, two, three] = hazard(i);
    const at = random.uniform() * (one + two + three);
    state[i] = at < one ? 1 : at < one + two ? 2 : 3;
  }
  const tMin = new Float64Array(rows);
  for (let i = 0; i < rows; i += 1) {
    const watched = 365 * random.uniform();
    if ((exit[i] as number) > watched) state[i] = 0;
    tMin[i] = Math.max(1, Math.ceil(Math.min(exit[i] as number, watched) * MINUTES)) / MINUTES;
  }
  return {
    arm_left: armLeft,
    french,
    lumens,
    ratio,
    weight,
    age,
    cancer,
    icu,
    stratum,
    state,
    t_min: tMin,
    t_day: tMin.map((days) => Math.max(1, Math.ceil(days))),
  };
}

/** The file as R writes it: fifteen digits, names in quotation marks. */
export function* linesAsText(lines: Lines): Generator<string> {
  yield `${COLUMNS.map((name) => `"${name}"`).join(",")}\n`;
  const columns = COLUMNS.map((name) => lines[name]);
  for (let i = 0; i < lines.state.length; i += 1) {
    yield `${columns.map((values) => String(Number((values[i] as number).toPrecision(15)))).join(",")}\n`;
  }
}
