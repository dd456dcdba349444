import { readChartText } from "../../contract/index.ts";
import { fewestLumens, type DrugChart, type FewestLumens } from "../../core/drug-chart/index.ts";
import { minute } from "../../core/quantity/index.ts";
import {
  clockWords,
  lumenOfferSentence,
  lumensSentence,
  proofSentence,
  safetyStatement,
  stripWords,
  unknownPairSentence,
} from "../../language/index.ts";
import { defaultPolicy } from "../../policy/index.ts";
import type { Command } from "./command.ts";
import { faultOutput } from "./fault-output.ts";

/** Time to find and prove; a hospital's chart ends long before. */
const FOR_MS = 20_000;

/** The fewest lumens a drug chart needs, as charted and re-timed, with the strip as text. */
export const lumensCommand: Command = {
  name: "lumens",
  summary: "Find the fewest lumens a drug chart needs, and prove it.",
  usage: "veinwright lumens CHART.json [--json]",
  readsFile: true,
  run: ({ text, json }) => {
    const reading = readChartText(text, defaultPolicy.table["chart.largest-shift"].value);
    if (reading.kind === "faults") return faultOutput(reading.faults, json, "chart");
    const until = performance.now() + FOR_MS;
    const answer = fewestLumens(reading.chart, {
      mayGoOn: () => performance.now() < until,
      shortRunMin: minute(defaultPolicy.table["chart.short-run"].value),
    });
    if (answer.kind === "refused") return { exit: 65, output: JSON.stringify(answer.faults) };
    const proven = answer.retimed.status === "proven" && answer.asCharted.status === "proven";
    const output = json ? JSON.stringify(answer, null, 2) : spoken(answer, reading.chart);
    return { exit: proven ? 0 : 2, output };
  },
};

function spoken(answer: FewestLumens, chart: DrugChart): string {
  const { asCharted, retimed, offers, unknownPairs } = answer;
  const say = (title: string, lines: readonly (string | undefined)[]) => {
    const kept = lines.filter((line) => line !== undefined);
    return kept.length === 0 ? [] : ["", `${title}:`, ...kept.map((line) => `- ${line}`)];
  };
  const best = retimed.lumens < asCharted.lumens ? retimed : asCharted;
  const doses = [...best.doses].sort((a, b) => a.lumen - b.lumen || a.startMin - b.startMin);
  return [
    lumensSentence(answer, chart),
    ...say("Why not fewer", [proofSentence(best)]),
    ...say(
      "The day",
      doses.map(
        (dose) =>
          `${stripWords.lumen(dose.lumen)}, ${clockWords(dose.startMin)} ${dose.infusionId}${dose.movedMin === 0 ? "" : `, ${stripWords.moved(dose.chartedMin, dose.movedMin)}`}`,
      ),
    ),
    ...say("Kept apart because nobody knows", unknownPairs.slice(0, 20).map(unknownPairSentence)),
    ...say("Also possible", offers.map(lumenOfferSentence)),
    "",
    safetyStatement,
  ].join("\n");
}
