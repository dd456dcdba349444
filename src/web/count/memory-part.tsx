import { useRef, useState, type ReactNode } from "react";
import {
  signalEntry,
  type AuditRules,
  type AuditTable,
  type Measure,
  type MonthPack,
  type RememberedSignal,
} from "../../audit/index.ts";
import { addDays, type CivilDate } from "../../core/calendar/index.ts";
import { changeLines, memoryWords, rememberedLines, sayMeasure } from "../../language/index.ts";
import { actionBefore, baseInForce, monthOf, told, type KeptAction, type ServiceMemory } from "../../register/index.ts";
import { BasePart } from "./base-part.tsx";
import { forgetLocal, localActions, type LocalAction } from "./local-action.ts";
import { keepTyped, typedOver } from "./kept-draft.ts";
import { MemoryForm } from "./memory-form.tsx";

interface Asked {
  readonly table: AuditTable;
  readonly measures: readonly Measure[];
  readonly pack: MonthPack;
  readonly memory: ServiceMemory;
  readonly rules: AuditRules;
  readonly ruleVersion: string;
  readonly nameOf: (key: string) => string;
  readonly rehearsing: boolean;
}

/** What the record keeps of the service's own numbers, and every entry a person may add to it. */
export function MemoryPart(asked: Asked): ReactNode {
  const { pack, memory, nameOf, rehearsing } = asked;
  const signals = pack.memory?.signals ?? [];
  const marked = pack.memory ? changeLines(pack.memory) : [];
  return (
    <section className="service-memory" aria-label={memoryWords.title}>
      <h2>{memoryWords.title}</h2>
      {rehearsing ? <p className="soft">{memoryWords.rehearsal}</p> : null}
      <Actions {...asked} />
      <BasePart {...asked} />
      {pack.monitor ? (
        <section aria-label={memoryWords.signals}>
          <h3>{memoryWords.signals}</h3>
          {signals.length === 0 ? <p className="soft">{memoryWords.noSignals}</p> : null}
          <ul className="parts">
            {signals.map((signal) => {
              const [head, ...rest] = rememberedLines(signal, nameOf);
              return (
                <li key={head} data-signal={signal.kept?.on ?? signal.present?.on}>
                  <b>{head}</b>
                  {rest.map((line) => (
                    <span key={line} className="memory-line">
                      {line}
                    </span>
                  ))}
                  <SignalPress {...asked} signal={signal} />
                </li>
              );
            })}
          </ul>
        </section>
      ) : null}
      <section aria-label={memoryWords.changes}>
        <h3>{memoryWords.changes}</h3>
        {marked.length === 0 ? <p className="soft">{memoryWords.noChanges}</p> : null}
        <ul className="parts">
          {marked.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
        <MemoryForm
          subject={memory.subject}
          type="PracticeChanged"
          name="new"
          asks={["changedOn", "kindOfChange", "words"]}
        />
      </section>
    </section>
  );
}

/** One press for a signal: keep it, or write what was found when it was looked at. */
function SignalPress({
  pack,
  memory,
  ruleVersion,
  signal: { measure, kept, present },
}: Asked & { readonly signal: RememberedSignal }): ReactNode {
  if (kept)
    return (
      <MemoryForm
        subject={memory.subject}
        type="SignalLookedAt"
        name={`${measure} ${kept.on} ${kept.looks.length}`}
        asks={["by", "found", "words", "action"]}
        known={{ measure: told(measure), signalOn: told(kept.on), base: told(kept.base) }}
        press={memoryWords.lookAt}
      />
    );
  const base = baseInForce(memory, measure);
  const chart = pack.monitor?.charts.find((one) => one.measure === measure);
  if (!base || !present || !chart || !pack.memory?.bases[measure])
    return <span className="memory-line soft">{memoryWords.noBaseForSignal}</span>;
  return (
    <MemoryForm
      subject={memory.subject}
      type="SignalSeen"
      name={`${measure} ${present.on}`}
      asks={[]}
      known={signalEntry(chart, present, base, ruleVersion)}
      press={memoryWords.keepSignal}
    />
  );
}

/** Last month's action with what came of it, this month's, and what a device kept before the record did. */
function Actions({ pack, memory, measures, rehearsing }: Asked): ReactNode {
  const [local, setLocal] = useState(localActions);
  const month = pack.month.from;
  const before = addDays(month, -1).slice(0, 7);
  const last = actionBefore(memory, month);
  // the press that agreed on it is gone once it is written: the keys go on from what was written
  const lastKept = useRef<HTMLParagraphElement>(null);
  const own = memory.actions.find((action) => action.month === month);
  return (
    <>
      {local.map((one) => (
        <KeptHere
          key={one.key}
          local={one}
          memory={memory}
          rehearsing={rehearsing}
          forget={() => {
            forgetLocal(one.key);
            setLocal(localActions());
          }}
        />
      ))}
      <section aria-label="Actions">
        <h3>{memoryWords.lastAction(monthOf(before) as CivilDate)}</h3>
        <p ref={lastKept} tabIndex={-1} data-action-kept="last">
          {last ? memoryWords.action(last) : memoryWords.noAction}
        </p>
        {last ? (
          <MemoryForm
            subject={memory.subject}
            type="ActionOutcomeWritten"
            name={before}
            asks={["outcome", "words"]}
            known={{ month: told(before) }}
          />
        ) : (
          <Agree memory={memory} measures={measures} month={before} done={() => lastKept.current?.focus()} />
        )}
        <h3>{memoryWords.thisAction(month)}</h3>
        <p data-action-kept="this">{own ? memoryWords.action(own) : memoryWords.noAction}</p>
        <Agree memory={memory} measures={measures} month={month.slice(0, 7)} {...(own && { own })} />
      </section>
    </>
  );
}

/** An action of the old way: it stays on the device until a person signs it into the real record, or lets it go. */
function KeptHere({
  local: { key, agreedIn, action },
  memory,
  rehearsing,
  forget,
}: {
  readonly local: LocalAction;
  readonly memory: ServiceMemory;
  readonly rehearsing: boolean;
  readonly forget: () => void;
}): ReactNode {
  return (
    <section className="kept-here" data-local-action={agreedIn}>
      <p>
        <b>{rehearsing ? memoryWords.keptHereRehearsing : memoryWords.keptHere}</b> {agreedIn}: {action.what},{" "}
        {action.owner}.
      </p>
      {rehearsing ? null : (
        <>
          <MemoryForm
            subject={memory.subject}
            type="ActionAgreed"
            name={key}
            asks={["action", "ownerRole", "dueOn"]}
            known={{ month: told(agreedIn), measure: told(action.measure) }}
            start={{ action: told(action.what), ownerRole: told(action.owner), dueOn: told(action.dueOn) }}
            also={
              action.done
                ? [{ type: "ActionOutcomeWritten", data: { month: told(agreedIn), outcome: told("done") } }]
                : []
            }
            done={forget}
          />
          <button type="button" className="quiet" onClick={forget}>
            {memoryWords.letGo}
          </button>
        </>
      )}
    </section>
  );
}

/** An action: words, owner, day, and the measure it should move. */
function Agree({
  memory,
  measures,
  month,
  own,
  done,
}: {
  readonly memory: ServiceMemory;
  readonly measures: readonly Measure[];
  readonly month: string;
  readonly own?: KeptAction;
  readonly done?: () => void;
}): ReactNode {
  const asked = `measure of ${month}`;
  const [measure, setMeasure] = useState(
    () => typedOver(asked, { measure: own?.measure ?? "any-complication" }).measure,
  );
  return (
    <div className="agree">
      <label className="period measure-pick">
        {memoryWords.measure}{" "}
        <select
          value={measure}
          data-agree-measure={month}
          onChange={({ target }) => {
            setMeasure(target.value);
            keepTyped(asked, { measure: target.value });
          }}
        >
          {measures.map(({ id }) => (
            <option key={id} value={id}>
              {sayMeasure(id)}
            </option>
          ))}
        </select>
      </label>
      <MemoryForm
        subject={memory.subject}
        type="ActionAgreed"
        name={month}
        asks={["action", "ownerRole", "dueOn"]}
        known={{ month: told(month), measure: told(measure) }}
        done={() => {
          keepTyped(asked, undefined);
          done?.();
        }}
        {...(own && {
          start: { action: told(own.action), ownerRole: told(own.ownerRole), dueOn: told(own.dueOn) },
          press: "Change this action",
        })}
      />
    </div>
  );
}
