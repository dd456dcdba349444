import { chiSquareTail } from "../../../src/core/distribution/index.ts";
import {
  type CountFit,
  coxRegression,
  designEffect,
  firthCox,
  firthLogistic,
  fineGray,
  negativeBinomialRegression,
  poissonRegression,
} from "../../../src/core/regression/index.ts";
import { checkAgainst } from "../../check.ts";
import { column, complete, dataset, indicator } from "../../data/dataset.ts";
import { covariates, daysAbsent, fitted, flags } from "./fitted.ts";

checkAgainst(
  {
    quantity: "Proportional hazards: a term of several columns, all together, and curves that cross",
    unit: "relative",
    source: "R 4.2.2, survival 3.5-3, cox.zph on Kaplan-Meier time, veteran and exit sites",
    kind: "independent",
    tolerance: 1e-6,
    relative: true,
    comparisons: 6,
  },
  (compare) => {
    const veteran = dataset("survival_veteran");
    const kinds = ["smallcell", "adeno", "large"];
    const fit = fitted(
      coxRegression({
        exit: column(veteran, "time"),
        event: column(veteran, "status"),
        covariates: [
          ...covariates(veteran, ["trt"]),
          ...flags(veteran, "celltype", kinds),
          ...covariates(veteran, ["karno", "diagtime", "age", "prior"]),
        ],
      }),
    );
    const cell = kinds.map((kind) => `celltype ${kind}`);
    const test = fit.proportional?.("kaplan-meier", [["trt"], cell, ["karno"], ["diagtime"], ["age"], ["prior"]]);
    compare("cell type", test?.terms[1]?.statistic as number, 15.2273639);
    compare("Karnofsky", test?.terms[2]?.statistic as number, 12.9351978);
    const all = test?.all as { statistic: number; degreesOfFreedom: number };
    compare("all together", all.statistic, 34.5524911);
    compare("its chance", chiSquareTail("upper", all.statistic, all.degreesOfFreedom), 3.22519349e-5);
    const site = dataset("KMsurv_kidney");
    const way = fitted(
      coxRegression({
        exit: column(site, "time"),
        event: column(site, "delta"),
        covariates: flags(site, "type", ["2"]),
      }),
    ).proportional?.().all;
    compare("exit sites", way?.statistic as number, 8.61649925);
    compare("exit sites, chance", chiSquareTail("upper", way?.statistic as number, 1), 0.0033313148);
  },
);

checkAgainst(
  {
    quantity: "Poisson regression of ships' damage: dispersion, wider errors, tests of whole factors",
    unit: "relative",
    source: "R 4.2.2, glm at its usual stop, whose errors are one step behind; McCullagh and Nelder 1989, 6.3.2",
    kind: "independent",
    tolerance: 2e-5,
    relative: true,
    comparisons: 8,
  },
  (compare) => {
    const ships = dataset("MASS_ships").filter((row) => Number(row["service"]) > 0);
    const factors = {
      type: flags(ships, "type", ["B", "C", "D", "E"]),
      year: flags(ships, "year", ["65", "70", "75"]),
      period: flags(ships, "period", ["75"]),
    };
    const fit = (...names: (keyof typeof factors)[]) =>
      fitted(
        poissonRegression({
          count: column(ships, "incidents"),
          exposure: column(ships, "service"),
          covariates: names.flatMap((name) => factors[name]),
        }),
      );
    const all = fit("type", "year", "period");
    compare("deviance", all.deviance, 38.6950515);
    compare("Pearson", all.pearson, 42.2752531);
    compare("dispersion", all.dispersion, 1.69101012);
    const c = all.coefficients.find(({ name }) => name === "type C")?.standardError as number;
    compare("error of C", c, 0.329044163);
    compare("quasi-Poisson error of C", c * Math.sqrt(all.dispersion), 0.427887449);
    const lost = (without: CountFit) => 2 * (all.logLikelihood - without.logLikelihood);
    compare("type", lost(fit("year", "period")), 23.6702892);
    compare("year", lost(fit("type", "period")), 31.4078925);
    compare("period", lost(fit("type", "year")), 10.6601387);
  },
);

checkAgainst(
  {
    quantity: "Rates of dialysis catheters, two a patient: errors that forget the patient and errors that do not",
    unit: "relative",
    source: "R 4.2.2, glm and the sandwich by patient (HC0; HC1 with n / (n - 1) and (N - 1) / (N - p))",
    kind: "independent",
    tolerance: 1e-6,
    relative: true,
    comparisons: 6,
  },
  (compare) => {
    const kidney = dataset("survival_kidney");
    const input = {
      count: column(kidney, "status"),
      exposure: column(kidney, "time"),
      cluster: column(kidney, "id"),
    };
    const none = fitted(poissonRegression({ ...input, covariates: [] }));
    compare("crude rate", Math.exp(none.coefficients[0]?.value as number), 0.00750906266);
    compare("58 in 7724", Math.exp(none.coefficients[0]?.value as number), 58 / 7724);
    const fit = fitted(poissonRegression({ ...input, covariates: covariates(kidney, ["age", "sex"]) }));
    const sex = fit.coefficients[2] as CountFit["coefficients"][number];
    compare("sex", sex.value, -0.884997983);
    compare("error", sex.standardError, 0.287606084);
    compare("by patient", sex.robustError as number, 0.560153885);
    compare("by patient, HC1", (sex.robustError as number) * Math.sqrt((38 / 37) * (75 / 73)), 0.575396864);
  },
);

checkAgainst(
  {
    quantity:
      "Negative binomial regression of days absent: intercept; Firth where a covariate tells the outcome: chance",
    unit: "relative",
    source: "R 4.2.2, MASS 7.3-58.2, quine; Heinze and Schemper 2002, endometrial cancer",
    kind: "independent",
    tolerance: 1e-5,
    relative: true,
    comparisons: 2,
  },
  (compare) => {
    const fit = fitted(negativeBinomialRegression(daysAbsent(dataset("MASS_quine"))));
    compare("intercept", fit.coefficients[0]?.value as number, 2.89458002);
    const rows = dataset("brglm2_endometrial");
    const firth = fitted(
      firthLogistic({ count: column(rows, "HG"), covariates: covariates(rows, ["NV", "PI", "EH"]) }),
    );
    compare("NV", chiSquareTail("upper", firth.profile("NV", 0.95).statistic, 1), 0.00912366755);
  },
);

checkAgainst(
  {
    quantity: "Firth's Cox regression of veteran",
    unit: "relative",
    source: "coxphf 1.13.4 as printed, and a maximiser in R 4.2.2",
    kind: "independent",
    tolerance: 1e-6,
    relative: true,
    comparisons: 3,
  },
  (compare) => {
    const veteran = dataset("survival_veteran");
    const fit = fitted(
      firthCox({
        exit: column(veteran, "time"),
        event: column(veteran, "status"),
        covariates: covariates(veteran, ["karno", "trt", "age"]),
      }),
    );
    for (const [j, value] of [-0.0342674681, 0.186151711, -0.00394954102].entries()) {
      compare(`b ${j}`, fit.coefficients[j]?.value as number, value);
    }
  },
);

checkAgainst(
  {
    quantity: "Age raises the hazard and lowers the incidence: both are shown",
    unit: "relative",
    source: "R 4.2.2, survival 3.5-3 and cmprsk 2.2-11 at their usual stops, mgus2 and melanoma",
    kind: "independent",
    tolerance: 1e-5,
    relative: true,
    comparisons: 6 + 6 + 1,
  },
  (compare) => {
    const mgus = complete(dataset("survival_mgus2"), ["mspike"]);
    const exit = mgus.map((row) => Number(row["pstat"] === "1" ? row["ptime"] : row["futime"]));
    const end = mgus.map((row) => (row["pstat"] === "1" ? 1 : row["death"] === "1" ? 2 : 0));
    const three = [
      ...covariates(mgus, ["age"]),
      { name: "male", values: indicator(mgus, "sex", "M") },
      ...covariates(mgus, ["mspike"]),
    ];
    const hazard = fitted(
      coxRegression({ exit, event: end.map((kind) => Number(kind === 1)), covariates: three }, "breslow"),
    );
    const incidence = fitted(fineGray({ exit, end, covariates: three }, 1));
    for (const [j, value] of [0.0163469187, -0.00498770021, 0.88395691].entries()) {
      compare(`hazard ${j}`, hazard.coefficients[j]?.value as number, value);
    }
    for (const [j, value] of [-0.0169425281, -0.213616037, 0.888464126].entries()) {
      compare(`incidence ${j}`, incidence.coefficients[j]?.value as number, value);
    }
    compare("log likelihood with monthly ties", incidence.logLikelihood, -774.032495);
    const melanoma = dataset("boot_melanoma");
    const fit = fitted(
      fineGray(
        {
          exit: column(melanoma, "time"),
          end: column(melanoma, "status").map((status) => (status === 2 ? 0 : status === 1 ? 1 : 2)),
          covariates: [
            ...covariates(melanoma, ["sex", "ulcer"]),
            { name: "log thickness", values: column(melanoma, "thickness").map(Math.log) },
          ],
        },
        1,
      ),
    );
    for (const [j, [value, error]] of (
      [
        [0.352553887, 0.280179333],
        [0.912541239, 0.312020089],
        [0.5147734, 0.166135706],
      ] as const
    ).entries()) {
      compare(`melanoma ${j}`, fit.coefficients[j]?.value as number, value);
      compare(`melanoma error ${j}`, fit.coefficients[j]?.standardError as number, error);
    }
  },
);

checkAgainst(
  {
    quantity: "Design effect of lines that share a patient",
    unit: "absolute",
    source: "by hand: 1.4 lines a patient, variation 0.6, correlation 0.2; Eldridge and others 2006 (from memory)",
    kind: "by-hand",
    tolerance: 1e-12,
    comparisons: 2,
  },
  (compare) => {
    compare("as printed", designEffect(1.4, 0.6, 0.2), 1.1808);
    compare("one line each", designEffect(1, 0, 0.2), 1);
  },
);
