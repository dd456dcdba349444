import {
  audit,
  figuresForOutside,
  lastDay,
  type AuditReport,
  type Figure,
  type Measure,
  type OutsideFigure,
} from "../../audit/index.ts";
import { qualityWords, safetyStatement, sayDay, sayFigure, sayGaps, sayProvisional } from "../../language/index.ts";
import { defaultPolicy } from "../../policy/index.ts";
import type { Command, Exit, Said } from "./command.ts";
import { LINE_TABLE_OPTIONS, lineTableOrRecord } from "./line-table.ts";

/** Every measure over a period, with intervals, rows used, what is missing, and the quality of the record. */
export const auditCommand: Command = {
  name: "audit",
  summary: "Count a period of a line table: every measure with its interval and its gaps.",
  usage:
    "veinwright audit (LINES.csv | --store PLACE) [--from DAY] [--to DAY] [--as-of DAY] [--by ward,lumens] [--outside yes] [--json]",
  readsFile: true,
  readsRecord: true,
  options: [...LINE_TABLE_OPTIONS, "--outside", "--store"],
  run: (asked) => answer(asked, () => true),
};

/** The rates alone: events over line-days. */
export const ratesCommand: Command = {
  name: "rates",
  summary: "Rates per 1,000 line-days of a line table, with exact intervals.",
  usage:
    "veinwright rates (LINES.csv | --store PLACE) [--from DAY] [--to DAY] [--as-of DAY] [--by ward,lumens] [--outside yes] [--json]",
  readsFile: true,
  readsRecord: true,
  options: [...LINE_TABLE_OPTIONS, "--outside", "--store"],
  run: (asked) => answer(asked, ({ numerator }) => numerator.count === "events"),
};

async function answer(asked: Parameters<Command["run"]>[0], wanted: (measure: Measure) => boolean): Promise<Said> {
  const input = await lineTableOrRecord(asked);
  if ("kind" in input) return { exit: input.exit, output: input.output };
  const { table, period, strata, limits, surveillance } = input;
  const measures = input.measures.filter(wanted);
  const report = audit(table, measures, period, strata, { limits, surveillance });
  const outside = asked.options["outside"] === "yes";
  const exit: Exit = report.issues.some(({ severity }) => severity !== "warn") ? 2 : 0;
  if (asked.json) {
    const shown = outside ? figuresForOutside(report, measures, limits.smallestShown) : report;
    return { exit, output: JSON.stringify({ policyVersion: defaultPolicy.version, ...shown }, null, 2) };
  }
  const figures = outside ? figuresForOutside(report, measures, limits.smallestShown).figures : report.figures;
  return {
    exit,
    output: [
      `${sayDay(period.from)} to ${sayDay(lastDay(period))}. ${report.linesUsed} of ${report.linesGiven} lines used.`,
      ...figureLines(figures, measures, report),
      ...qualityLines(report),
      "",
      safetyStatement,
    ].join("\n"),
  };
}

function figureLines(
  figures: readonly (Figure | OutsideFigure)[],
  measures: readonly Measure[],
  report: AuditReport,
): readonly string[] {
  const byId = new Map(measures.map((measure) => [measure.id, measure]));
  return figures.flatMap((figure) => {
    const measure = byId.get(figure.measure) as Measure;
    const place = figure.stratum ? `  ${figure.stratum.by} ${figure.stratum.value}: ` : "";
    const notes = [sayGaps(figure, measure), "lines" in figure ? sayProvisional(figure, report) : undefined].filter(
      (note) => note !== undefined,
    );
    return [`${place}${sayFigure(figure, measure)}`, ...notes.map((note) => `${place ? "    " : "  "}${note}`)];
  });
}

const qualityLines = ({ issues }: AuditReport): readonly string[] =>
  issues.length === 0
    ? []
    : [
        "",
        "The record:",
        ...issues.map(({ code, lines }) => `- ${code}, ${lines.length} lines: ${qualityWords[code]}`),
      ];
