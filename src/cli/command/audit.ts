import {
  audit,
  besides,
  COMPARED,
  drawnTogether,
  figuresForOutside,
  glance,
  lastDay,
  wardMonthDays,
  wardUse,
  rateGuards,
  stratumOf,
  wardFunnel,
  type AuditReport,
  type AuditTable,
  type Figure,
  type Guard,
  type Measure,
  type OutsideFigure,
  type StratumName,
  type WardMonthDays,
  type WardsUse,
  type Yardstick,
} from "../../audit/index.ts";
import {
  drawnLines,
  glanceHeadline,
  glanceLines,
  sparseLines,
  houseCodesSaid,
  oneAnswerLeaves,
  notYours,
  safetyStatement,
  sayApart,
  sayDay,
  sayFigure,
  sayGaps,
  sayIssue,
  sayMeasure,
  sayProvisional,
  sayYardstick,
  wardMonthLines,
  wardUseLines,
  funnelLines,
  partLines,
  ratesAnswer,
} from "../../language/index.ts";
import { defaultPolicy, denominatorRules } from "../../policy/index.ts";
import type { Command, Exit, Said } from "./command.ts";
import { codedFor, legendOf } from "./disguise.ts";
import { LINE_TABLE_OPTIONS, lineTableOrRecord } from "./line-table.ts";
import { eventMeasures, factorWords, lineTableWords, listed, namedMeasures, splitWords } from "./named-measures.ts";
import { nothingToCount } from "./nothing-to-count.ts";
import { rateModelAnswer } from "./rate-model.ts";

/** Every measure over a period, with intervals, rows used, what is missing, and the quality of the record. */
export const auditCommand: Command = {
  name: "audit",
  summary: "Count a period of a line table: every measure with its interval and its gaps.",
  usage:
    "veinwright audit (LINES.csv | --store PLACE) [--measure A,B] [--from DAY] [--to DAY] [--as-of DAY] [--by ward,lumens] [--drawn yes] [--outside yes [--legend yes]] [--json]",
  readsFile: true,
  readsRecord: true,
  explains: lineTableWords(false, [splitWords]),
  options: [...LINE_TABLE_OPTIONS, "--measure", "--drawn", "--outside", "--legend", "--store"],
  run: (asked) => answer(asked, (measures) => measures, true),
};

/** The rates alone: events over line-days. */
export const ratesCommand: Command = {
  name: "rates",
  summary: "Rates per 1,000 line-days of a line table, with exact intervals; or their ratios for some factors.",
  usage:
    "veinwright rates (LINES.csv | --store PLACE) [--from DAY] [--to DAY] [--as-of DAY] [--by ward,lumens] [--drawn yes] [--outside yes [--legend yes]] [--measure A,B] [--factors lumens,ratio [--shared ward|patient] [--prior 2]] [--json]",
  readsFile: true,
  readsRecord: true,
  explains: lineTableWords(true, [splitWords, factorWords]),
  options: [
    ...LINE_TABLE_OPTIONS,
    "--drawn",
    "--outside",
    "--legend",
    "--store",
    "--measure",
    "--factors",
    "--shared",
    "--prior",
  ],
  run: async (asked) => {
    const { factors, shared, prior } = asked.options;
    if (factors === undefined)
      return shared === undefined && prior === undefined
        ? answer(asked, eventMeasures)
        : { exit: 64, output: "--shared and --prior belong to a model: name its --factors." };
    if (asked.options["by"] !== undefined || asked.options["outside"] !== undefined)
      return { exit: 64, output: "A model is of all lines and stays here. Leave --by and --outside out." };
    const input = await lineTableOrRecord(asked);
    return "kind" in input ? { exit: input.exit, output: input.output } : rateModelAnswer(input, asked);
  },
};

async function answer(
  asked: Parameters<Command["run"]>[0],
  wanted: (measures: readonly Measure[]) => readonly Measure[],
  atAGlance = false,
): Promise<Said> {
  const input = await lineTableOrRecord(asked);
  if ("kind" in input) return { exit: input.exit, output: input.output };
  const { period, strata, limits, surveillance, yardsticks } = input;
  const outside = asked.options["outside"] === "yes";
  const coded = outside ? codedFor(input.table, asked.text) : { table: input.table, words: [] };
  const legend = outside ? legendOf(asked.options, coded.words) : undefined;
  if (legend) return legend;
  const { table } = coded;
  const all = wanted(input.measures);
  const names = listed(asked.options["measure"]);
  const named = namedMeasures(all, names);
  if ("exit" in named) return named;
  const isNamed = names.length > 0;
  const measures = isNamed ? named.measures : all;
  const rules = { limits, surveillance };
  const tooFine = outside || asked.options["drawn"] === "yes" ? tooFineOf(table, strata, limits) : undefined;
  if (tooFine) return tooFine;
  const report = audit(table, measures, period, strata, rules);
  // what leaves the service is not drawn: a drawn figure would tell of the cells withheld
  const drawn =
    asked.options["drawn"] === "yes" && !outside
      ? measures.flatMap((measure) =>
          strata.flatMap((by) => {
            const found = drawnTogether(report.figures, measure, by, limits.level);
            return found ? [{ measure, found }] : [];
          }),
        )
      : [];
  // a ward's month is small: it stays in the service
  const wardMonths = outside ? [] : wardMonthDays(table, period, rules, denominatorRules);
  const wards = wardMonths.length > 0 ? wardUse(table, wardMonths, input.measures, period, rules) : undefined;
  // wards are held against each other where they were asked for; small cells never leave the service this way
  const funnels =
    strata.includes("ward") && !outside
      ? measures.flatMap((measure) => wardFunnel(report.figures, measure, limits) ?? [])
      : [];
  const guards = outside
    ? []
    : eventMeasures(measures).flatMap((measure) => {
        const raised = rateGuards(table, measure, period, rules);
        return raised.length > 0 ? [{ measure: measure.id, guards: raised }] : [];
      });
  const exit: Exit = report.issues.some(({ severity }) => severity !== "warn") ? 2 : 0;
  const shown = outside ? figuresForOutside(report, measures, limits.smallestShown) : report;
  if (asked.json) {
    const elsewhere = measures.flatMap((measure) => besideOf(measure, yardsticks));
    return {
      exit,
      output: JSON.stringify(
        {
          policyVersion: defaultPolicy.version,
          ...shown,
          elsewhere,
          ...(outside && { warning: oneAnswerLeaves }),
          ...(wards && { wardMonths, wards }),
          ...(guards.length > 0 && { guards }),
          ...(funnels.length > 0 && {
            funnels: funnels.map((funnel) => ({ ...funnel, curve: undefined, wideCurve: undefined })),
          }),
          ...(drawn.length > 0 && { drawn: drawn.map(({ measure, found }) => ({ measure: measure.id, ...found })) }),
        },
        null,
        2,
      ),
    };
  }
  const nothing = nothingToCount(input);
  if (nothing !== undefined)
    return { exit, output: [nothing, ...qualityLines(report), "", safetyStatement].join("\n") };
  // small counts may tell a person: what leaves the service starts with its figures
  const seen = atAGlance && !isNamed && !outside ? glance(report, table, measures, rules) : undefined;
  const together = isNamed ? undefined : shown.figures.find((one) => one.measure === TOGETHER && !one.stratum);
  // every measure of every part would be read by nobody: the kinds that are watched, and all together
  const isTold = (id: Measure["id"]): boolean => isNamed || COMPARED.has(id) || id === TOGETHER;
  const own = isNamed ? shown.figures : shown.figures.filter(({ stratum }) => !stratum);
  return {
    exit,
    output: [
      ...(seen ? [glanceHeadline(seen)] : together ? [ratesAnswer(together)] : []),
      `${sayDay(period.from)} to ${sayDay(lastDay(period))}. ${report.linesUsed} of ${report.linesGiven} lines used.`,
      ...(seen ? [...glanceLines(seen), ""] : []),
      ...figureLines(own, measures, report, strata.length > 0 ? [] : yardsticks, guards),
      ...(isNamed
        ? []
        : partLines(
            shown.figures,
            measures.filter(({ id }) => isTold(id)),
          )),
      ...funnels.filter(({ measure }) => isTold(measure)).flatMap((one) => funnelLines(one, isNamed)),
      ...drawn
        .filter(({ measure }) => isTold(measure.id))
        .flatMap(({ measure, found }) => [
          sayMeasure(measure.id),
          ...drawnLines(found, measure.numerator.count === "events"),
        ]),
      ...wardLines(wardMonths, wards),
      // faults name wards' months and count single lines: they stay, as in the JSON
      ...(outside ? ["", houseCodesSaid, oneAnswerLeaves] : qualityLines(report)),
      "",
      safetyStatement,
    ].join("\n"),
  };
}

/** The sum over all kinds of event, said first where no measure is named. */
const TOGETHER = "any-complication";
/** Both look at every group beside every other: a day's work for thousands of groups. */
const MOST_GROUPS = 300;

function tooFineOf(
  { lines }: AuditTable,
  strata: readonly StratumName[],
  limits: Parameters<typeof stratumOf>[2],
): Said | undefined {
  for (const by of strata) {
    const values = new Set(lines.map((row) => stratumOf(row, by, limits))).size;
    if (values > MOST_GROUPS)
      return {
        exit: 3,
        output: `The split by ${by} has ${values} values; --outside and --drawn take at most ${MOST_GROUPS}. Write what is one under one name.`,
      };
  }
  return undefined;
}

function figureLines(
  figures: readonly (Figure | OutsideFigure)[],
  measures: readonly Measure[],
  report: AuditReport,
  yardsticks: readonly Yardstick[],
  guards: readonly { readonly measure: string; readonly guards: readonly Guard[] }[],
): readonly string[] {
  const byId = new Map(measures.map((measure) => [measure.id, measure]));
  return figures.flatMap((figure) => {
    const measure = byId.get(figure.measure) as Measure;
    const place = figure.stratum ? `  ${figure.stratum.by} ${figure.stratum.value}: ` : "";
    const notes = [sayGaps(figure, measure), "lines" in figure ? sayProvisional(figure, report) : undefined].filter(
      (note) => note !== undefined,
    );
    // beside no number of one's own there is nothing to set
    const isBare = figure.stratum !== undefined || figure.form === "never written down";
    const elsewhere = isBare ? [] : elsewhereLines(measure, yardsticks);
    const warned = figure.stratum ? undefined : guards.find((one) => one.measure === measure.id);
    return [
      `${place}${sayFigure(figure, measure)}`,
      ...sparseLines(warned?.guards ?? []).map((line) => `  ${line}`),
      ...notes.map((note) => `${place ? "    " : "  "}${note}`),
      ...elsewhere.map((line) => `  ${line}`),
    ];
  });
}

/** What others published, under the figure of the whole service only. */
function elsewhereLines(measure: Measure, yardsticks: readonly Yardstick[]): readonly string[] {
  const { alike, apart } = besides(yardsticks, measure);
  return [...alike.map((one) => `${sayYardstick(one)} ${notYours}`), ...apart.map(sayApart)];
}

/** A figure that is counted otherwise leaves its number out here as well. */
function besideOf(measure: Measure, yardsticks: readonly Yardstick[]): readonly object[] {
  const { alike, apart } = besides(yardsticks, measure);
  if (alike.length + apart.length === 0) return [];
  return [
    {
      measure: measure.id,
      alike,
      apart: apart.map(({ yardstick: { id, population, source }, differences }) => ({
        id,
        population,
        source,
        differences,
      })),
    },
  ];
}

const wardLines = (months: readonly WardMonthDays[], wards: WardsUse | undefined): readonly string[] =>
  wards === undefined
    ? []
    : [
        "",
        "The wards' own days:",
        ...wardUseLines(wards),
        "",
        "The wards' own months:",
        ...months.flatMap(wardMonthLines),
      ];

const qualityLines = ({ issues }: AuditReport): readonly string[] =>
  issues.length === 0 ? [] : ["", "The record:", ...issues.map((issue) => `- ${sayIssue(issue)}`)];
