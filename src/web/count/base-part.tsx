import { useEffect, useMemo, useRef, useState, type ReactNode } from "react";
import { proposedBases, type AuditRules, type AuditTable, type Measure, type MonthPack } from "../../audit/index.ts";
import { parseCivilDate } from "../../core/calendar/index.ts";
import { memoryWords, sayMeasure } from "../../language/index.ts";
import { baseInForce, type ServiceMemory } from "../../register/index.ts";
import { hasTyped, keepTyped, typedOver } from "./kept-draft.ts";
import { MemoryForm } from "./memory-form.tsx";

const ASKED = "which base";

/** The bases in force with who set them and why, and what other days or an agreed rate would give. */
export function BasePart({
  table,
  measures,
  pack,
  memory,
  rules,
  ruleVersion,
}: {
  readonly table: AuditTable;
  readonly measures: readonly Measure[];
  readonly pack: MonthPack;
  readonly memory: ServiceMemory;
  readonly rules: AuditRules;
  readonly ruleVersion: string;
}): ReactNode {
  const { monitor } = pack;
  const [open, setOpen] = useState(() => hasTyped(ASKED));
  if (!monitor) return null;
  const watched = monitor.charts.map(({ measure }) => measure);
  return (
    <section aria-label={memoryWords.bases}>
      <h3>{memoryWords.bases}</h3>
      <ul className="parts">
        {watched.map((measure) => {
          const base = baseInForce(memory, measure);
          return (
            <li key={measure} data-base={measure}>
              {memoryWords.base(measure, base)}
              {base ? <span className="soft"> {memoryWords.baseWhy(base)}</span> : null}
            </li>
          );
        })}
      </ul>
      {open ? (
        <Proposals
          table={table}
          measures={measures.filter(({ id }) => watched.includes(id))}
          pack={pack}
          memory={memory}
          rules={rules}
          ruleVersion={ruleVersion}
        />
      ) : (
        <button type="button" className="quiet" data-memory="bases" onClick={() => setOpen(true)}>
          Set or change a base
        </button>
      )}
    </section>
  );
}

function Proposals({ table, measures, pack, memory, rules, ruleVersion }: Parameters<typeof BasePart>[0]): ReactNode {
  const first = useRef<HTMLSelectElement>(null);
  // the press that opened these boxes is gone: the keys go on in the first of them, but not after a reload
  useEffect(() => {
    if (!hasTyped(ASKED)) first.current?.focus();
  }, []);
  const [typed, setTyped] = useState(() =>
    typedOver(ASKED, {
      from: pack.monitor?.base.from as string,
      to: pack.monitor?.base.to as string,
      measure: measures[0]?.id ?? "",
      target: "",
    }),
  );
  const put = (part: Partial<typeof typed>): void => {
    const next = { ...typed, ...part };
    setTyped(next);
    keepTyped(ASKED, next);
  };
  const rate = Number(typed.target.replace(",", "."));
  const found = useMemo(() => {
    const [from, to] = [parseCivilDate(typed.from), parseCivilDate(typed.to)];
    if (!from || !to || !(from < to) || !(to < pack.month.to)) return [];
    try {
      const targets = rate > 0 ? { [typed.measure]: rate } : {};
      return proposedBases(table, measures, { from, to, until: pack.month.to }, rules, targets, ruleVersion);
    } catch (fault) {
      // no line-days on one side of the day it would watch from: no base can be had
      if (fault instanceof RangeError) return [];
      throw fault;
    }
  }, [typed, rate, table, measures, pack, rules, ruleVersion]);
  const proposal = found.find(({ measure }) => measure === typed.measure);
  return (
    <>
      <fieldset className="period">
        <legend>Which days are the base, or which rate was agreed</legend>
        <label>
          {memoryWords.measure}
          <select
            value={typed.measure}
            data-base-ask="measure"
            ref={first}
            onChange={({ target }) => put({ measure: target.value })}
          >
            {measures.map(({ id }) => (
              <option key={id} value={id}>
                {sayMeasure(id)}
              </option>
            ))}
          </select>
        </label>
        <label>
          {memoryWords.baseFrom}
          <input type="date" value={typed.from} onChange={({ target }) => put({ from: target.value })} />
        </label>
        <label>
          {memoryWords.baseTo}
          <input type="date" value={typed.to} onChange={({ target }) => put({ to: target.value })} />
        </label>
        <label>
          {memoryWords.baseTarget}
          <input
            type="text"
            inputMode="decimal"
            value={typed.target}
            data-base-ask="target"
            autoComplete="off"
            onChange={({ target }) => put({ target: target.value })}
          />
        </label>
      </fieldset>
      <output className="proposal" data-proposal={typed.measure}>
        {proposal ? memoryWords.proposal(proposal) : memoryWords.noProposal}
      </output>
      {proposal?.entry ? (
        <MemoryForm
          key={`${typed.measure} ${typed.from} ${typed.to} ${typed.target}`}
          subject={memory.subject}
          type="WatchBaseSet"
          name={typed.measure}
          asks={["by", "why"]}
          known={proposal.entry}
          press={memoryWords.setBase(typed.measure)}
          done={() => keepTyped(ASKED, undefined)}
        />
      ) : null}
    </>
  );
}
