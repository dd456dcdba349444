import {
  type Coefficient,
  coxRegression,
  type CoxFit,
  fineGray,
  logRelativeHazard,
  poissonRegression,
} from "../../../src/core/regression/index.ts";
import { checkAgainst } from "../../check.ts";
import { column, complete, dataset, indicator, type Row } from "../../data/dataset.ts";
import { covariates, fitted, freireich } from "./fitted.ts";

checkAgainst(
  {
    quantity: "Cox of seven rows with ties, three ways",
    unit: "relative",
    source: "R 4.2.2, survival 3.5-3, hand example",
    kind: "independent",
    tolerance: 1e-8,
    relative: true,
    comparisons: 6,
  },
  (compare) => {
    const input = {
      exit: [1, 2, 2, 3, 4, 4, 5],
      event: [1, 1, 1, 0, 1, 0, 1],
      covariates: [{ name: "x", values: [1, 0, 1, 0, 1, 0, 0] }],
    };
    for (const [ties, b, atZero] of [
      ["breslow", 1.69819972, -6.62804138],
      ["efron", 1.73980848, -6.44571982],
      ["exact", 1.93800861, -5.75257264],
    ] as const) {
      const fit = fitted(coxRegression(input, ties));
      compare(`${ties}, b`, (fit.coefficients[0] as Coefficient).value, b);
      compare(`${ties}, at zero`, fit.logLikelihoodAtZero, atZero);
    }
  },
);

checkAgainst(
  {
    quantity: "Cox of lines with patients or centres in common: robust errors",
    unit: "relative",
    source: "R 4.2.2, survival 3.5-3, lung by institution, dialysis catheters by patient",
    kind: "independent",
    tolerance: 1e-7,
    relative: true,
    comparisons: 20,
  },
  (compare) => {
    const lung = complete(dataset("survival_lung"), ["ph.ecog"]);
    const input = (rows: Row[]) => ({
      exit: column(rows, "time"),
      event: column(rows, "status").map((status) => status - 1),
    });
    const three = fitted(coxRegression({ ...input(lung), covariates: covariates(lung, ["age", "sex", "ph.ecog"]) }));
    for (const [j, [b, error]] of (
      [
        [0.0110667646, 0.00926741101],
        [-0.552612396, 0.167739054],
        [0.463728475, 0.113577266],
      ] as const
    ).entries()) {
      compare(`lung b ${j}`, three.coefficients[j]?.value as number, b);
      compare(`lung error ${j}`, three.coefficients[j]?.standardError as number, error);
    }
    const known = complete(dataset("survival_lung"), ["inst"]);
    const clustered = fitted(
      coxRegression({ ...input(known), cluster: column(known, "inst"), covariates: covariates(known, ["age", "sex"]) }),
    );
    for (const [j, [plain, robust]] of (
      [
        [0.00923266444, 0.00732739307],
        [0.167678591, 0.128230602],
      ] as const
    ).entries()) {
      compare(`institution, plain ${j}`, clustered.coefficients[j]?.standardError as number, plain);
      compare(`institution, robust ${j}`, clustered.coefficients[j]?.robustError as number, robust);
    }
    const kidney = dataset("survival_kidney");
    const catheters = fitted(
      coxRegression({
        exit: column(kidney, "time"),
        event: column(kidney, "status"),
        cluster: column(kidney, "id"),
        covariates: [
          ...covariates(kidney, ["age", "sex"]),
          ...["GN", "AN", "PKD"].map((name) => ({ name, values: indicator(kidney, "disease", name) })),
        ],
      }),
    );
    const b = [0.00318069778, -1.48313725, 0.0879565522, 0.350794198, -1.43110776];
    const robust = [0.00719454486, 0.400848312, 0.286987636, 0.274965769, 0.871320774];
    for (let j = 0; j < 5; j += 1) {
      compare(`catheters b ${j}`, catheters.coefficients[j]?.value as number, b[j] as number);
      compare(`catheters robust ${j}`, catheters.coefficients[j]?.robustError as number, robust[j] as number);
    }
  },
);

function survivalAt(fit: CoxFit, time: number, values: readonly number[]): number {
  const { time: times, hazard } = fit.hazard();
  const last = times.findLastIndex((at) => at <= time);
  return Math.exp(-(hazard[last] as number) * Math.exp(logRelativeHazard(fit, values).value));
}

checkAgainst(
  {
    quantity: "Predicted survival and incidence",
    unit: "relative",
    source: "R 4.2.2, survival 3.5-3 and cmprsk 2.2-11, Freireich's trial and mgus2",
    kind: "independent",
    tolerance: 1e-7,
    relative: true,
    comparisons: 4,
  },
  (compare) => {
    const trial = fitted(coxRegression(freireich(dataset("MASS_gehan"))));
    compare("baseline hazard at 10", -Math.log(survivalAt(trial, 10, [0])), 0.219876409);
    compare("6-MP at 10", survivalAt(trial, 10, [0]), 0.802617988);
    compare("control at 10", survivalAt(trial, 10, [1]), 0.346761889);
    const mgus = complete(dataset("survival_mgus2"), ["mspike"]);
    const spike = fitted(
      fineGray(
        {
          exit: mgus.map((row) => Number(row["pstat"] === "1" ? row["ptime"] : row["futime"])),
          end: mgus.map((row) => (row["pstat"] === "1" ? 1 : row["death"] === "1" ? 2 : 0)),
          covariates: [
            ...covariates(mgus, ["age"]),
            { name: "male", values: indicator(mgus, "sex", "M") },
            ...covariates(mgus, ["mspike"]),
          ],
        },
        1,
      ),
    );
    const { time, hazard } = spike.hazard();
    const [age, male, high] = spike.coefficients.map(({ value }) => value) as [number, number, number];
    const base = hazard[time.findLastIndex((at) => at <= 120)] as number;
    compare(
      "man of 70, spike 1.5, at 120 months",
      -Math.expm1(-base * Math.exp(70 * age + male + 1.5 * high)),
      0.0675435887,
    );
  },
);

checkAgainst(
  {
    quantity: "Without censoring Fine and Gray is Cox with competing ends moved past the last time",
    unit: "relative",
    source: "Fine and Gray 1999, section 2; R 4.2.2, cmprsk 2.2-11, uncensored melanoma",
    kind: "independent",
    tolerance: 1e-7,
    relative: true,
    comparisons: 6,
  },
  (compare) => {
    const rows = dataset("boot_melanoma").filter((row) => row["status"] !== "2");
    const thick = { name: "thickness", values: column(rows, "thickness").map(Math.log) };
    const asked = [...covariates(rows, ["sex", "ulcer"]), thick];
    const exit = column(rows, "time");
    const end = column(rows, "status").map((status) => (status === 1 ? 1 : 2));
    const direct = fitted(fineGray({ exit, end, covariates: asked }, 1));
    const event = end.map((kind) => (kind === 1 ? 1 : 0));
    const moved = exit.map((time, i) => (event[i] === 1 ? time : 1e6));
    const cox = fitted(coxRegression({ exit: moved, event, covariates: asked }, "breslow"));
    for (const [j, value] of [0.20848523, 0.505614802, 0.270919902].entries()) {
      compare(`b ${j}`, direct.coefficients[j]?.value as number, value);
      compare(`b ${j}, Cox`, direct.coefficients[j]?.value as number, cox.coefficients[j]?.value as number);
    }
  },
);

checkAgainst(
  {
    quantity: "Piecewise exponential model by Poisson regression",
    unit: "relative",
    source: "R 4.2.2, glm at its usual stop, veteran cut at 90 and 180 days; Holford 1980",
    kind: "independent",
    tolerance: 1e-5,
    relative: true,
    comparisons: 3,
  },
  (compare) => {
    const pieces = dataset("survival_veteran").flatMap((row) => {
      const time = Number(row["time"]);
      const cuts = [0, 90, 180, Infinity];
      return [0, 1, 2]
        .filter((k) => time > (cuts[k] as number))
        .map((k) => ({
          row,
          k,
          days: Math.min(time, cuts[k + 1] as number) - (cuts[k] as number),
          died: time <= (cuts[k + 1] as number) ? Number(row["status"]) : 0,
        }));
    });
    const rows = pieces.map((piece) => piece.row);
    const fit = fitted(
      poissonRegression({
        count: pieces.map((piece) => piece.died),
        exposure: pieces.map((piece) => piece.days),
        covariates: [
          ...covariates(rows, ["karno", "trt"]),
          ...[1, 2].map((k) => ({ name: `piece ${k}`, values: pieces.map((piece) => (piece.k === k ? 1 : 0)) })),
        ],
      }),
    );
    compare("Karnofsky", fit.coefficients[1]?.value as number, -0.034335638);
    compare("Karnofsky, error", fit.coefficients[1]?.standardError as number, 0.00489471265);
    compare("treatment", fit.coefficients[2]?.value as number, 0.159654619);
  },
);
