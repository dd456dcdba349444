import { useMemo, useState, type ReactNode } from "react";
import { Link } from "wouter";
import {
  audit,
  besides,
  lineOfKey,
  rateGuards,
  type AuditRules,
  type Figure,
  type Measure,
  type Period,
  type StratumName,
  type Yardstick,
} from "../../audit/index.ts";
import {
  countWords,
  referralRowWords,
  rowWords,
  sayFigure,
  sayMeasure,
  sparseLines,
  sumLines,
} from "../../language/index.ts";
import { goToCount, OPEN_STRATA, type CountAddress } from "./count-address.ts";
import type { CountSource } from "./count-table.ts";
import { Elsewhere } from "./elsewhere.tsx";
import { MeasurePlates } from "./measure-plates.tsx";
import { PartsPlate } from "./parts-plate.tsx";

/** Lines listed at first, and after a press; the whole list is in the command and in the file. */
const FIRST = 24;
const SHOWN = 500;

/** What stands behind a pressed number: its sum, its plates, its parts and its lines. */
export function MeasureSum({
  source,
  figure,
  measure,
  yardsticks,
  period,
  by,
  rules,
  address,
}: {
  readonly source: CountSource;
  readonly figure: Figure;
  readonly measure: Measure;
  readonly yardsticks: readonly Yardstick[];
  readonly period: Period;
  readonly by: readonly StratumName[];
  readonly rules: AuditRules;
  readonly address: CountAddress;
}): ReactNode {
  const split = useMemo(
    () =>
      by.length === 0
        ? []
        : audit(source.table, [measure], period, by, rules).figures.filter(({ stratum }) => stratum !== undefined),
    [source, measure, period, by, rules],
  );
  const guards = useMemo(
    () =>
      measure.numerator.count === "events" && measure.clock !== "none"
        ? rateGuards(source.table, measure, period, rules)
        : [],
    [source, measure, period, rules],
  );
  return (
    <div className="figure-sum" data-sum={measure.id}>
      <ul className="sum">
        {sumLines(figure, measure).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      {sparseLines(guards).map((line) => (
        <p key={line} data-guard>
          {line}
        </p>
      ))}
      <p className="soft">
        {measure.why} Source:{" "}
        {measure.source.includes(measure.howKnown) ? measure.source : `${measure.source}, ${measure.howKnown}`}.
      </p>
      <Elsewhere beside={besides(yardsticks, measure)} />
      {/* a plate would draw its nought with limits */}
      {figure.form === "never written down" ? null : (
        <MeasurePlates table={source.table} figure={figure} measure={measure} period={period} rules={rules} />
      )}
      <fieldset className="split">
        <legend>Split by</legend>
        {OPEN_STRATA.map((name) => (
          <label key={name}>
            <input
              type="checkbox"
              checked={by.includes(name)}
              data-split={name}
              onChange={({ target }) =>
                goToCount({
                  ...address,
                  by: OPEN_STRATA.filter((one) => (one === name ? target.checked : by.includes(one))),
                })
              }
            />
            {name}
          </label>
        ))}
      </fieldset>
      {split.length > 1 ? <PartsPlate parts={split} whole={figure} measure={measure} /> : null}
      {split.length > 0 ? (
        <ul className="parts">
          {split.map((part) => (
            <PartRow key={partName(part)} part={part} measure={measure} source={source} address={address} />
          ))}
        </ul>
      ) : null}
      <Lines source={source} figure={figure} />
    </div>
  );
}

const partName = ({ stratum }: Figure): string => (stratum ? `${stratum.by} ${stratum.value}` : "");

/** A part of a measure, its name to press: then its own sum and its own lines stand under it. */
function PartRow({
  part,
  measure,
  source,
  address,
}: {
  readonly part: Figure;
  readonly measure: Measure;
  readonly source: CountSource;
  readonly address: CountAddress;
}): ReactNode {
  const name = partName(part);
  const pressed = address.part === name;
  return (
    <li>
      <button
        type="button"
        className="quiet"
        data-part={name}
        aria-expanded={pressed}
        onClick={() => goToCount({ ...address, part: pressed ? undefined : name })}
      >
        {name}
      </button>{" "}
      {sayFigure(part, measure).slice(sayMeasure(measure.id).length + 2)}
      {pressed ? (
        <div data-part-sum={name}>
          <ul className="sum">
            {sumLines(part, measure).map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
          <Lines source={source} figure={part} />
        </div>
      ) : null}
    </li>
  );
}

function Lines({ source, figure }: { readonly source: CountSource; readonly figure: Figure }): ReactNode {
  const { table, kind } = source;
  const [most, setMost] = useState(FIRST);
  const referrals = useMemo(() => new Map(table.referrals.map((row) => [row.key, row])), [table]);
  const keys = [...new Set(figure.lines)];
  if (keys.length === 0) return <p className="soft">{countWords.noneCounted}</p>;
  const ofReferrals = keys.every((key) => lineOfKey(table, key) === undefined);
  return (
    <>
      <h4>
        {ofReferrals ? "Referrals" : "Lines"} counted, {keys.length}
      </h4>
      <ul className="counted">
        {keys.slice(0, most).map((key) => {
          const row = ofReferrals ? undefined : lineOfKey(table, key);
          const referral = ofReferrals ? referrals.get(key) : undefined;
          const words = row ? rowWords(row) : referral ? referralRowWords(referral) : key;
          return (
            <li key={key}>
              {row && kind === "record" ? (
                <Link href={`/line/${key}`}>{words}</Link>
              ) : (
                <span>{kind === "file" ? `${key}: ${words}` : words}</span>
              )}
            </li>
          );
        })}
      </ul>
      {keys.length > most && most === FIRST ? (
        <button type="button" className="quiet" data-more="lines" onClick={() => setMost(SHOWN)}>
          Show all
        </button>
      ) : null}
      {/* the press is not on paper: there the number left out must be */}
      {keys.length > most ? (
        <p className={most === FIRST ? "soft on-paper" : "soft"}>{countWords.hiddenLines(keys.length - most)}</p>
      ) : null}
    </>
  );
}
