import {
  cumulativeIncidence,
  incidenceAt,
  occupationAt,
  riskTable,
  stateOccupation,
} from "../../../src/core/survival/index.ts";
import { checkAgainst } from "../../check.ts";
import { generatedLines, uniformFrom } from "../../generated-lines.ts";

interface Stretch {
  readonly entry: number;
  readonly exit: number;
  readonly from: number;
  readonly to: number;
}

/** Lines that block (1) and are cleared (0) by turns until they are out (2) or no longer seen; whole days make ties. */
function blockedAndCleared(seed: number, lines: number): Stretch[] {
  const uniform = uniformFrom(seed);
  return Array.from({ length: lines }).flatMap(() => {
    const stretches: Stretch[] = [];
    let state = uniform() < 0.2 ? 1 : 0;
    let day = uniform() < 0.3 ? Math.floor(uniform() * 5) : 0;
    for (;;) {
      const exit = day + 1 + Math.floor(-Math.log(1 - uniform()) * (state === 0 ? 8 : 3));
      const pick = uniform();
      const to = pick < 0.15 ? state : pick < 0.5 ? 2 : 1 - state;
      stretches.push({ entry: day, exit, from: state, to });
      if (to === 2 || to === state) return stretches;
      [day, state] = [exit, to];
    }
  });
}

const STATES = [0, 1, 2] as const;
const total = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);
const unit = STATES.map((g) => STATES.map((h) => Number(g === h)));
type Table = readonly (readonly number[])[];
const multiply = (a: Table, b: Table): number[][] =>
  STATES.map((g) => STATES.map((h) => total(STATES.map((l) => (a[g]?.[l] as number) * (b[l]?.[h] as number)))));

/** I + dA at one time, by a filter over all stretches. */
const stepAt = (rows: readonly Stretch[], u: number) => {
  const atRisk = (g: number) => rows.filter((row) => row.from === g && row.entry < u && u <= row.exit).length;
  const moved = (g: number, h: number) => rows.filter((row) => row.exit === u && row.from === g && row.to === h).length;
  const share = (g: number, h: number) => (atRisk(g) === 0 ? 0 : moved(g, h) / atRisk(g));
  return {
    count: STATES.map(atRisk),
    table: STATES.map((g) =>
      STATES.map((h) => (g === h ? 1 - total(STATES.filter((l) => l !== g).map((l) => share(g, l))) : share(g, h))),
    ),
  };
};

checkAgainst(
  {
    quantity: "Chances of being blocked, open and out, and their errors",
    unit: "absolute",
    source: "products of the matrices before and after every time, by a filter over all stretches; the delta method",
    kind: "by-hand",
    tolerance: 1e-12,
    comparisons: 3 * 3 * 6 + 3,
  },
  (compare) => {
    for (const seed of [81, 82, 83]) {
      const rows = blockedAndCleared(seed, 30);
      const pick = (of: (row: Stretch) => number) => rows.map(of);
      const curve = stateOccupation(
        { entry: pick((r) => r.entry), exit: pick((r) => r.exit), from: pick((r) => r.from), to: pick((r) => r.to) },
        0,
      );
      const moments = [...new Set(rows.filter((r) => r.from !== r.to).map((r) => r.exit))].sort((a, b) => a - b);
      for (const day of [2, 7, 15]) {
        const past = moments.filter((u) => u <= day);
        const product = (times: readonly number[]) =>
          times.reduce<Table>((p, u) => multiply(p, stepAt(rows, u).table), unit);
        const whole = product(past);
        const { occupation, standardError } = occupationAt(curve, day, 0);
        for (const h of STATES) {
          compare(`state ${h} on day ${day}, seed ${seed}`, occupation[h] as number, whole[0]?.[h] as number);
          const variance = total(
            past.flatMap((u) => {
              const before = product(past.filter((v) => v < u))[0] as readonly number[];
              const after = product(past.filter((v) => v > u));
              const { count, table } = stepAt(rows, u);
              return STATES.filter((g) => (count[g] as number) > 0).flatMap((g) =>
                STATES.flatMap((l) =>
                  STATES.map((m) => {
                    const [a, b] = [table[g]?.[l] as number, table[g]?.[m] as number];
                    const covariance = ((l === m ? a : 0) - a * b) / (count[g] as number);
                    return (
                      (before[g] as number) ** 2 * covariance * (after[l]?.[h] as number) * (after[m]?.[h] as number)
                    );
                  }),
                ),
              );
            }),
          );
          compare(`error of state ${h} on day ${day}, seed ${seed}`, standardError[h] as number, Math.sqrt(variance));
        }
      }
      const last = curve.hazard.slice(-9);
      const sum = total(moments.map((u) => stepAt(rows, u).table[0]?.[1] as number));
      compare(`hazard of blocking, seed ${seed}`, last[1] as number, sum);
    }
  },
);

checkAgainst(
  {
    quantity: "Where no state is left again the chances are the cumulative incidences",
    unit: "absolute",
    source: "Aalen and Johansen 1978: competing ends are the simplest such chain; two programs of ours, two formulas",
    kind: "by-hand",
    tolerance: 1e-12,
    comparisons: 2 * 2 * 3 * 2,
  },
  (compare) => {
    for (const seed of [91, 92]) {
      for (const late of [false, true]) {
        const { entry, exit, end } = generatedLines(seed, 80, { grain: 2, late });
        const came = entry.map((time) => time || -1);
        const curve = stateOccupation({ entry: came, exit, from: exit.map(() => 0), to: end }, 0);
        const incidence = cumulativeIncidence(riskTable({ entry: came, exit, end }));
        const found = occupationAt(curve, 20, 0);
        for (const kind of [1, 2, 3]) {
          const theirs = incidenceAt(incidence, kind, 20, 0.95);
          const place = `kind ${kind}, seed ${seed}, late ${late}`;
          compare(place, found.occupation[kind] as number, theirs.incidence);
          compare(`error, ${place}`, found.standardError[kind] as number, theirs.standardError);
        }
      }
    }
  },
);
