import { chiSquareTail } from "../../../src/core/distribution/index.ts";
import {
  cumulativeIncidence,
  grayTest,
  incidenceAt,
  kaplanMeier,
  logRank,
  riskTable,
  survivalAt,
} from "../../../src/core/survival/index.ts";
import { checkAgainst } from "../../check.ts";
import { column, dataset, indicator } from "../../data/dataset.ts";

const R = "R 4.2.2, survival 3.5-3";

checkAgainst(
  {
    quantity: "Kaplan-Meier of eight rows, and of lung at a year",
    unit: "relative",
    source: R,
    kind: "independent",
    tolerance: 1e-8,
    relative: true,
    comparisons: 8,
  },
  (compare) => {
    const hand = kaplanMeier(riskTable({ exit: [2, 3, 3, 3, 5, 7, 7, 9], end: [1, 1, 0, 1, 0, 1, 0, 0] }));
    for (const [time, survival, error] of [
      [2, 0.875, 0.116926793],
      [3, 0.625, 0.171163299],
      [7, 0.416666667, 0.204831683],
    ] as const) {
      const at = survivalAt(hand, time, 0.95);
      compare(`S(${time})`, at.survival, survival);
      compare(`error at ${time}`, at.standardError as number, error);
    }
    const lung = dataset("survival_lung");
    const end = column(lung, "status").map((status) => status - 1);
    const year = survivalAt(kaplanMeier(riskTable({ exit: column(lung, "time"), end })), 365, 0.95);
    compare("lung at 365", year.survival, 0.409241624);
    compare("lung at 365, error", year.standardError as number, 0.0358236382);
  },
);

checkAgainst(
  {
    quantity: "Chances of the log-rank family and of Gray's test, and ratios from observed and expected",
    unit: "relative",
    source: `${R}, cmprsk 2.2-11: Freireich's trial, lung, exit sites, mgus2, melanoma`,
    kind: "independent",
    tolerance: 1e-7,
    relative: true,
    comparisons: 11,
  },
  (compare) => {
    const chance = ({ statistic, degreesOfFreedom }: { statistic: number; degreesOfFreedom: number }) =>
      chiSquareTail("upper", statistic, degreesOfFreedom);
    const gehan = dataset("MASS_gehan");
    const trial = logRank([
      riskTable({
        exit: column(gehan, "time"),
        end: column(gehan, "cens"),
        group: indicator(gehan, "treat", "6-MP"),
      }),
    ]);
    compare("Freireich", chance(trial), 4.16880911e-5);
    const [o, treated] = trial.observed as unknown as [number, number];
    const [e, expected] = trial.expected as unknown as [number, number];
    compare("the short form is another test", (o - e) ** 2 / e + (treated - expected) ** 2 / expected, 15.2328503);
    compare("ratio of observed over expected", o / e / (treated / expected), 4.17859803);
    compare("ratio by exp((O - E) / V)", Math.exp((o - e) / (trial.variance[0] as number)), 5.14618488);
    const lung = dataset("survival_lung");
    const bySex = riskTable({
      exit: column(lung, "time"),
      end: column(lung, "status").map((status) => status - 1),
      group: column(lung, "sex").map((sex) => sex - 1),
    });
    compare("lung by sex", chance(logRank([bySex])), 0.00131116452);
    const site = dataset("KMsurv_kidney");
    const byWay = riskTable({
      exit: column(site, "time"),
      end: column(site, "delta"),
      group: indicator(site, "type", "2"),
    });
    compare("exit sites, log-rank", chance(logRank([byWay])), 0.11173517);
    compare("exit sites, Gehan", chance(logRank([byWay], { kind: "Gehan" })), 0.963585846);
    compare("exit sites, Tarone-Ware", chance(logRank([byWay], { kind: "Tarone-Ware" })), 0.525678513);
    const mgus = dataset("survival_mgus2");
    const sex = riskTable({
      exit: mgus.map((row) => Number(row["pstat"] === "1" ? row["ptime"] : row["futime"])),
      end: mgus.map((row) => (row["pstat"] === "1" ? 1 : row["death"] === "1" ? 2 : 0)),
      group: indicator(mgus, "sex", "M"),
    });
    compare("malignancy by sex", chance(grayTest([sex], 1)), 0.274422157);
    compare("death by sex", chance(grayTest([sex], 2)), 0.000641590976);
    const melanoma = dataset("boot_melanoma");
    const end = column(melanoma, "status").map((status) => (status === 2 ? 0 : status === 1 ? 1 : 2));
    const four = riskTable({ exit: column(melanoma, "time"), end, group: column(melanoma, "sex") });
    compare("melanoma by sex", chance(grayTest([four], 1)), 0.0158989024);
  },
);

checkAgainst(
  {
    quantity: "Incidence where ends compete, beside what is wrongly read from one curve",
    unit: "relative",
    source: `${R}, mgus2`,
    kind: "independent",
    tolerance: 1e-8,
    relative: true,
    comparisons: 5,
  },
  (compare) => {
    const mgus = dataset("survival_mgus2");
    const exit = mgus.map((row) => Number(row["pstat"] === "1" ? row["ptime"] : row["futime"]));
    const end = mgus.map((row) => (row["pstat"] === "1" ? 1 : row["death"] === "1" ? 2 : 0));
    const curve = cumulativeIncidence(riskTable({ exit, end }));
    compare("death at 120", incidenceAt(curve, 2, 120, 0.95).incidence, 0.531817704);
    const alone = kaplanMeier(riskTable({ exit, end }), 0, 1);
    compare("wrongly, malignancy at 60", 1 - survivalAt(alone, 60, 0.95).survival, 0.0421538617);
    compare("wrongly, malignancy at 120", 1 - survivalAt(alone, 120, 0.95).survival, 0.0952216594);
    const all = kaplanMeier(riskTable({ exit, end }));
    const left = survivalAt(all, 120, 0.95).survival;
    const both = [1, 2].map((kind) => incidenceAt(curve, kind, 120, 0.95).incidence);
    compare("neither at 120", left, 1 - 0.0637221680131129 - 0.531817704080208);
    compare("all three", left + (both[0] as number) + (both[1] as number), 1);
  },
);

/** Aalen's variance of an incidence as Gray's program sums it: each cause's jumps apart, ties by n - 1. */
function aalenVariance(exit: readonly number[], end: readonly number[], kind: number, at: number): number {
  const times = [...new Set(exit.filter((time, i) => end[i] !== 0 && time <= at))].sort((a, b) => a - b);
  let survival = 1;
  let incidence = 0;
  const steps = times.map((u) => {
    const n = exit.filter((time) => time >= u).length;
    const own = exit.filter((time, i) => time === u && end[i] === kind).length;
    const other = exit.filter((time, i) => time === u && end[i] !== kind && end[i] !== 0).length;
    const before = survival;
    incidence += (before * own) / n;
    survival *= 1 - (own + other) / n;
    return { n, own, other, before, after: survival, incidence };
  });
  return steps.reduce((sum, { n, own, other, before, after, incidence: reached }) => {
    const toCome = after > 0 ? (incidence - reached) / after : 0;
    const tied = (d: number) => (d > 1 ? 1 - (d - 1) / (n - 1) : 1);
    const each = (before / n) ** 2;
    return sum + each * (tied(own) * own * (1 - toCome) ** 2 + tied(other) * other * toCome ** 2);
  }, 0);
}

checkAgainst(
  {
    quantity: "Aalen's variance of an incidence, a little above the one in use",
    unit: "relative",
    source: "R 4.2.2, cmprsk 2.2-11, ten rows by hand and mgus2",
    kind: "independent",
    tolerance: 1e-8,
    relative: true,
    comparisons: 10,
  },
  (compare) => {
    const exit = [1, 2, 3, 3, 4, 5, 5, 6, 8, 9];
    const end = [1, 0, 2, 1, 3, 1, 0, 2, 1, 0];
    const curve = cumulativeIncidence(riskTable({ exit, end }));
    for (const [at, aalen, ours] of [
      [3, 0.0203125, 0.134032995],
      [5, 0.027928125, 0.155070548],
      [8, 0.0465496528, 0.177262165],
    ] as const) {
      const { standardError } = incidenceAt(curve, 1, at, 0.95);
      compare(`at ${at}`, aalenVariance(exit, end, 1, at), aalen);
      compare(`at ${at}, in use`, standardError, ours);
      compare(`at ${at}, above the one in use`, Number(aalen > standardError ** 2), 1);
    }
    const women = dataset("survival_mgus2").filter((row) => row["sex"] === "F");
    const months = women.map((row) => Number(row["pstat"] === "1" ? row["ptime"] : row["futime"]));
    const ends = women.map((row) => (row["pstat"] === "1" ? 1 : row["death"] === "1" ? 2 : 0));
    compare("women at 120 months", Math.sqrt(aalenVariance(months, ends, 1, 120)), 0.0107814555);
  },
);
