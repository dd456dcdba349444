import { readFileSync } from "node:fs";
import {
  type Coefficient,
  coxRegression,
  type CoxFit,
  fineGray,
  logisticRegression,
  negativeBinomialRegression,
  poissonRegression,
  type Ties,
} from "../../../src/core/regression/index.ts";
import { type Compare, checkAgainst } from "../../check.ts";
import { column, complete, dataset, indicator, type Row } from "../../data/dataset.ts";
import { covariates, daysAbsent, fitted } from "./fitted.ts";

/** Made by regression-golden.R beside this file. */
const golden = JSON.parse(readFileSync(new URL("regression-golden.json", import.meta.url), "utf8")) as Record<
  string,
  number[]
>;
const SURVIVAL = "R 4.2.2, survival 3.5-3, run to 1e-14";

const logOf = (rows: readonly Row[], name: string) => ({ name, values: column(rows, name).map(Math.log) });

function sameNumbers(compare: Compare, place: string, ours: ArrayLike<number>, name: string): void {
  const theirs = golden[name] as number[];
  for (const [k, value] of theirs.entries()) compare(`${place} ${name} ${k}`, ours[k] as number, value);
}

function sameCox(compare: Compare, name: string, fit: CoxFit): void {
  const { coefficients } = fit;
  sameNumbers(
    compare,
    "b",
    coefficients.map(({ value }) => value),
    `${name}.b`,
  );
  sameNumbers(
    compare,
    "error",
    coefficients.map(({ standardError }) => standardError),
    `${name}.se`,
  );
  sameNumbers(compare, "log likelihood", [fit.logLikelihoodAtZero, fit.logLikelihood], `${name}.l`);
  sameNumbers(compare, "score", [fit.scoreTest as number], `${name}.score`);
  if (golden[`${name}.robust`] !== undefined) {
    sameNumbers(
      compare,
      "robust",
      coefficients.map((c: Coefficient) => c.robustError as number),
      `${name}.robust`,
    );
  }
}

const veteran = dataset("survival_veteran");
const eight = [
  ...covariates(veteran, ["trt"]),
  ...["smallcell", "adeno", "large"].map((name) => ({ name, values: indicator(veteran, "celltype", name) })),
  ...covariates(veteran, ["karno", "diagtime", "age", "prior"]),
];
const veteranTimes = { exit: column(veteran, "time"), event: column(veteran, "status") };
const cells = ["squamous", "smallcell", "adeno", "large"];
const heart = dataset("survival_heart");
const heartInput = {
  entry: column(heart, "start"),
  exit: column(heart, "stop"),
  event: column(heart, "event"),
  covariates: covariates(heart, ["age", "year", "surgery", "transplant"]),
};
const bladder = dataset("survival_bladder2");
const bladderInput = {
  entry: column(bladder, "start"),
  exit: column(bladder, "stop"),
  event: column(bladder, "event"),
  cluster: column(bladder, "id"),
  covariates: covariates(bladder, ["rx", "number", "size"]),
};
const site = dataset("KMsurv_kidney");
const siteInput = {
  exit: column(site, "time"),
  event: column(site, "delta"),
  covariates: [{ name: "percutaneous", values: indicator(site, "type", "2") }],
};

checkAgainst(
  {
    quantity: "Cox regression: coefficients, errors, likelihoods, score test",
    unit: "relative",
    source: `${SURVIVAL}, veteran, heart, pbc, exit sites`,
    kind: "independent",
    tolerance: 1e-8,
    relative: true,
    comparisons: 106,
  },
  (compare) => {
    for (const ties of ["breslow", "efron"] as const) {
      sameCox(compare, `veteran.${ties}`, fitted(coxRegression({ ...veteranTimes, covariates: eight }, ties)));
    }
    const stratum = veteran.map((row) => cells.indexOf(row["celltype"] as string));
    const within = coxRegression({ ...veteranTimes, stratum, covariates: covariates(veteran, ["karno", "age"]) });
    sameCox(compare, "veteran.strata", fitted(within));
    for (const ties of ["breslow", "efron", "exact"] as Ties[]) {
      sameCox(compare, `heart.${ties}`, fitted(coxRegression(heartInput, ties)));
      sameCox(compare, `site.${ties}`, fitted(coxRegression(siteInput, ties)));
    }
    const pbc = complete(dataset("survival_pbc"), ["protime"]);
    const five = [
      ...covariates(pbc, ["age", "edema"]),
      ...["bili", "albumin", "protime"].map((name) => logOf(pbc, name)),
    ];
    const event = column(pbc, "status").map((status) => (status === 2 ? 1 : 0));
    sameCox(compare, "pbc", fitted(coxRegression({ exit: column(pbc, "time"), event, covariates: five })));
  },
);

checkAgainst(
  {
    quantity: "Recurrent events and robust errors by patient",
    unit: "relative",
    source: `${SURVIVAL}, bladder2 (Andersen-Gill, PWP) and heart`,
    kind: "independent",
    tolerance: 1e-8,
    relative: true,
    comparisons: 63,
  },
  (compare) => {
    for (const ties of ["breslow", "efron"] as const) {
      sameCox(compare, `ag.${ties}`, fitted(coxRegression(bladderInput, ties)));
      const ordered = coxRegression({ ...bladderInput, stratum: column(bladder, "enum") }, ties);
      sameCox(compare, `pwp.${ties}`, fitted(ordered));
    }
    sameCox(compare, "heart.cluster", fitted(coxRegression({ ...heartInput, cluster: column(heart, "id") })));
  },
);

checkAgainst(
  {
    quantity: "Test of proportional hazards, and scaled residuals",
    unit: "relative",
    source: `${SURVIVAL}, cox.zph, veteran and heart`,
    kind: "independent",
    tolerance: 1e-7,
    relative: true,
    comparisons: 54 + 3 + 5 + 1024,
  },
  (compare) => {
    const scales = [
      ["kaplan-meier", "km"],
      ["time", "identity"],
      ["log time", "log"],
    ] as const;
    for (const ties of ["breslow", "efron"] as const) {
      const fit = fitted(coxRegression({ ...veteranTimes, covariates: eight }, ties));
      for (const [scale, theirs] of scales) {
        const found = fit.proportional?.(scale);
        const all = [...(found?.terms ?? []), found?.all].map((test) => test?.statistic as number);
        sameNumbers(compare, ties, all, `veteran.${ties}.${theirs}`);
      }
      if (ties === "breslow") continue;
      const found = fit.proportional?.();
      // ours run from the last event to the first, and rows within a tie may change places: compare them in order
      const theirs = golden["veteran.schoenfeldTime"] as number[];
      const key = (time: number, values: ArrayLike<number>, at: number) =>
        [time, ...Array.from({ length: 8 }, (_, j) => values[at * 8 + j] as number)] as const;
      const inOrder = (times: ArrayLike<number>, values: ArrayLike<number>) =>
        Array.from(times, (time, at) => key(time, values, at)).sort(
          (a, b) => a[0] - b[0] || (a[5] as number) - (b[5] as number) || (a[7] as number) - (b[7] as number),
        );
      const ours = inOrder(found?.eventTime ?? [], found?.scaledResiduals ?? []);
      for (const [at, row] of inOrder(theirs, golden["veteran.schoenfeld"] as number[]).entries()) {
        for (let j = 1; j <= 8; j += 1) compare(`residual ${at} of ${j}`, ours[at]?.[j] as number, row[j] as number);
      }
    }
    const stratum = veteran.map((row) => cells.indexOf(row["celltype"] as string));
    const within = fitted(
      coxRegression({ ...veteranTimes, stratum, covariates: covariates(veteran, ["karno", "age"]) }),
    ).proportional?.();
    const tests = [...(within?.terms ?? []), within?.all].map((test) => test?.statistic as number);
    sameNumbers(compare, "strata", tests, "veteran.strata.km");
    const late = fitted(coxRegression(heartInput)).proportional?.();
    const lateTests = [...(late?.terms ?? []), late?.all].map((test) => test?.statistic as number);
    sameNumbers(compare, "late entry", lateTests, "heart.km");
  },
);

checkAgainst(
  {
    quantity: "Baseline cumulative hazard of Cox regression",
    unit: "relative",
    source: `${SURVIVAL}, basehaz, veteran, Efron`,
    kind: "independent",
    tolerance: 1e-8,
    relative: true,
    comparisons: 97 * 2,
  },
  (compare) => {
    const fit = fitted(coxRegression({ ...veteranTimes, covariates: covariates(veteran, ["karno", "age"]) }));
    sameNumbers(compare, "time", fit.hazard().time, "veteran.hazardTime");
    sameNumbers(compare, "hazard", fit.hazard().hazard, "veteran.hazard");
  },
);

checkAgainst(
  {
    quantity: "Poisson and logistic regression: coefficients, errors, deviance, Pearson, robust errors",
    unit: "relative",
    source: "R 4.2.2, glm run to 1e-15, ships, lung, dialysis catheters",
    kind: "independent",
    tolerance: 1e-8,
    relative: true,
    comparisons: 47,
  },
  (compare) => {
    const ships = dataset("MASS_ships").filter((row) => Number(row["service"]) > 0);
    const lung = complete(dataset("survival_lung"), ["ph.ecog"]);
    const kidney = dataset("survival_kidney");
    const fits = {
      ships: poissonRegression({
        count: column(ships, "incidents"),
        exposure: column(ships, "service"),
        covariates: [
          ...["B", "C", "D", "E"].map((name) => ({ name, values: indicator(ships, "type", name) })),
          ...["65", "70", "75"].map((name) => ({ name, values: indicator(ships, "year", name) })),
          { name: "period", values: indicator(ships, "period", "75") },
        ],
      }),
      lung: logisticRegression({
        count: column(lung, "status").map((status) => status - 1),
        covariates: covariates(lung, ["age", "sex", "ph.ecog"]),
      }),
      kidney: poissonRegression({
        count: column(kidney, "status"),
        exposure: column(kidney, "time"),
        cluster: column(kidney, "id"),
        covariates: covariates(kidney, ["age", "sex"]),
      }),
    };
    for (const [name, answer] of Object.entries(fits)) {
      const fit = fitted(answer);
      sameNumbers(
        compare,
        "b",
        fit.coefficients.map(({ value }) => value),
        `${name}.b`,
      );
      sameNumbers(
        compare,
        "error",
        fit.coefficients.map(({ standardError }) => standardError),
        `${name}.se`,
      );
      sameNumbers(compare, "log likelihood", [fit.logLikelihood], `${name}.l`);
      sameNumbers(compare, "fit", [fit.deviance, fit.pearson, fit.degreesOfFreedom], `${name}.fit`);
    }
    const robust = fitted(fits.kidney).coefficients.map((c: Coefficient) => c.robustError as number);
    sameNumbers(compare, "robust", robust, "kidney.robust");
  },
);

checkAgainst(
  {
    quantity: "Negative binomial regression",
    unit: "relative",
    source: "R 4.2.2, MASS 7.3-58.2, glm.nb, quine",
    kind: "independent",
    tolerance: 1e-5,
    relative: true,
    comparisons: 10,
  },
  (compare) => {
    const fit = fitted(negativeBinomialRegression(daysAbsent(dataset("MASS_quine"))));
    sameNumbers(
      compare,
      "b",
      fit.coefficients.map(({ value }) => value),
      "quine.b",
    );
    sameNumbers(compare, "theta", [fit.theta], "quine.theta");
    sameNumbers(compare, "log likelihood", [fit.logLikelihood], "quine.l");
    compare("error of theta", fit.thetaError, 0.161035179);
  },
);

checkAgainst(
  {
    quantity: "Fine and Gray's regression: coefficients, errors, likelihoods",
    unit: "relative",
    source: "R 4.2.2, cmprsk 2.2-11, crr run to 1e-13, mgus2 and melanoma",
    kind: "independent",
    tolerance: 1e-7,
    relative: true,
    comparisons: 32,
  },
  (compare) => {
    const mgus = complete(dataset("survival_mgus2"), ["mspike"]);
    const melanoma = dataset("boot_melanoma");
    const inputs = {
      mgus: {
        exit: mgus.map((row) => Number(row["pstat"] === "1" ? row["ptime"] : row["futime"])),
        end: mgus.map((row) => (row["pstat"] === "1" ? 1 : row["death"] === "1" ? 2 : 0)),
        covariates: [
          ...covariates(mgus, ["age"]),
          { name: "male", values: indicator(mgus, "sex", "M") },
          ...covariates(mgus, ["mspike"]),
        ],
      },
      melanoma: {
        exit: column(melanoma, "time"),
        end: column(melanoma, "status").map((status) => (status === 2 ? 0 : status === 1 ? 1 : 2)),
        covariates: [...covariates(melanoma, ["sex", "ulcer"]), logOf(melanoma, "thickness")],
      },
    };
    for (const [name, input] of Object.entries(inputs)) {
      for (const kind of [1, 2]) {
        const fit = fitted(fineGray(input, kind));
        sameNumbers(
          compare,
          "b",
          fit.coefficients.map(({ value }) => value),
          `fg.${name}${kind}.b`,
        );
        sameNumbers(
          compare,
          "error",
          fit.coefficients.map((c) => c.standardError),
          `fg.${name}${kind}.se`,
        );
        sameNumbers(compare, "log likelihood", [fit.logLikelihoodAtZero, fit.logLikelihood], `fg.${name}${kind}.l`);
      }
    }
  },
);
