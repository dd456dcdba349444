import { useContext, useEffect, useMemo, type ReactNode } from "react";
import { createPortal } from "react-dom";
import { chartFromDraft, readChart } from "../../contract/index.ts";
import { CONTENTS, type DrugChart, type FewestLumens } from "../../core/drug-chart/index.ts";
import { isMissing } from "../../core/missing/index.ts";
import { minute } from "../../core/quantity/index.ts";
import { lumenStrip } from "../../figure/index.ts";
import {
  countEnded,
  lumenOfferSentence,
  lumens,
  lumensSentence,
  proofSentence,
  sayFault,
  unknownPairSentence,
} from "../../language/index.ts";
import type { LocalPolicy } from "../../policy/index.ts";
import { practiceCharts } from "../../practice/index.ts";
import { Choice, EntryContext, Field, YES_NO } from "../plan/field.tsx";
import { useFewestLumens, type Counting } from "./use-fewest-lumens.ts";
import { FigureTable } from "../plan/figure-table.tsx";

/** What a chart asks of a line. */
export interface ChartNeed {
  readonly lumens: number;
  readonly fastestMlPerHour: number | undefined;
}

/** Which of the two counts the plan takes; "charted" while nobody chose. */
export type ChartUse = "charted" | "re-timed";

/** The drug chart: its entry beside the rest of the entry, its answer where the answers stand. */
export function ChartPart({
  policy,
  place,
  paper,
  take,
}: {
  readonly policy: LocalPolicy;
  /** Where the answer is drawn. */
  readonly place: Element | null;
  /** Where its day is drawn for paper. */
  readonly paper: Element | null;
  /** Told what the plan should carry, or undefined while no chart answers. */
  readonly take: (need: ChartNeed | undefined) => void;
}): ReactNode {
  const { fields, type } = useContext(EntryContext);
  const draft = JSON.stringify(Object.entries(fields).filter(([path]) => path.startsWith("chart.rows.")));
  const { chart, faults } = useMemo(() => readDraft(draft, policy.table["chart.largest-shift"].value), [draft, policy]);
  const shortRunMin = minute(policy.table["chart.short-run"].value);
  const counting = useFewestLumens(chart, shortRunMin);
  const answer = typeof counting === "object" ? counting : undefined;
  const use: ChartUse = fields["chart.use"] === "re-timed" ? "re-timed" : "charted";
  const count = answer && (use === "re-timed" ? answer.retimed.lumens : answer.asCharted.lumens);
  const fastest = chart && fastestRate(chart);
  useEffect(
    () => take(count === undefined ? undefined : { lumens: count, fastestMlPerHour: fastest }),
    [take, count, fastest],
  );
  const rows = rowsOf(fields);
  return (
    <>
      <h2>The drug chart</h2>
      {rows.map((row) => (
        <Row key={row} row={row} faults={faults} />
      ))}
      <button type="button" className="add" onClick={() => type(`chart.rows.${(rows.at(-1) ?? -1) + 1}.name`, "drug")}>
        + an infusion
      </button>
      {rows.length === 0 ? (
        <button type="button" className="add" onClick={() => fillWith(type)}>
          + start from a practice chart
        </button>
      ) : null}
      {paper && chart && answer ? createPortal(<OnPaper chart={chart} answer={answer} use={use} />, paper) : null}
      {place && chart ? createPortal(<Said chart={chart} counting={counting} use={use} />, place) : null}
    </>
  );
}

/** Fastest infusion of a chart; undefined where no rate was written. */
function fastestRate(chart: DrugChart): number | undefined {
  const rates = chart.infusions.flatMap(({ rateMlPerHour }) =>
    isMissing(rateMlPerHour) ? [] : [rateMlPerHour as number],
  );
  return rates.length === 0 ? undefined : Math.max(...rates);
}

function readDraft(
  draft: string,
  largestShift: number,
): {
  readonly chart: DrugChart | undefined;
  readonly faults: Readonly<Record<string, string>>;
} {
  const typed = chartFromDraft(Object.fromEntries(JSON.parse(draft) as [string, string][]));
  if (!typed) return { chart: undefined, faults: {} };
  const reading = readChart(typed.json, largestShift);
  if (reading.kind === "chart") return { chart: reading.chart, faults: {} };
  const said = reading.faults.map((fault) => [
    typed.typedPath(fault.path),
    sayFault({ ...fault, path: "" }).replace("The file", "This"),
  ]);
  return { chart: undefined, faults: Object.fromEntries(said) as Record<string, string> };
}

const rowsOf = (fields: Readonly<Record<string, string>>): readonly number[] =>
  Object.entries(fields)
    .flatMap(([path, text]) => {
      const [, index] = /^chart\.rows\.(\d+)\.name$/.exec(path) ?? [];
      return index !== undefined && text !== "" ? [Number(index)] : [];
    })
    .sort((a, b) => a - b);

function fillWith(type: (path: string, text: string) => void): void {
  const [practice] = practiceCharts;
  for (const [row, infusion] of (practice?.chart.infusions ?? []).entries()) {
    const put = (field: string, value: unknown) => {
      if (typeof value === "string" || typeof value === "number") type(`chart.rows.${row}.${field}`, String(value));
      if (typeof value === "boolean") type(`chart.rows.${row}.${field}`, value ? "yes" : "no");
    };
    put("name", infusion.name);
    put("times", infusion.times);
    put("run", infusion.runMinutes);
    put("flush", infusion.flushAfterMinutes);
    put("move", infusion.moveMinutes);
    put("rate", infusion.rateMlPerHour);
    put("content", infusion.content);
    put("oralForm", infusion.oralForm);
  }
}

function Row({ row, faults }: { readonly row: number; readonly faults: Readonly<Record<string, string>> }): ReactNode {
  const entry = useContext(EntryContext);
  const path = (field: string) => `chart.rows.${row}.${field}`;
  const own = useMemo(() => ({ ...entry, faults: { ...entry.faults, ...faults } }), [entry, faults]);
  const remove = () => {
    for (const typed of Object.keys(entry.fields)) if (typed.startsWith(`chart.rows.${row}.`)) entry.type(typed, "");
  };
  return (
    <EntryContext value={own}>
      <details className="infusion" open={entry.fields[path("times")] === undefined}>
        <summary>
          {entry.fields[path("name")]} {entry.fields[path("times")]}
        </summary>
        <Field path={path("name")} label="Name" wide />
        <Field path={path("times")} label="At" wide />
        <p className="soft">06:00 18:00, every 8 h from 06:00, or continuous</p>
        <Field path={path("run")} label="Runs" unit="min" />
        <Field path={path("flush")} label="Flush after" unit="min" />
        <Field path={path("move")} label="May move, either way" unit="min" />
        <Field path={path("rate")} label="Rate" unit="mL/h" />
        <Choice path={path("content")} label="It is" options={CONTENTS.map((word) => [word, word] as const)} />
        <Field path={path("mixes")} label="Known to mix with" wide />
        <Choice path={path("oralForm")} label="Exists by mouth" options={YES_NO} />
        <Choice path={path("peripheral")} label="A small vein tolerates it" options={YES_NO} />
        <button type="button" className="add" onClick={remove}>
          − {entry.fields[path("name")]}
        </button>
      </details>
    </EntryContext>
  );
}

interface Answered {
  readonly chart: DrugChart;
  readonly answer: FewestLumens;
  readonly use: ChartUse;
}

function OnPaper({ chart, answer, use }: Answered): ReactNode {
  const shown = use === "re-timed" ? answer.retimed : answer.asCharted;
  const figure = lumenStrip({ id: "lumens-paper", chart, answer: shown });
  return (
    <>
      <h2>{figure.sentence}</h2>
      <div dangerouslySetInnerHTML={{ __html: figure.svg }} />
    </>
  );
}

function Said({
  chart,
  counting,
  use,
}: {
  readonly chart: DrugChart;
  readonly counting: Counting | undefined;
  readonly use: ChartUse;
}): ReactNode {
  if (counting === "ended") return <p className="chart-said">{countEnded}</p>;
  if (typeof counting !== "object") return <p className="soft">Counting lumens ...</p>;
  const answer = counting;
  const shown = use === "re-timed" ? answer.retimed : answer.asCharted;
  const figure = lumenStrip({ id: "lumens", chart, answer: shown });
  const proof = proofSentence(shown);
  return (
    <section
      className="chart-said"
      data-lumens={shown.lumens}
      data-retimed={answer.retimed.lumens}
      aria-label="Fewest lumens"
    >
      <p className="headline">{lumensSentence(answer, chart)}</p>
      {answer.retimed.lumens < answer.asCharted.lumens ? (
        <Choice
          path="chart.use"
          label="Plan with"
          options={[
            ["charted", `${lumens(answer.asCharted.lumens)}, as charted`],
            ["re-timed", `${lumens(answer.retimed.lumens)}, doses moved`],
          ]}
        />
      ) : null}
      <figure>
        <div className="drawing" dangerouslySetInnerHTML={{ __html: figure.svg }} />
        <figcaption>{figure.sentence}</figcaption>
      </figure>
      <details className="compared">
        <summary>Why not fewer, what is not known, and other ways</summary>
        <ul className="plain">
          {proof ? <li>{proof}</li> : null}
          {answer.unknownPairs.map((pair) => (
            <li key={pair.join(" ")}>{unknownPairSentence(pair)}</li>
          ))}
          {answer.offers.map((offer) => (
            <li key={`${offer.kind} ${offer.infusionId}`}>{lumenOfferSentence(offer)}</li>
          ))}
        </ul>
        <FigureTable table={figure.table} />
      </details>
    </section>
  );
}
