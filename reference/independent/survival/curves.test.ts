import { readFileSync } from "node:fs";
import {
  cumulativeIncidence,
  grayTest,
  incidenceAt,
  kaplanMeier,
  logRank,
  PETO_PETO,
  quantileTime,
  restrictedMean,
  riskTable,
  survivalAt,
} from "../../../src/core/survival/index.ts";
import { checkAgainst } from "../../check.ts";
import { column, dataset, indicator } from "../../data/dataset.ts";

/** Made by survival-golden.R beside this file. */
const golden = JSON.parse(readFileSync(new URL("survival-golden.json", import.meta.url), "utf8")) as Record<
  string,
  (number | null)[]
>;
const R = "R 4.2.2, survival 3.5-3";

const gehan = dataset("MASS_gehan");
const trial = riskTable({
  exit: column(gehan, "time"),
  end: column(gehan, "cens"),
  group: indicator(gehan, "treat", "6-MP"),
});
const control = kaplanMeier(trial, 0);
const treated = kaplanMeier(trial, 1);

checkAgainst(
  {
    quantity: "Kaplan-Meier curve, its error and limits",
    unit: "relative",
    source: `${R}, Freireich's trial`,
    kind: "independent",
    tolerance: 1e-8,
    relative: true,
    comparisons: 29,
  },
  (compare) => {
    const printed = [
      [6, 0.857142857, 0.0763603548],
      [7, 0.806722689, 0.0869352852],
      [10, 0.752941176, 0.096349653],
      [13, 0.690196078, 0.106814708],
      [16, 0.62745098, 0.114053865],
      [22, 0.537815126, 0.128233752],
      [23, 0.448179272, 0.134591457],
    ] as const;
    for (const [time, survival, error] of printed) {
      const at = survivalAt(treated, time, 0.95);
      compare(`S(${time})`, at.survival, survival);
      compare(`SE at ${time}`, at.standardError as number, error);
    }
    compare("control S(10)", survivalAt(control, 10, 0.95).survival, 8 / 21);
    compare("control SE(10)", survivalAt(control, 10, 0.95).standardError as number, 0.10597117);
    const limits = {
      plain: [0.564099327, 0.941783026],
      log: [0.585918982, 0.967574755],
      "log-log": [0.503199511, 0.889361835],
      arcsine: [0.546215158, 0.911946646],
      logit: [0.524778485, 0.893740011],
    } as const;
    for (const scale of ["plain", "log", "log-log", "arcsine", "logit"] as const) {
      const at = survivalAt(treated, 10, 0.95, scale);
      compare(`${scale} low`, at.low as number, limits[scale][0]);
      compare(`${scale} high`, at.high as number, limits[scale][1]);
    }
    compare("hazard at 23", treated.hazard.at(-1) as number, 0.752113573);
    compare("hazard error at 23", Math.sqrt(treated.hazardVariance.at(-1) as number), 0.279467747);
    compare("error where none are left is absent", survivalAt(control, 23, 0.95).standardError ?? 1, 1);
  },
);

checkAgainst(
  {
    quantity: "Median and quartiles of dwell, with limits",
    unit: "weeks or days",
    source: `${R}, Freireich's trial and lung`,
    kind: "independent",
    tolerance: 1e-9,
    comparisons: 17,
  },
  (compare) => {
    const early = quantileTime(control, 0.5, 0.95, "log");
    const late = quantileTime(treated, 0.5, 0.95, "log");
    compare("control", early.time as number, 8);
    compare("control low", early.low as number, 4);
    compare("control high", early.high as number, 12);
    compare("6-MP", late.time as number, 23);
    compare("6-MP low", late.low as number, 16);
    compare("6-MP high, not reached", late.high ?? -1, -1);
    const lung = dataset("survival_lung");
    const end = column(lung, "status").map((status) => status - 1);
    const all = kaplanMeier(riskTable({ exit: column(lung, "time"), end }));
    const middle = quantileTime(all, 0.5, 0.95, "log");
    compare("lung median", middle.time as number, 310);
    compare("lung low", middle.low as number, 285);
    compare("lung high", middle.high as number, 363);
    compare("lung quarter", quantileTime(all, 0.25, 0.95, "log").time as number, 170);
    compare("lung three quarters", quantileTime(all, 0.75, 0.95, "log").time as number, 550);
    const bySex = riskTable({ exit: column(lung, "time"), end, group: column(lung, "sex").map((sex) => sex - 1) });
    const expected = [
      [270, 212, 310],
      [426, 348, 550],
    ] as const;
    for (const [sex, [time, low, high]] of expected.entries()) {
      const found = quantileTime(kaplanMeier(bySex, sex), 0.5, 0.95, "log");
      compare(`sex ${sex + 1}`, found.time as number, time);
      compare(`sex ${sex + 1} low`, found.low as number, low);
      compare(`sex ${sex + 1} high`, found.high as number, high);
    }
  },
);

checkAgainst(
  {
    quantity: "Restricted mean event-free time to 30 weeks",
    unit: "relative",
    source: `${R}, Freireich's trial`,
    kind: "independent",
    tolerance: 1e-8,
    relative: true,
    comparisons: 4,
  },
  (compare) => {
    compare("control", restrictedMean(control, 30).mean, 8.66666667);
    compare("control error", restrictedMean(control, 30).standardError, 1.37739004);
    compare("6-MP", restrictedMean(treated, 30).mean, 21.0464986);
    compare("6-MP error", restrictedMean(treated, 30).standardError, 2.24380195);
  },
);

const channing = dataset("KMsurv_channing").filter((row) => Number(row["age"]) > Number(row["ageentry"]));
const home = {
  entry: column(channing, "ageentry"),
  exit: column(channing, "age"),
  end: column(channing, "death"),
  group: column(channing, "gender").map((gender) => gender - 1),
};

checkAgainst(
  {
    quantity: "Kaplan-Meier with delayed entry, whole curves",
    unit: "absolute",
    source: `${R}, channing`,
    kind: "independent",
    tolerance: 1e-12,
    comparisons: 735,
  },
  (compare) => {
    for (const group of [1, 2]) {
      const curve = kaplanMeier(riskTable(home), group - 1);
      const theirs = (name: string) => golden[`channing${group}${name}`] as (number | null)[];
      for (const [k, time] of theirs("Time").entries()) {
        const at = survivalAt(curve, time as number, 0.95);
        compare(`at risk, ${group}, ${time}`, curve.atRisk[k] as number, theirs("AtRisk")[k] as number);
        compare(`survival, ${group}, ${time}`, at.survival, theirs("Survival")[k] as number);
        compare(`error, ${group}, ${time}`, at.standardError ?? -1, theirs("Error")[k] ?? -1);
        compare(`low, ${group}, ${time}`, at.low ?? -1, theirs("Low")[k] ?? -1);
        compare(`high, ${group}, ${time}`, at.high ?? -1, theirs("High")[k] ?? -1);
      }
    }
  },
);

checkAgainst(
  {
    quantity: "Kaplan-Meier with delayed entry after 68 years",
    unit: "relative",
    source: `${R}, channing`,
    kind: "independent",
    tolerance: 1e-8,
    relative: true,
    comparisons: 4,
  },
  (compare) => {
    const old = channing.filter((row) => Number(row["ageentry"]) >= 68 * 12);
    const table = riskTable({
      entry: column(old, "ageentry"),
      exit: column(old, "age"),
      end: column(old, "death"),
      group: column(old, "gender").map((gender) => gender - 1),
    });
    for (const [group, at80, at90] of [
      [0, 0.643463587, 0.224698525],
      [1, 0.729609198, 0.289550449],
    ] as const) {
      compare(`group ${group} at 80`, survivalAt(kaplanMeier(table, group), 960, 0.95).survival, at80);
      compare(`group ${group} at 90`, survivalAt(kaplanMeier(table, group), 1080, 0.95).survival, at90);
    }
  },
);

const site = dataset("KMsurv_kidney");
const exitSite = riskTable({
  exit: column(site, "time"),
  end: column(site, "delta"),
  group: column(site, "type").map((type) => type - 1),
});
const veteran = dataset("survival_veteran");
const cells = ["squamous", "smallcell", "adeno", "large"];
const veteranTable = (rows: typeof veteran) =>
  riskTable({
    exit: column(rows, "time"),
    end: column(rows, "status"),
    group: rows.map((row) => cells.indexOf(row["celltype"] as string)),
  });

checkAgainst(
  {
    quantity: "Log-rank test and its weighted family",
    unit: "chi-square, relative",
    source: `${R}, Freireich, lung, exit sites, veteran, channing`,
    kind: "independent",
    tolerance: 1e-8,
    relative: true,
    comparisons: 42,
  },
  (compare) => {
    const test = logRank([trial]);
    compare("observed", test.observed[0] as number, 21);
    compare("expected", test.expected[0] as number, 10.7494991);
    compare("variance", test.variance[0] as number, 6.25696057);
    compare("chi-square", test.statistic, 16.792941);
    compare("Peto-Peto", logRank([trial], PETO_PETO).statistic, 14.4571508);
    const weights = [
      [{ kind: "log-rank" }, 2.52950632],
      [{ kind: "Gehan" }, 0.00208430854],
      [{ kind: "Tarone-Ware" }, 0.402738202],
      [PETO_PETO, 1.38652278],
      [{ kind: "Fleming-Harrington", early: 0, late: 1 }, 9.668035],
      [{ kind: "Fleming-Harrington", early: 1, late: 1 }, 9.83406286],
    ] as const;
    for (const [weight, chi] of weights)
      compare(`exit sites ${weight.kind}`, logRank([exitSite], weight).statistic, chi);
    const lung = dataset("survival_lung");
    const lungTable = (rows: typeof lung) =>
      riskTable({
        exit: column(rows, "time"),
        end: column(rows, "status").map((status) => status - 1),
        group: column(rows, "sex").map((sex) => sex - 1),
      });
    compare("lung by sex", logRank([lungTable(lung)]).statistic, 10.326742);
    const byEcog = ["0", "1", "2"].map((ecog) => lungTable(lung.filter((row) => row["ph.ecog"] === ecog)));
    compare("lung by sex within ECOG", logRank(byEcog).statistic, 10.7950596);
    const four = logRank([veteranTable(veteran)]);
    for (let g = 0; g < 4; g += 1) {
      compare(`veteran observed ${g}`, four.observed[g] as number, golden["veteranObserved"]?.[g] as number);
      compare(`veteran expected ${g}`, four.expected[g] as number, golden["veteranExpected"]?.[g] as number);
      for (let h = 0; h < 4; h += 1) {
        const place = 4 * g + h;
        compare(
          `veteran variance ${place}`,
          four.variance[place] as number,
          golden["veteranVariance"]?.[place] as number,
        );
      }
    }
    compare("veteran", four.statistic, golden["veteranChi"]?.[0] as number);
    compare("veteran degrees of freedom", four.degreesOfFreedom, 3);
    compare(
      "veteran Peto-Peto",
      logRank([veteranTable(veteran)], PETO_PETO).statistic,
      golden["veteranPetoChi"]?.[0] as number,
    );
    const arms = ["1", "2"].map((arm) => veteranTable(veteran.filter((row) => row["trt"] === arm)));
    compare("veteran within arm", logRank(arms).statistic, golden["veteranStrataChi"]?.[0] as number);
    compare("channing, late entry", logRank([riskTable(home)]).statistic, golden["channingLogRank"]?.[0] as number);
  },
);

const mgus = dataset("survival_mgus2");
const mgusEnd = mgus.map((row) => (row["pstat"] === "1" ? 1 : row["death"] === "1" ? 2 : 0));
const mgusExit = mgus.map((row) => Number(row["pstat"] === "1" ? row["ptime"] : row["futime"]));

checkAgainst(
  {
    quantity: "Cumulative incidence, whole curves with errors",
    unit: "absolute",
    source: `${R}, mgus2 by sex (infinitesimal jackknife)`,
    kind: "independent",
    tolerance: 1e-12,
    comparisons: 1436,
  },
  (compare) => {
    const table = riskTable({ exit: mgusExit, end: mgusEnd, group: indicator(mgus, "sex", "M") });
    for (const [group, sex] of ["F", "M"].entries()) {
      const curve = cumulativeIncidence(table, group);
      for (const [k, time] of (golden[`mgus${sex}Time`] as number[]).entries()) {
        for (const kind of [1, 2]) {
          const at = incidenceAt(curve, kind, time, 0.95);
          compare(`${sex} ${kind} at ${time}`, at.incidence, golden[`mgus${sex}Incidence${kind}`]?.[k] as number);
          compare(`${sex} ${kind} error at ${time}`, at.standardError, golden[`mgus${sex}Error${kind}`]?.[k] as number);
        }
      }
    }
  },
);

checkAgainst(
  {
    quantity: "Cumulative incidence, limits and hand example",
    unit: "relative",
    source: `${R} and etm 1.1.1, mgus2 and melanoma`,
    kind: "independent",
    tolerance: 1e-8,
    relative: true,
    comparisons: 27,
  },
  (compare) => {
    const curve = cumulativeIncidence(riskTable({ exit: mgusExit, end: mgusEnd }));
    for (const [time, incidence, error] of [
      [60, 0.034103713, 0.00488925791],
      [120, 0.063722168, 0.00679684842],
      [240, 0.0998137159, 0.00978484679],
    ] as const) {
      compare(`malignancy ${time}`, incidenceAt(curve, 1, time, 0.95).incidence, incidence);
      compare(`malignancy error ${time}`, incidenceAt(curve, 1, time, 0.95).standardError, error);
    }
    compare("variance at 120", incidenceAt(curve, 1, 120, 0.95).standardError ** 2, 4.61971485e-5);
    compare("low at 120", incidenceAt(curve, 1, 120, 0.95).low as number, 0.0516646518);
    compare("high at 120", incidenceAt(curve, 1, 120, 0.95).high as number, 0.0784751603);
    compare("death 60", incidenceAt(curve, 2, 60, 0.95).incidence, 0.32036701);
    compare("death 240", incidenceAt(curve, 2, 240, 0.95).incidence, 0.724027976);
    const naive = kaplanMeier(riskTable({ exit: mgusExit, end: mgusEnd }), 0, 1);
    compare("one less Kaplan-Meier at 240", 1 - survivalAt(naive, 240, 0.95).survival, 0.209561624);
    const melanoma = dataset("boot_melanoma");
    const table = riskTable({
      exit: column(melanoma, "time"),
      end: column(melanoma, "status").map((status) => (status === 2 ? 0 : status === 1 ? 1 : 2)),
      group: column(melanoma, "sex"),
    });
    for (const [group, own, other] of [
      [0, 0.170099381, 0.0398351648],
      [1, 0.31009828, 0.0509660227],
    ] as const) {
      const found = cumulativeIncidence(table, group);
      compare(`melanoma ${group}`, incidenceAt(found, 1, 1826.25, 0.95).incidence, own);
      compare(`other death ${group}`, incidenceAt(found, 2, 1826.25, 0.95).incidence, other);
    }
    const hand = cumulativeIncidence(
      riskTable({ exit: [1, 2, 3, 3, 4, 5, 5, 6, 8, 9], end: [1, 0, 2, 1, 3, 1, 0, 2, 1, 0] }),
    );
    for (const [time, a, aError, b, bError] of [
      [3, 0.2125, 0.134032995, 0.1125, 0.105900159],
      [5, 0.325, 0.155070548, 0.1125, 0.105900159],
      [8, 0.475, 0.177262165, 0.2625, 0.159479133],
    ] as const) {
      compare(`hand a ${time}`, incidenceAt(hand, 1, time, 0.95).incidence, a);
      compare(`hand a error ${time}`, incidenceAt(hand, 1, time, 0.95).standardError, aError);
      if (time === 5) continue;
      compare(`hand b ${time}`, incidenceAt(hand, 2, time, 0.95).incidence, b);
      compare(`hand b error ${time}`, incidenceAt(hand, 2, time, 0.95).standardError, bError);
    }
    compare("hand c error at 5", incidenceAt(hand, 3, 5, 0.95).standardError, 0.105900159);
  },
);

checkAgainst(
  {
    quantity: "Gray's test",
    unit: "chi-square, relative",
    source: "R 4.2.2, cmprsk 2.2-11, mgus2 and melanoma",
    kind: "independent",
    tolerance: 1e-8,
    relative: true,
    comparisons: 12,
  },
  (compare) => {
    const by = (group: number[], keep?: string) => {
      const rows = mgus.map((_, i) => i).filter((i) => keep === undefined || mgus[i]?.["sex"] === keep);
      const pick = (values: number[]) => rows.map((i) => values[i] as number);
      return riskTable({ exit: pick(mgusExit), end: pick(mgusEnd), group: pick(group) });
    };
    const sex = by(indicator(mgus, "sex", "M"));
    compare("malignancy by sex", grayTest([sex], 1).statistic, 1.19450783);
    compare("death by sex", grayTest([sex], 2).statistic, 11.651259);
    const third = column(mgus, "age").map((age) => (age <= 60 ? 0 : age <= 75 ? 1 : 2));
    const strata = [by(third, "F"), by(third, "M")];
    for (const kind of [1, 2]) {
      compare(`${kind} by age`, grayTest([by(third)], kind).statistic, golden["grayAge"]?.[kind - 1] as number);
      compare(
        `${kind} by age within sex`,
        grayTest(strata, kind).statistic,
        golden["grayAgeStrata"]?.[kind - 1] as number,
      );
      compare(
        `${kind} by age, rho 1`,
        grayTest([by(third)], kind, 1).statistic,
        golden["grayAgeRho"]?.[kind - 1] as number,
      );
    }
    const melanoma = dataset("boot_melanoma");
    const end = column(melanoma, "status").map((status) => (status === 2 ? 0 : status === 1 ? 1 : 2));
    const four = column(melanoma, "sex").map((value, i) => 2 * value + Number(melanoma[i]?.["ulcer"]));
    const exit = column(melanoma, "time");
    const bySex = grayTest([riskTable({ exit, end, group: column(melanoma, "sex") })], 1);
    compare("melanoma by sex", bySex.statistic, 5.81402086);
    for (const kind of [1, 2]) {
      const found = grayTest([riskTable({ exit, end, group: four })], kind);
      compare(`melanoma four groups ${kind}`, found.statistic, golden["grayMelanoma"]?.[kind - 1] as number);
    }
    compare("melanoma degrees of freedom", grayTest([riskTable({ exit, end, group: four })], 1).degreesOfFreedom, 3);
  },
);

checkAgainst(
  {
    quantity: "Mean number of recurrences by 24 months",
    unit: "relative",
    source: `${R}, bladder2`,
    kind: "independent",
    tolerance: 1e-8,
    relative: true,
    comparisons: 2,
  },
  (compare) => {
    const bladder = dataset("survival_bladder2");
    const table = riskTable({
      entry: column(bladder, "start"),
      exit: column(bladder, "stop"),
      end: column(bladder, "event"),
      group: column(bladder, "rx").map((rx) => rx - 1),
    });
    for (const [group, mean] of [1.44677419, 0.889836504].entries()) {
      const curve = kaplanMeier(table, group);
      const last = curve.time.findLastIndex((time) => time <= 24);
      compare(`treatment ${group + 1}`, curve.hazard[last] as number, mean);
    }
  },
);
