import { readFileSync } from "node:fs";
import { periodOf, rateModel, type Measure } from "../../../src/audit/index.ts";
import { checkAgainst } from "../../check.ts";
import { day, limits, measures, surveillance, table } from "./counted-year.ts";

/** Made by rate-model-golden.R beside this file. */
const golden = JSON.parse(readFileSync(new URL("rate-model-golden.json", import.meta.url), "utf8")) as Readonly<
  Record<"events" | "days" | "coefficients" | "errors" | "lower" | "upper", readonly number[]>
>;
const occlusion = measures().find(({ id }) => id === "occlusion") as Measure;
const period = periodOf(table, day("2025-01-01"), day("2026-01-01"));
const answer = rateModel(table, occlusion, period, ["lumens", "age", "left"], { limits, surveillance });

checkAgainst(
  {
    quantity: "Ratios of the rate of blocked lines by lumens, age and arm, with errors and profile limits",
    unit: "relative",
    source: "R 4.2.2, glm and uniroot on its deviance, on the same file (rate-model-golden.R)",
    kind: "independent",
    tolerance: 1e-7,
    relative: true,
    comparisons: 14,
  },
  (compare) => {
    if (answer.kind !== "fitted") throw new Error(answer.kind);
    compare("events", answer.events, golden.events[0] as number);
    compare("days", answer.days, golden.days[0] as number);
    for (const [at, { factor, logRatio, standardError, lower, upper }] of answer.ratios.entries()) {
      compare(`${factor}, log ratio`, logRatio, golden.coefficients[at] as number);
      compare(`${factor}, error`, standardError, golden.errors[at] as number);
      compare(`${factor}, lower`, Math.log(lower), golden.lower[at] as number);
      compare(`${factor}, upper`, Math.log(upper), golden.upper[at] as number);
    }
  },
);
