import { useMemo, useState, type ReactNode } from "react";
import { Link } from "wouter";
import {
  firstOfMonth,
  wardMonthDays,
  wardUse,
  type AuditRules,
  type Measure,
  type Period,
  type WardMonthDays,
} from "../../audit/index.ts";
import { localDate } from "../../core/dwell/index.ts";
import { PAGE_INK, wardUsePlate } from "../../figure/index.ts";
import {
  agreementWords,
  notCountedWords,
  sayWardMonthRefusal,
  wardMonthNotes,
  wardMonthWords,
  wardPartWords,
  wardRateWords,
  wardUseWords,
} from "../../language/index.ts";
import { denominatorRules } from "../../policy/index.ts";
import {
  decideWardMonth,
  serviceSubject,
  told,
  wardMonths,
  type History,
  type KeptWardMonth,
  type Subject,
} from "../../register/index.ts";
import { Drawing } from "../plan/drawing.tsx";
import { useWidth } from "../plan/use-width.ts";
import { historyOf, useRecord } from "../record/record-context.tsx";
import type { CountSource } from "./count-table.ts";
import { keepTyped, typedOver } from "./kept-draft.ts";
import { MemoryForm } from "./memory-form.tsx";

const WIDEST = 880;
const ASKS = [
  { title: "", names: ["linesCounted", "patientDays"] },
  { title: wardPartWords.daily, names: ["dailyLineDays"] },
  { title: wardPartWords.sampled, names: ["sampledDays", "sampledWithLine", "sampledAll"] },
  { title: "", names: ["countedBy"] },
] as const;

/** The wards by their own count: a sentence, the plate with its table, each ward's months, and the form for one more. */
export function WardPart({
  source: { table, kind },
  measures,
  period,
  rules,
}: {
  readonly source: CountSource;
  readonly measures: readonly Measure[];
  readonly period: Period;
  readonly rules: AuditRules;
}): ReactNode {
  const { register } = useRecord();
  const [ref, measured] = useWidth();
  const width = Math.min(WIDEST, Math.max(300, measured));
  const subject = serviceSubject(register.rehearsing);
  const history = historyOf(register, subject);
  const kept = useMemo(() => (kind === "record" ? wardMonths(history) : []), [kind, history]);
  const months = useMemo(() => wardMonthDays(table, period, rules, denominatorRules), [table, period, rules]);
  const use = useMemo(() => wardUse(table, months, measures, period, rules), [table, months, measures, period, rules]);
  const figure = useMemo(
    () => (use.wards.length > 0 ? wardUsePlate({ ...use, id: "count-ward-use", width, ink: PAGE_INK }) : undefined),
    [use, width],
  );
  const written = (table.wardMonths ?? []).length;
  // a file without months of wards has nothing to say here, and no form
  if (kind === "file" && written === 0) return null;
  return (
    <section ref={ref} className="service-memory ward-part" aria-label={wardPartWords.title}>
      <h2>{wardPartWords.title}</h2>
      <p>{wardPartWords.lead}</p>
      {use.wards.length === 0 ? (
        <p className="soft" data-wards="none">
          {written === 0 ? wardPartWords.none : wardPartWords.noneInPeriod}{" "}
          {written === 0 ? "" : notCountedWords(use).join(" ")}
        </p>
      ) : null}
      {figure ? <Drawing figure={figure} plate="" caption="" /> : null}
      <ul className="parts">
        {use.wards.map((ward) => {
          const [first = "", ...rest] = wardUseWords(ward, use);
          const own = months.filter((one) => one.ward === ward.ward && one.everyCentralLine === ward.everyCentralLine);
          return (
            <li key={first} data-ward-use={ward.ward}>
              <b>{first}</b>
              {[...rest, ...wardRateWords(ward), ...own.slice(-1).flatMap(agreementWords)].map((line) => (
                <span key={line} className="memory-line">
                  {line}
                </span>
              ))}
              <Months own={own} kept={kept} />
            </li>
          );
        })}
        {(use.wards.length > 0 ? notCountedWords(use) : []).map((line) => (
          <li key={line} className="soft" data-not-counted>
            {line}
          </li>
        ))}
      </ul>
      {kind === "record" ? (
        <WardMonthForm subject={subject} history={history} asOf={firstOfMonth(localDate(table.asOf), -1).slice(0, 7)} />
      ) : null}
    </section>
  );
}

/** A ward's months, each with what the record counts of it, who signed it, and the way to correct it. */
function Months({
  own,
  kept,
}: {
  readonly own: readonly WardMonthDays[];
  readonly kept: readonly KeptWardMonth[];
}): ReactNode {
  return (
    <details className="elsewhere">
      <summary>{wardPartWords.months(own.length)}</summary>
      <ul>
        {own.map((month) => {
          const entry = kept.find((one) => one.ward === month.ward && one.month.startsWith(month.month));
          return (
            <li key={month.month} data-ward-month={`${month.ward} ${month.month}`}>
              {month.month}: {wardMonthWords(month)}
              {wardMonthNotes(month).map((line) => (
                <span key={line} className="memory-line">
                  {line}
                </span>
              ))}
              {entry ? <Signed entry={entry} name={wardPartWords.correct(month.ward, month.month)} /> : null}
            </li>
          );
        })}
      </ul>
    </details>
  );
}

function Signed({ entry, name }: { readonly entry: KeptWardMonth; readonly name: string }): ReactNode {
  const { id, author, countedBy, corrected, again } = entry;
  return (
    <>
      <span className="memory-line soft">
        {wardPartWords.by(author.initials, author.role, countedBy)}{" "}
        {corrected > 0 ? wardPartWords.corrected(corrected) : null}
      </span>
      {again.length > 0 ? <span className="memory-line">{wardPartWords.again(again.length)}</span> : null}
      {[id, ...again.map((other) => other.id)].map((one, at) => (
        <Link key={one} href={`/correct-count/${one}`} className="quiet" data-correct-month={one}>
          {at === 0 ? name : `${name}, entry ${at + 1}`}
        </Link>
      ))}
    </>
  );
}

/** One month more: the ward and the month first, then what was counted, daily or on one weekday or both. */
function WardMonthForm({
  subject,
  history,
  asOf,
}: {
  readonly subject: Subject;
  readonly history: History;
  /** The month before the table's moment: the one that is usually written. */
  readonly asOf: string;
}): ReactNode {
  const { register } = useRecord();
  const asked = "ward month";
  const [typed, setTyped] = useState(() => typedOver(asked, { ward: "", month: asOf }));
  const put = (part: Partial<typeof typed>): void => {
    const next = { ...typed, ...part };
    setTyped(next);
    keepTyped(asked, next);
  };
  return (
    <div className="agree">
      <fieldset className="period">
        <legend>{wardPartWords.form}</legend>
        <label>
          {wardPartWords.ward}
          <input
            type="text"
            value={typed.ward}
            autoComplete="off"
            data-ward-ask="ward"
            onChange={({ target }) => put({ ward: target.value })}
          />
        </label>
        <label>
          {wardPartWords.month}
          <input
            type="month"
            value={typed.month}
            data-ward-ask="month"
            onChange={({ target }) => put({ month: target.value })}
          />
        </label>
      </fieldset>
      <p className="soft">{wardPartWords.rule}</p>
      <MemoryForm
        subject={subject}
        type="WardMonthCounted"
        name="new"
        asks={ASKS.flatMap(({ names }) => names)}
        parts={ASKS}
        known={{
          ...(typed.ward.trim() !== "" && { ward: told(typed.ward.trim()) }),
          ...(typed.month !== "" && { month: told(typed.month) }),
        }}
        refuse={(entry) => {
          const today = register.now().slice(0, 10) as Parameters<typeof decideWardMonth>[2];
          const refusal = decideWardMonth(wardMonths(history), entry, today);
          return refusal && sayWardMonthRefusal(refusal);
        }}
        done={() => {
          keepTyped(asked, undefined);
          setTyped({ ward: "", month: typed.month });
        }}
      />
    </div>
  );
}
