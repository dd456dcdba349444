import { readFileSync } from "node:fs";
import {
  clusterAgainstBaseline,
  countAgainstExpected,
  COUNT_METHODS,
  countLimits,
  mantelHaenszel,
  PROPORTION_METHODS,
  proportionLimits,
  rateRatio,
  standardisedRate,
  type EventsInDays,
} from "../../../src/core/incidence/index.ts";
import { day } from "../../../src/core/quantity/index.ts";
import { checkAgainst } from "../../check.ts";

interface Row {
  readonly kind: string;
  readonly input: readonly number[];
  readonly value: readonly number[];
}

/** Made by incidence-golden.R beside this file. */
const golden = (
  JSON.parse(readFileSync(new URL("incidence-golden.json", import.meta.url), "utf8")) as { rows: readonly Row[] }
).rows;
const of = (kind: string) => golden.filter((row) => row.kind === kind);
const seen = (events: number, days: number): EventsInDays<"exact"> => ({ events, days: day(days), clock: "exact" });

/** Relative error, but never against less than a thousandth: R's own roots stop at 1e-13 absolute. */
const relative = (ours: number, theirs: number) =>
  ours === theirs || (ours === Infinity && theirs === 1e308) ? 0 : (ours - theirs) / Math.max(Math.abs(theirs), 1e-3);

function against(
  quantity: string,
  tolerance: number,
  comparisons: number,
  source: string,
  pairs: () => readonly (readonly [string, number, number])[],
): void {
  checkAgainst({ quantity, unit: "relative", source, kind: "independent", tolerance, comparisons }, (compare) => {
    for (const [place, ours, theirs] of pairs()) compare(place, relative(ours, theirs), 0);
  });
}

const zip = (place: string, ours: readonly number[], theirs: readonly number[]) =>
  theirs.map((value, at) => [`${place}, value ${at + 1}`, ours[at] as number, value] as const);

for (const method of COUNT_METHODS) {
  against(`Limits of a count: ${method}`, method === "mid-P" ? 1e-8 : 1e-11, 72, "R 4.2.2, qchisq, uniroot", () =>
    of(method).flatMap(({ input: [events, level], value }) => {
      const { lower, upper } = countLimits(events as number, level as number, method);
      return zip(`${events} events at ${level}`, [lower, upper], value);
    }),
  );
}

against("Count against an expected number", 1e-11, 24, "R 4.2.2, poisson.test and ppois", () =>
  of("poisson.test").flatMap(({ input: [events, expected], value }) => {
    const ours = countAgainstExpected(events as number, expected as number);
    return zip(
      `${events} of ${expected}`,
      [ours.twoSidedSmallChances, ours.asManyOrMore, ours.asManyOrMoreMidP],
      value,
    );
  }),
);

against("Rate ratio", 1e-7, 42, "R 4.2.2, poisson.test and uniroot", () =>
  of("rateRatio").flatMap(({ input, value }) => {
    const [x, t, y, s] = input as [number, number, number, number];
    const exact = rateRatio(seen(x, t), seen(y, s), 0.95, "exact");
    const midP = rateRatio(seen(x, t), seen(y, s), 0.95, "mid-P");
    if (typeof exact === "string" || typeof midP === "string") throw new Error("no ratio");
    return zip(
      `${x}/${t} v ${y}/${s}`,
      [exact.lower, exact.upper, midP.lower, midP.upper, exact.twoSidedSmallChances, exact.twoSidedMidP],
      value,
    );
  }),
);

against("Limits of a proportion", 1e-8, 56, "R 4.2.2, binom.test, prop.test, qbeta and uniroot", () =>
  of("proportion").flatMap(({ input: [events, number], value }) => {
    const order = [
      "exact",
      "Wilson",
      "Jeffreys",
      "mid-P",
    ] as const satisfies readonly (typeof PROPORTION_METHODS)[number][];
    const ours = order.flatMap((method) => {
      const { lower, upper } = proportionLimits(events as number, number as number, 0.95, method);
      return [lower, upper];
    });
    return zip(`${events} of ${number}`, ours, value);
  }),
);

against("Cluster against a doubtful baseline", 1e-12, 4, "R 4.2.2, binom.test", () =>
  of("cluster").flatMap(({ input, value }) => {
    const [x, t, y, s] = input as [number, number, number, number];
    return zip(`${x}/${t} after ${y}/${s}`, [clusterAgainstBaseline(seen(x, t), seen(y, s)).asManyOrMore], value);
  }),
);

against("Mantel-Haenszel rates", 1e-11, 7, "R 4.2.2, formulas of Greenland and Robins 1985", () =>
  of("doctors").flatMap(({ input, value }) => {
    const strata = [0, 4, 8, 12, 16].map((at) => ({
      first: seen(input[at] as number, input[at + 1] as number),
      second: seen(input[at + 2] as number, input[at + 3] as number),
    }));
    const ours = mantelHaenszel(strata, 0.95);
    if (typeof ours === "string") throw new Error(ours);
    const { ratio, difference } = ours;
    return zip(
      "British doctors",
      [
        ratio.ratio,
        ratio.lower,
        ratio.upper,
        difference.perThousand,
        difference.standardErrorPerThousand,
        ours.chiSquare,
        ours.chance,
      ],
      value,
    );
  }),
);

against("Directly standardised rate", 1e-11, 6, "R 4.2.2, qchisq by Fay and Feuer 1997", () =>
  of("standardised").flatMap(({ input, value }) => {
    const strata = [0, 3, 6, 9, 12].map((at) => ({
      ...seen(input[at] as number, input[at + 1] as number),
      weight: input[at + 2] as number,
    }));
    const { perThousand, lower, upper } = standardisedRate(strata, 0.95);
    return zip("British doctors", [perThousand, lower, upper], value);
  }),
);
