import {
  type Coefficient,
  type CoefficientTest,
  coxRegression,
  eventsForPower,
  firthCox,
  firthLogistic,
  firthPoisson,
  peopleForPrediction,
  poissonRegression,
} from "../../../src/core/regression/index.ts";
import { checkAgainst } from "../../check.ts";
import { column, dataset } from "../../data/dataset.ts";
import { freireich } from "./fitted.ts";

interface Fit {
  readonly kind: string;
  readonly coefficients: readonly Coefficient[];
  readonly logLikelihood: number;
  readonly profile: (name: string, level: number) => CoefficientTest;
}
const fitted = (fit: { readonly kind: string }): Fit => fit as Fit;

const trial = freireich(dataset("MASS_gehan"));

checkAgainst(
  {
    quantity: "Cox of Freireich's trial: coefficient, error, likelihoods, score, profile limits",
    unit: "relative",
    source: "R 4.2.2, survival 3.5-3; printed 1.509, 1.572, 1.628 (from memory)",
    kind: "independent",
    tolerance: 1e-7,
    relative: true,
    comparisons: 17,
  },
  (compare) => {
    const printed = {
      breslow: [1.50919141, 0.409564406, -93.9850505, -86.3796221, 15.9305396],
      efron: [1.57212515, 0.412396718, -93.18427, -85.0084246, 17.2465368],
      exact: [1.62824395, 0.433131296, -82.6692793, -74.5431012, 16.792941],
    } as const;
    for (const ties of ["breslow", "efron", "exact"] as const) {
      const fit = coxRegression(trial, ties);
      if (fit.kind !== "fitted") continue; // then the count of comparisons fails
      const [c] = fit.coefficients as [Coefficient];
      const ours = [c.value, c.standardError, fit.logLikelihoodAtZero, fit.logLikelihood, fit.scoreTest as number];
      for (const [k, value] of printed[ties].entries()) compare(`${ties} ${k}`, ours[k] as number, value);
    }
    const limits = fitted(coxRegression(trial)).profile("control", 0.95);
    compare("Efron, profile low", limits.low, 0.79505937);
    compare("Efron, profile high", limits.high, 2.43083311);
  },
);

checkAgainst(
  {
    quantity: "Firth's logistic regression with profile limits",
    unit: "relative",
    source: "Heinze and Schemper 2002, endometrial cancer: brglm2 0.9 and profile limits by R's uniroot",
    kind: "independent",
    tolerance: 1e-6,
    relative: true,
    comparisons: 17,
  },
  (compare) => {
    const rows = dataset("brglm2_endometrial");
    const covariates = ["NV", "PI", "EH"].map((name) => ({ name, values: column(rows, name) }));
    const fit = fitted(firthLogistic({ count: column(rows, "HG"), covariates }));
    const theirs = [
      [3.77455971, 1.48869166],
      [2.92927335, 1.55076373],
      [-0.0347517599, 0.0395781473],
      [-2.60416393, 0.776017643],
    ] as const;
    for (const [j, [value, error]] of theirs.entries()) {
      compare(`b ${j}`, fit.coefficients[j]?.value as number, value);
      compare(`error ${j}`, fit.coefficients[j]?.standardError as number, error);
    }
    compare("penalised log likelihood", fit.logLikelihood, -24.0372678);
    const limits = [
      ["NV", 0.609724436, 7.85463171],
      ["PI", -0.124458721, 0.0404554732],
      ["EH", -4.36518325, -1.23272106],
    ] as const;
    for (const [name, low, high] of limits) {
      compare(`${name} low`, fit.profile(name, 0.95).low, low);
      compare(`${name} high`, fit.profile(name, 0.95).high, high);
    }
    compare("NV, chi-square", fit.profile("NV", 0.95).statistic, 6.79845725);
    // half added to each cell of ((2, 2), (1, 3)): ln(2.5 x 3.5 / (2.5 x 1.5))
    const table = firthLogistic({
      count: [1, 1, 0, 0, 1, 0, 0, 0],
      covariates: [{ name: "x", values: [1, 1, 1, 1, 0, 0, 0, 0] }],
    });
    compare("two by two, half added", fitted(table).coefficients[1]?.value as number, Math.log(3.5 / 1.5));
  },
);

checkAgainst(
  {
    quantity: "Firth's Poisson regression",
    unit: "relative",
    source: "Firth 1993: one group at a time it is (x + 1/2) / T, by hand",
    kind: "by-hand",
    tolerance: 1e-9,
    relative: true,
    comparisons: 4,
  },
  (compare) => {
    const covariates = [
      { name: "b", values: [0, 1, 0] },
      { name: "c", values: [0, 0, 1] },
    ];
    const fit = fitted(firthPoisson({ count: [8, 0, 3], exposure: [1030, 365, 885], covariates }));
    const [first, second, third] = fit.coefficients.map(({ value }) => value) as [number, number, number];
    compare("8 in 1030", Math.exp(first), 8.5 / 1030);
    compare("0 in 365", Math.exp(first + second), 0.5 / 365);
    compare("3 in 885", Math.exp(first + third), 3.5 / 885);
    const none = fitted(firthPoisson({ count: [0, 0], exposure: [200, 300], covariates: [] }));
    compare("0 in 500", Math.exp(none.coefficients[0]?.value as number), 0.5 / 500);
  },
);

const monotone = {
  exit: [2, 4, 5, 7, 9, 12, 15, 18, 20, 25],
  event: [1, 1, 1, 0, 1, 0, 0, 0, 0, 0],
  covariates: [{ name: "x", values: [1, 1, 1, 1, 1, 0, 0, 0, 0, 0] }],
};

checkAgainst(
  {
    quantity: "Firth's Cox regression with profile limits",
    unit: "relative",
    source: "coxphf 1.13.4 on three data sets; Efron, penalised likelihood and ratio by R's optimize on coxph",
    kind: "independent",
    tolerance: 1e-7,
    relative: true,
    comparisons: 11,
  },
  (compare) => {
    const breslow = fitted(firthCox(trial));
    compare("Freireich", breslow.coefficients[0]?.value as number, 1.47933828);
    compare("Freireich, penalised log likelihood", breslow.logLikelihood, -85.4842048);
    compare("Freireich, Efron", fitted(firthCox(trial, "efron")).coefficients[0]?.value as number, 1.54173936);
    const veteran = dataset("survival_veteran");
    const three = fitted(
      firthCox({
        exit: column(veteran, "time"),
        event: column(veteran, "status"),
        covariates: ["karno", "trt", "age"].map((name) => ({ name, values: column(veteran, name) })),
      }),
    );
    for (const [j, value] of [-0.0342674681, 0.186151711, -0.00394954102].entries()) {
      compare(`veteran ${j}`, three.coefficients[j]?.value as number, value);
    }
    const alone = fitted(firthCox(monotone));
    const test = alone.profile("x", 0.95);
    compare("monotone", alone.coefficients[0]?.value as number, 3.02539433);
    compare("monotone, low", test.low, 0.646092037);
    compare("monotone, high", test.high, 7.94898024);
    compare("monotone, likelihood ratio", test.statistic, 6.76409958);
    compare("the plain likelihood runs off", coxRegression(monotone).kind === "separated" ? 1 : 0, 1);
  },
);

checkAgainst(
  {
    quantity: "Profile limits of a rate ratio",
    unit: "relative",
    source: "R 4.2.2, MASS profile, British doctors of Doll and Hill (Breslow 1985, figures from print)",
    kind: "independent",
    tolerance: 1e-5,
    relative: true,
    comparisons: 4,
  },
  (compare) => {
    // deaths and person-years of non-smokers, then of smokers, by ten years of age from 35
    const count = [2, 12, 28, 28, 31, 32, 104, 206, 186, 102];
    const exposure = [18790, 10673, 5710, 2585, 1462, 52407, 43248, 28612, 12663, 5317];
    const covariates = [
      { name: "smoker", values: count.map((_, i) => (i < 5 ? 0 : 1)) },
      ...[1, 2, 3, 4].map((band) => ({ name: `band ${band}`, values: count.map((_, i) => (i % 5 === band ? 1 : 0)) })),
    ];
    const fit = fitted(poissonRegression({ count, exposure, covariates }));
    compare("smoking", fit.coefficients[1]?.value as number, 0.354535637);
    compare("smoking, error", fit.coefficients[1]?.standardError as number, 0.107374044);
    compare("low", Math.exp(fit.profile("smoker", 0.95).low), 1.16087844);
    compare("high", Math.exp(fit.profile("smoker", 0.95).high), 1.76920335);
  },
);

checkAgainst(
  {
    quantity: "Events for a comparison and people for a prediction",
    unit: "relative",
    source: "Schoenfeld 1983 and Riley and others 2019, evaluated in R 4.2.2",
    kind: "independent",
    tolerance: 1e-6,
    relative: true,
    comparisons: 6,
  },
  (compare) => {
    const asked = { level: 0.95, power: 0.8 };
    compare("ratio 2", eventsForPower({ ratio: 2, share: 0.5, ...asked }), 65.3456593);
    compare("ratio 2, one in five", eventsForPower({ ratio: 2, share: 0.2, ...asked }), 102.102593);
    compare("ratio 1.5", eventsForPower({ ratio: 1.5, share: 0.5, ...asked }), 190.96804);
    compare("ratio 3", eventsForPower({ ratio: 3, share: 0.5, ...asked }), 26.0123004);
    compare("R2 0.02", peopleForPrediction(8, 0.9, 0.02), 3559.85018);
    compare("R2 0.05", peopleForPrediction(8, 0.9, 0.05), 1399.62);
  },
);
