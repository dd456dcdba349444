import type { ReactNode } from "react";
import { civilDateOf, midnightsBetween, type CivilDate } from "../../core/calendar/index.ts";
import { vesicantConditions } from "../../core/release/index.ts";
import {
  sayArmSource,
  sayDay,
  sayDistance,
  sayDueWhat,
  sayDueWhy,
  sayLineFinding,
  sayMoment,
  sayRelease,
} from "../../language/index.ts";
import { releaseFacts, type LineDue, type LineView } from "../../register/index.ts";
import { Reason } from "../plan/reasons.tsx";
import { patientFor, useRecord } from "./record-context.tsx";
import { rulesFrom, useLineAnswer } from "./use-line-answer.ts";

/** May it be used, why, and what is due: the answer first, then its reasons. */
export function LineAnswer({ line }: { readonly line: LineView }): ReactNode {
  const { register, policy } = useRecord();
  const answer = useLineAnswer(line);
  const { release, sides, due, need, removal, now } = answer;
  const today = civilDateOf(now);
  const rules = rulesFrom(policy);
  const facts = releaseFacts(line, sides, patientFor(register, line.patient)?.bornOn);
  const vesicant = vesicantConditions(facts, release, now, rules.release);
  const reasons = [...release.findings, ...(sides.agree ? [] : sides.findings), ...removal, ...need];
  return (
    <section className="line-answer" aria-live="polite">
      <p className={`headline use-${release.state.replaceAll(" ", "-")}`} data-release={release.state}>
        {sayRelease(release)}
      </p>
      <ul className="reasons">
        {reasons.map((finding) => (
          <Reason
            key={`${finding.code} ${JSON.stringify(finding.values)}`}
            finding={finding}
            policy={policy}
            say={sayLineFinding}
          />
        ))}
      </ul>
      {sides.agree || !line.placed ? null : (
        <ul className="plain sides">
          {sides.sources.map(({ from, arm, number }) => (
            <li key={from}>
              {sayArmSource(from, arm)}
              {number ? `, no. ${number}` : ""}
            </li>
          ))}
        </ul>
      )}
      {release.usedSince.length > 0 ? (
        <div className="used-since" role="alert">
          <b>Given although it was off:</b>
          <ul>
            {release.usedSince.map(({ at, what, by }) => (
              <li key={`${at} ${what}`}>
                {what}, {sayMoment(at)}, by {by}
              </li>
            ))}
          </ul>
        </div>
      ) : null}
      {line.end ? null : (
        <details className="vesicant">
          <summary>
            Before a vesicant: {vesicant.met ? "conditions met" : "conditions not met"}. The giver decides.
          </summary>
          <ul className="plain">
            {vesicant.conditions.map((finding) => (
              <li key={finding.code}>
                <b>{finding.verdict}</b> {sayLineFinding(finding)}
              </li>
            ))}
          </ul>
        </details>
      )}
      {due.length > 0 ? <DueList due={due} today={today} line={line} /> : null}
    </section>
  );
}

function DueList({
  due,
  today,
  line,
}: {
  readonly due: readonly LineDue[];
  readonly today: CivilDate;
  readonly line: LineView;
}): ReactNode {
  return (
    <div className="due-list">
      <h2>Due{line.owner ? ` · ${line.owner.place} · ${line.owner.owner}` : ""}</h2>
      <ul className="plain">
        {due.map((item) => {
          const days = midnightsBetween(today, item.on);
          return (
            <li
              key={item.what}
              className={days < 0 ? "overdue" : days === 0 ? "today" : undefined}
              data-due={item.what}
            >
              <b>{sayDueWhat(item.what)}</b> {sayDay(item.on)}, {sayDistance(item.on, today)}
              {sayDueWhy(item.why) ? <span className="soft"> · {sayDueWhy(item.why)}</span> : null}
            </li>
          );
        })}
      </ul>
    </div>
  );
}
