import { readFileSync } from "node:fs";
import { type CoxFit, coxRegression } from "../../../src/core/regression/index.ts";
import { checkAgainst } from "../../check.ts";
import { column, complete, dataset } from "../../data/dataset.ts";

/** Made by uno-golden.R beside this file: share and error. */
const golden = JSON.parse(readFileSync(new URL("uno-golden.json", import.meta.url), "utf8")) as Readonly<
  Record<string, readonly [number, number]>
>;

function fitOf(name: string, factors: readonly string[], died: number, cluster?: string): CoxFit {
  const rows = complete(dataset(name), factors);
  return coxRegression({
    exit: column(rows, "time"),
    event: column(rows, "status").map((status) => Number(status === died)),
    covariates: factors.map((factor) => ({ name: factor, values: column(rows, factor) })),
    ...(cluster === undefined ? {} : { cluster: column(rows, cluster) }),
  }) as CoxFit;
}

checkAgainst(
  {
    quantity: "Uno's concordance and its error, to the end and to a horizon",
    unit: "absolute",
    source: "R 4.2.2, survival 3.5-3, concordance with timewt n/G2 (uno-golden.R)",
    kind: "independent",
    tolerance: 1e-10,
    comparisons: 10,
  },
  (compare) => {
    const veteran = fitOf("survival_veteran", ["karno", "age"], 1);
    const lung = fitOf("survival_lung", ["age", "sex", "ph.ecog"], 2);
    const catheters = fitOf("survival_kidney", ["age", "sex"], 1, "id");
    for (const [name, found] of [
      ["veteran", veteran.unoConcordance()],
      ["veteran to 200 days", veteran.unoConcordance(200)],
      ["lung", lung.unoConcordance()],
      ["lung to a year", lung.unoConcordance(365)],
      ["catheters by patient", catheters.unoConcordance()],
    ] as const) {
      const [share, error] = golden[name] as readonly [number, number];
      compare(name, found?.concordance as number, share);
      compare(`${name}, error`, found?.standardError as number, error);
    }
  },
);
