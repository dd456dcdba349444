import { checkTable, curvesOf, hazardModel, timeToEvent, type Measure } from "../../../src/audit/index.ts";
import { logRank, riskTable } from "../../../src/core/survival/index.ts";
import { checkAgainst } from "../../check.ts";
import { golden, limits, measures, surveillance, table } from "./counted-year.ts";

/** The year R counted, followed from insertion: curves, tests and hazard ratios against R's survival on the same file. */
const { facts } = checkTable(table, limits, surveillance);
const occlusion = measures().find(({ id }) => id === "occlusion") as Measure;
const followed = timeToEvent(facts, occlusion);
const theirs = (name: string) => golden[name] as number;

checkAgainst(
  {
    quantity: "Chance of a blocked line by day 7, 14 and 30, with its error, and the part free of it",
    unit: "relative",
    source: "R 4.2.2, survival 3.5-3, survfit on the same file",
    kind: "independent",
    tolerance: 1e-9,
    relative: true,
    comparisons: 18,
  },
  (compare) => {
    for (const point of curvesOf(followed, undefined, [7, 14, 30], limits).curves[0]?.points ?? []) {
      compare(`incidence ${point.day}`, point.incidence, theirs(`aj ${point.day} event`));
      compare(`other end ${point.day}`, point.otherEnd, theirs(`aj ${point.day} other`));
      compare(`error ${point.day}`, point.standardError, theirs(`aj ${point.day} se`));
      compare(`free ${point.day}`, point.freeOfEvent, theirs(`km ${point.day}`));
      compare(`free, lower ${point.day}`, point.freeLower ?? Number.NaN, theirs(`km ${point.day} lower`));
      compare(`free, upper ${point.day}`, point.freeUpper ?? Number.NaN, theirs(`km ${point.day} upper`));
    }
  },
);

checkAgainst(
  {
    quantity: "Log-rank of blocked lines by lumens, and by arm within wards",
    unit: "relative",
    source: "R 4.2.2, survival 3.5-3, survdiff on the same file",
    kind: "independent",
    tolerance: 1e-9,
    relative: true,
    comparisons: 2,
  },
  (compare) => {
    compare(
      "lumens",
      curvesOf(followed, "lumens", [], limits).logRank?.chiSquare ?? Number.NaN,
      theirs("log-rank lumens"),
    );
    const wards = ["A", "B", "C", "D", "E"].map((ward) => {
      const own = followed.lines.flatMap(({ row }, at) => (row.ward === ward ? [at] : []));
      return riskTable({
        exit: own.map((at) => followed.follow.exit[at] as number),
        end: own.map((at) => followed.follow.end[at] as number),
        group: own.map((at) => Number(followed.lines[at]?.row.side === "right arm")),
      });
    });
    compare("arm within wards", logRank(wards, { kind: "log-rank" }, 1).statistic, theirs("log-rank side by ward"));
  },
);

checkAgainst(
  {
    quantity: "Hazard ratios of a blocked line by lumens, ratio, position and age, errors by patient",
    unit: "relative",
    source: "R 4.2.2, survival 3.5-3, coxph with cluster on the same file",
    kind: "independent",
    tolerance: 1e-6,
    relative: true,
    comparisons: 14,
  },
  (compare) => {
    const model = hazardModel(followed, ["lumens", "ratio", "position", "age"], limits);
    if (model.kind !== "fitted") throw new Error(model.kind);
    compare("rows", model.used, theirs("cox rows"));
    compare("events", model.events, theirs("cox events"));
    for (const { factor, logRatio, standardError, robustError } of model.ratios) {
      compare(factor, logRatio, theirs(`cox ${factor}`));
      compare(`${factor}, error`, standardError, theirs(`cox ${factor} se`));
      compare(`${factor}, error by patient`, robustError ?? Number.NaN, theirs(`cox ${factor} robust se`));
    }
  },
);

checkAgainst(
  {
    quantity: "How well the model of blocked lines foretells them, and what patients share beyond it",
    unit: "relative",
    source: "R 4.2.2, survival 3.5-3, concordance and frailty on the same file, its search for the variance continued",
    kind: "independent",
    tolerance: 2e-5,
    relative: true,
    comparisons: 8,
  },
  (compare) => {
    const model = hazardModel(followed, ["lumens", "ratio", "position", "age"], limits, { sharedByPatient: true });
    if (model.kind !== "fitted" || model.shared?.kind !== "fitted") throw new Error("no fit");
    compare("concordance", model.concordance.concordance, theirs("cox concordance"));
    compare("its error, by patient", model.concordance.standardError, theirs("cox concordance se"));
    compare("variance", model.shared.variance, theirs("cox shared variance"));
    compare("chance", model.shared.chance, theirs("cox shared chance"));
    for (const { factor, ratio } of model.shared.ratios) {
      compare(`for one patient, ${factor}`, ratio, Math.exp(theirs(`cox shared ${factor}`)));
    }
  },
);
