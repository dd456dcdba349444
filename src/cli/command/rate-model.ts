import { FACTOR_NAMES, rateGuards, rateModel, silenceOf, type FactorName } from "../../audit/index.ts";
import { rateModelLines, safetyStatement, sayMeasure, saySilence } from "../../language/index.ts";
import { defaultPolicy } from "../../policy/index.ts";
import type { Said } from "./command.ts";
import type { LineTableInput } from "./line-table.ts";
import { listed } from "./named-measures.ts";
import { eventMeasure } from "./survival.ts";

/** Ratios of a rate for some factors, over the lines and days of the period. */
export function rateModelAnswer(
  input: LineTableInput,
  { options, json }: { readonly options: Readonly<Record<string, string>>; readonly json: boolean },
): Said {
  const measure = eventMeasure(input, options["measure"]);
  if ("exit" in measure) return measure;
  const factors = listed(options["factors"]);
  const odd = factors.find((name) => !FACTOR_NAMES.some((one) => one === name));
  if (factors.length === 0 || odd !== undefined)
    return { exit: 64, output: `No factor "${odd ?? ""}". There are: ${FACTOR_NAMES.join(", ")}.` };
  const { shared, prior } = options;
  if (shared !== undefined && shared !== "ward" && shared !== "patient")
    return { exit: 64, output: `--shared is ${shared}; lines share a ward or a patient.` };
  const degrees = prior === undefined ? undefined : Number(prior);
  if (degrees !== undefined && !(degrees > 0 && degrees < Infinity))
    return { exit: 64, output: `--prior is ${prior}; give degrees above zero, 1 or 2.` };
  const { table, period, limits, surveillance } = input;
  const answer = rateModel(
    table,
    measure,
    period,
    factors as FactorName[],
    { limits, surveillance },
    { ...(shared && { shared }), ...(degrees !== undefined && { priorDegrees: degrees }) },
  );
  const guards = rateGuards(table, measure, period, { limits, surveillance }, "model");
  const exit = answer.kind === "fitted" ? 0 : 3;
  const silence = silenceOf(table, measure);
  if (json)
    return {
      exit,
      output: JSON.stringify(
        { policyVersion: defaultPolicy.version, measure: measure.id, period, guards, ...silence, ...answer },
        null,
        2,
      ),
    };
  return {
    exit,
    output: [
      sayMeasure(measure.id),
      ...rateModelLines(answer, factors.length, guards),
      ...saySilence(measure.id, silence),
      "",
      safetyStatement,
    ].join("\n"),
  };
}
