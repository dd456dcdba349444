import { useMemo, useState, type ReactNode } from "react";
import {
  audit,
  checkTable,
  learningCurve,
  type AuditRules,
  type AuditTable,
  type Measure,
  type Period,
} from "../../audit/index.ts";
import { isKnown } from "../../core/missing/index.ts";
import { countWords, learningLines, sayFigure } from "../../language/index.ts";

const OWN: ReadonlySet<string> = new Set(["placed", "first-attempt", "tip-well-placed", "middle-third"]);

/** One person's own lines, behind a press, one person at a time: no list of people is ever drawn. */
export function OwnLines({
  table,
  measures,
  period,
  rules,
}: {
  readonly table: AuditTable;
  readonly measures: readonly Measure[];
  readonly period: Period;
  readonly rules: AuditRules;
}): ReactNode {
  const [opened, setOpened] = useState(false);
  const [who, setWho] = useState("");
  const own = useMemo(() => {
    if (!opened || who === "") return undefined;
    const lines = table.lines.filter(({ inserter }) => inserter === who);
    if (lines.length === 0) return undefined;
    const shown = measures.filter(({ id }) => OWN.has(id));
    const { facts } = checkTable(table, rules.limits, rules.surveillance);
    return {
      figures: audit({ ...table, lines, referrals: [] }, shown, period, [], rules).figures,
      shown,
      learning: learningLines(learningCurve(facts, who, rules.limits)),
    };
  }, [opened, who, table, measures, period, rules]);
  return (
    <section aria-label={countWords.ownTitle} className="own">
      <h2>{countWords.ownTitle}</h2>
      <p>{countWords.ownWarning}</p>
      {opened ? (
        <label className="search">
          {countWords.ownAsk}
          <input
            type="text"
            autoComplete="off"
            value={who}
            data-own="who"
            onChange={({ target }) => setWho(target.value)}
          />
        </label>
      ) : (
        <button type="button" className="quiet" data-own="open" onClick={() => setOpened(true)}>
          {countWords.ownPress}
        </button>
      )}
      {opened && who !== "" && !own ? (
        <p className="soft">
          {table.lines.some(({ inserter }) => isKnown(inserter))
            ? "No line of that name. Type it as the lines have it."
            : countWords.ownNone}
        </p>
      ) : null}
      {own ? (
        <ul className="parts">
          {own.figures.map((figure, at) => (
            <li key={figure.measure}>{sayFigure(figure, own.shown[at] as Measure)}</li>
          ))}
          {own.learning.slice(1).map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      ) : null}
    </section>
  );
}
