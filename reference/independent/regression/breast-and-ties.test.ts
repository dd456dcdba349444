import { coxRegression, type Coefficient, firthCox } from "../../../src/core/regression/index.ts";
import { checkAgainst } from "../../check.ts";
import { column, dataset } from "../../data/dataset.ts";

const breast = dataset("coxphf_breast");
const women = {
  exit: column(breast, "TIME"),
  event: column(breast, "CENS"),
  covariates: ["T", "N", "G", "CD"].map((name) => ({ name, values: column(breast, name) })),
};

checkAgainst(
  {
    quantity: "Firth's Cox regression of the published example of a likelihood without a top",
    unit: "absolute",
    source: "Heinze and Schemper 2001, breast cancer: coxphf 1.13.4 and a maximiser in R 4.2.2",
    kind: "independent",
    tolerance: 6e-7,
    comparisons: 14,
  },
  (compare) => {
    const fit = firthCox(women);
    if (fit.kind !== "fitted") return; // then the count of comparisons fails
    const b = fit.coefficients as Coefficient[];
    for (const [j, value] of [1.22443881, 0.918888196, 2.42441414, 0.397118099].entries())
      compare(`b ${j}, coxphf`, b[j]?.value as number, value);
    for (const [j, value] of [1.22443882, 0.918888126, 2.42441396, 0.39711814].entries())
      compare(`b ${j}, maximiser`, b[j]?.value as number, value);
    for (const [j, error] of [0.491604, 0.422573, 1.473546, 0.441855].entries())
      compare(`error ${j}`, b[j]?.standardError as number, error);
    compare("penalised log likelihood", fit.logLikelihood, -92.3524189);
    compare("the plain likelihood runs off", Number(coxRegression(women).kind === "separated"), 1);
  },
);

checkAgainst(
  {
    quantity: "Cox of Kalbfleisch and Prentice's lung trial at R's own stopping rule",
    unit: "absolute",
    source: "R 4.2.2, survival 3.5-3, coxph as it comes; Nelder and Mead for Firth's three",
    kind: "independent",
    tolerance: 7e-8, // Nelder and Mead stopped that short of the top; coxphf has 0.186151711
    comparisons: 23,
  },
  (compare) => {
    const rows = dataset("survival_veteran");
    const small = ["smallcell", "adeno", "large"].map((name) => ({
      name,
      values: rows.map((row) => (row["celltype"] === name ? 1 : 0)),
    }));
    const named = (names: readonly string[]) => names.map((name) => ({ name, values: column(rows, name) }));
    const times = { exit: column(rows, "time"), event: column(rows, "status") };
    const eight = {
      ...times,
      covariates: [...named(["trt"]), ...small, ...named(["karno", "diagtime", "age", "prior"])],
    };
    const printed = {
      breslow: [
        0.289935879, 0.856486654, 1.18829931, 0.399627779, -0.0326217185, -9.20017173e-5, -0.00854942361, 0.00723265367,
        -505.883956, -475.179399,
      ],
      efron: [
        0.294602822, 0.861560463, 1.19606637, 0.401291654, -0.0328153262, 8.1320513e-5, -0.00870647495, 0.00715936019,
        -505.449055, -474.397112,
      ],
    } as const;
    for (const ties of ["breslow", "efron"] as const) {
      const fit = coxRegression(eight, ties);
      if (fit.kind !== "fitted") continue;
      // likelihoods are printed to six decimals, the others to nine digits
      const scale = (value: number) => (Math.abs(value) > 100 ? value / 10 : value);
      const ours = [...fit.coefficients.map(({ value }) => value), fit.logLikelihoodAtZero, fit.logLikelihood];
      for (const [k, value] of printed[ties].entries()) compare(`${ties} ${k}`, scale(ours[k] as number), scale(value));
    }
    const firth = firthCox({ ...times, covariates: named(["karno", "trt", "age"]) });
    if (firth.kind !== "fitted") return;
    for (const [j, value] of [-0.0342674681, 0.186151651, -0.00394954228].entries())
      compare(`Firth ${j}`, firth.coefficients[j]?.value as number, value);
  },
);
