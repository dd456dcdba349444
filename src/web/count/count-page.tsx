import { useDeferredValue, useMemo, type ReactNode } from "react";
import {
  lastDay,
  lastTwelveMonths,
  lineCount,
  periodOf,
  type AuditReport,
  type Measure,
  type Yardstick,
} from "../../audit/index.ts";
import type { Moment } from "../../core/dwell/index.ts";
import { countGroups, countWords, sayIssue, sayDay } from "../../language/index.ts";
import type { LocalPolicy } from "../../policy/index.ts";
import { askedDays, countAddress, type CountAddress } from "./count-address.ts";
import { cssText } from "../css-text.ts";
import { rulesFor, type CountSource } from "./count-table.ts";
import { FigureRow } from "./figure-row.tsx";
import { FileEntry } from "./file-entry.tsx";
import { Fold } from "./fold.tsx";
import { GlanceLines } from "./glance-lines.tsx";
import { MeasureSum } from "./measure-sum.tsx";
import { OwnLines } from "./own-lines.tsx";
import { PeriodEntry } from "./period-entry.tsx";
import { useReport } from "./use-report.ts";
import { WardPart } from "./ward-part.tsx";

export interface CountProps {
  readonly source: CountSource;
  readonly measures: readonly Measure[];
  readonly yardsticks: readonly Yardstick[];
  readonly address: CountAddress;
  readonly policy: LocalPolicy;
  readonly practice: boolean;
}

/** Every measure of a period as one quiet list; a pressed number opens its sum, its plates and its lines. */
export function CountPage({
  source,
  measures,
  yardsticks,
  address,
  policy,
  practice,
  open,
  today,
}: CountProps & { readonly open: (file: CountSource | undefined) => void; readonly today: Moment }): ReactNode {
  const { table } = source;
  const { from, to } = askedDays(address, lastTwelveMonths(table));
  // the boxes answer at once; the figures follow as soon as they are counted
  const days = useDeferredValue(`${from} ${to}`);
  const period = useMemo(() => {
    const [first, last] = days.split(" ") as [typeof from, typeof to];
    return periodOf(table, first, last);
  }, [table, days]);
  const rules = useMemo(() => rulesFor(policy, period), [policy, period]);
  const report = useReport(table, measures, period, rules);
  return (
    <main className="count">
      <h1>{countWords.title}</h1>
      <p className="lead">{countWords.lead}</p>
      {practice ? <p className="soft">{countWords.rehearsal}</p> : null}
      {lineCount(table) === 0 ? <p className="headline">{countWords.noLines}</p> : null}
      {report && rules ? (
        <>
          <p className="count-span" data-used={report.linesUsed} data-given={report.linesGiven}>
            {sayDay(period.from)} to {sayDay(lastDay(period))}. {countWords.used(report.linesUsed, report.linesGiven)}
          </p>
          {report.linesGiven > 0 ? (
            <GlanceLines report={report} table={table} measures={measures} rules={rules} />
          ) : null}
          <p className="to-pack">
            <a href={`#${countAddress({ ...address, from, to, measure: undefined }, "/count/pack")}`}>
              {countWords.pack}
            </a>
          </p>
          <style>{`@media print { @page { @top-left { font: 8.5pt sans-serif; content: ${cssText(countWords.printHead(source.name, sayDay(period.from), sayDay(lastDay(period))))}; } } }`}</style>
        </>
      ) : rules ? (
        <output className="waiting">{countWords.counting(lineCount(table))}</output>
      ) : (
        <p className="headline">{countWords.noRule}</p>
      )}
      <Fold name={countWords.ask} part="ask">
        <PeriodEntry address={address} from={from} to={to} table={table} />
        <FileEntry source={source} open={open} today={today} />
      </Fold>
      {report && rules ? (
        <>
          {grouped(measures).map(([title, own]) => (
            <section key={title} aria-label={title}>
              <h2>{title}</h2>
              <ul className="figures">
                {own.map((measure) => {
                  const figure = report.figures.find((one) => one.measure === measure.id && !one.stratum);
                  if (!figure || (figure.form === "nothing to count over" && figure.given === 0)) return null;
                  const pressed = address.measure === measure.id;
                  return (
                    <FigureRow
                      key={measure.id}
                      figure={figure}
                      measure={measure}
                      report={report}
                      pressed={pressed}
                      address={{ ...address, from, to }}
                    >
                      {pressed ? (
                        <MeasureSum
                          source={source}
                          figure={figure}
                          measure={measure}
                          yardsticks={yardsticks}
                          period={period}
                          by={address.by}
                          rules={rules}
                          address={{ ...address, from, to }}
                        />
                      ) : null}
                    </FigureRow>
                  );
                })}
              </ul>
            </section>
          ))}
          <WardPart source={source} measures={measures} period={period} rules={rules} />
          <Quality report={report} />
          <OwnLines table={table} measures={measures} period={period} rules={rules} />
        </>
      ) : null}
    </main>
  );
}

/** Each measure in the first group that holds it. */
function grouped(measures: readonly Measure[]): readonly (readonly [string, readonly Measure[]])[] {
  const placed = (measure: Measure) => countGroups.findIndex(([, holds]) => holds(measure));
  return countGroups.map(([title], at) => [title, measures.filter((measure) => placed(measure) === at)] as const);
}

function Quality({ report }: { readonly report: AuditReport }): ReactNode {
  if (report.issues.length === 0) return null;
  return (
    <section aria-label="The record itself">
      <h2>The record itself</h2>
      <ul className="issues">
        {report.issues.map((issue) => (
          <li key={issue.code}>{sayIssue(issue)}</li>
        ))}
      </ul>
    </section>
  );
}
