import { readFileSync } from "node:fs";
import {
  chiSquareQuantile,
  fRatioTail,
  negativeBinomialAtMost,
  negativeBinomialQuantile,
  poissonSignalCount,
  studentQuantile,
} from "../../../src/core/distribution/index.ts";
import { checkAgainst } from "../../check.ts";

/** Made by distribution-r-golden.R beside this file. */
const { rows } = JSON.parse(readFileSync(new URL("distribution-r-golden.json", import.meta.url), "utf8")) as {
  readonly rows: readonly { readonly kind: string; readonly input: readonly number[]; readonly value: number }[];
};

function against(
  kind: string,
  quantity: string,
  comparisons: number,
  tolerance: number,
  ours: (input: number[]) => number,
): void {
  const check = {
    quantity,
    unit: "relative",
    source: `R 4.2.2, ${kind}`,
    kind: "independent",
    relative: true,
  } as const;
  checkAgainst({ ...check, tolerance, comparisons }, (compare) => {
    for (const row of rows.filter((row) => row.kind === kind))
      compare(row.input.join(", "), ours([...row.input]), row.value);
  });
}

const three = (input: number[]) => input as [number, number, number];

against("chiSquareQuantile", "Chi-square quantile", 30, 1e-12, ([p, df]) =>
  chiSquareQuantile("lower", p as number, df as number),
);
against("studentQuantile", "Student t quantile", 18, 1e-11, ([p, df]) =>
  studentQuantile("lower", p as number, df as number),
);
against("fTail", "F lower tail", 12, 1e-11, (input) => {
  const [f, above, below] = three(input);
  return fRatioTail("lower", f, above, below);
});
against("negativeBinomialAtMost", "Negative binomial lower tail", 12, 1e-12, (input) =>
  negativeBinomialAtMost(...three(input)),
);

// A whole number agrees or does not, so nothing is tolerated.
against("poissonSignalCount", "First count that is a signal", 24, 0, ([p, mean]) =>
  poissonSignalCount(mean as number, p as number),
);
checkAgainst(
  {
    quantity: "Negative binomial quantile",
    unit: "count",
    source: "R 4.2.2, qnbinom",
    kind: "independent",
    tolerance: 0,
    comparisons: 18,
  },
  (compare) => {
    for (const { kind, input, value } of rows)
      if (kind === "negativeBinomialQuantile")
        compare(input.join(", "), negativeBinomialQuantile(...three([...input])), value);
  },
);
