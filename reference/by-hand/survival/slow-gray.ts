/** Gray's test of any number of groups, from its definition: lines that are alike are counted once, with their number. */
import { slowInverse } from "../regression/slow-likelihood.ts";

export interface AlikeLines {
  readonly group: number;
  readonly exit: number;
  readonly end: number;
  readonly lines: number;
}

const total = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);
const count = (rows: readonly AlikeLines[]): number => total(rows.map((row) => row.lines));
const product = (values: readonly number[]): number => values.reduce((a, b) => a * b, 1);

/**
 * z' V^-1 z over all groups but the last.
 *   score of group i: sum over u of (1 - F0(u-))^rho (d_1i - d_1 R_i / R), R_i = n_i (1 - F_i(u-)) / S_i(u-)
 *   V: the outer products of what one end in group r at u does to all scores, for as many as are expected there; it
 *   moves them at once, by a_ir(u), and from then on through the pooled curve, by what is left of the compensator
 * `times` multiplies the events by the lines at risk; a program that holds whole numbers in 32 bits wraps it round.
 * Source: Gray RJ 1988, Ann Stat 16:1141, sections 2 and 3; ties as its author's program thins them.
 */
export function slowGrayGroups(
  rows: readonly AlikeLines[],
  kind: number,
  rho = 0,
  times: (events: number, atRisk: number) => number = (events, atRisk) => events * atRisk,
): number {
  const groups = [...new Set(rows.map((row) => row.group))].sort((a, b) => a - b);
  const own = (g: number) => rows.filter((row) => row.group === groups[g]);
  const every = groups.map((_, g) => g);
  const moments = [...new Set(rows.filter((row) => row.end > 0).map((row) => row.exit))].sort((a, b) => a - b);
  const atRisk = (g: number, u: number) => count(own(g).filter((row) => row.exit >= u));
  const ended = (g: number, u: number) => count(own(g).filter((row) => row.exit === u && row.end > 0));
  const ofKind = (g: number, u: number) => count(own(g).filter((row) => row.exit === u && row.end === kind));
  const survival = (g: number, to: readonly number[]) =>
    product(to.filter((u) => atRisk(g, u) > 0).map((u) => 1 - ended(g, u) / atRisk(g, u)));
  const incidence = (g: number, to: readonly number[]) =>
    total(
      to
        .filter((u) => atRisk(g, u) > 0)
        .map(
          (u) =>
            (survival(
              g,
              to.filter((v) => v < u),
            ) *
              ofKind(g, u)) /
            atRisk(g, u),
        ),
    );
  // h_g = n_g / S_g, their sum, and the pooled curve whose steps are the events over that sum
  const facts = moments.map((u) => {
    const before = moments.filter((v) => v < u);
    const h = every.map((g) => (atRisk(g, u) > 0 ? atRisk(g, u) / survival(g, before) : 0));
    const events = total(every.map((g) => ofKind(g, u)));
    return { u, before, h, all: total(h), events };
  });
  const pooled = (u: number, including: boolean) =>
    total(facts.filter((f) => (including ? f.u <= u : f.u < u)).map((f) => f.events / f.all));
  const score = every.map((i) =>
    total(
      facts.map(({ u, before, h, events }) => {
        if ((h[i] as number) === 0) return 0;
        const reached = (g: number) => 1 - incidence(g, before);
        const share = total(every.map((g) => (h[g] as number) * reached(g)));
        const expected = (times(events, atRisk(i, u)) * reached(i)) / (survival(i, before) * share);
        return (1 - pooled(u, false)) ** rho * (ofKind(i, u) - expected);
      }),
    ),
  );
  const direct = ({ u, h, all }: (typeof facts)[number], i: number, r: number) =>
    (1 - pooled(u, false)) ** rho * (h[i] as number) * ((i === r ? 1 : 0) - (h[r] as number) / all);
  const hazard = ({ u, all, events }: (typeof facts)[number]) => events / (all * (1 - pooled(u, false)));
  const toCome = (u: number, i: number, r: number) =>
    total(facts.filter((f) => f.u > u).map((f) => direct(f, i, r) * hazard(f)));
  const effects = facts.flatMap((fact) =>
    every.flatMap((r) => {
      const { u, before, all, events } = fact;
      const n = atRisk(r, u);
      if (n === 0) return [];
      const left = survival(r, before);
      const rest = survival(r, [...before, u]);
      const subdistribution = 1 - pooled(u, true);
      const reach = rest > 0 ? 1 - subdistribution / rest : 1;
      const others = ended(r, u) - ofKind(r, u);
      const thinned = events > 1 ? 1 - (events - 1) / (all * left - 1) : 1;
      return [
        {
          expected: events > 0 ? (thinned * left * events) / (all * n) : 0,
          moves: every.map((i) => direct(fact, i, r) + reach * toCome(u, i, r)),
        },
        {
          expected: rest > 0 ? ((others > 1 ? 1 - (others - 1) / (n - 1) : 1) * left ** 2 * others) / n ** 2 : 0,
          moves: every.map((i) => (rest > 0 ? (-subdistribution / rest) * toCome(u, i, r) : 0)),
        },
      ];
    }),
  );
  const kept = every.slice(0, -1);
  const variance = kept.map((i) =>
    kept.map((j) =>
      total(effects.map(({ expected, moves }) => expected * (moves[i] as number) * (moves[j] as number))),
    ),
  );
  const inverse = slowInverse(variance);
  return total(
    kept.flatMap((i) => kept.map((j) => (score[i] as number) * (inverse[i]?.[j] as number) * (score[j] as number))),
  );
}
