import type { ReactNode } from "react";
import type { BedsidePlan, PlanInput } from "../../core/line-plan/index.ts";
import { isMissing } from "../../core/missing/index.ts";
import { bodyOutline, paperStrip } from "../../figure/index.ts";
import {
  answerSentence,
  armWords,
  safetyStatement,
  sayFinding,
  timeOutLines,
  whatIfItFails,
} from "../../language/index.ts";
import type { LocalPolicy } from "../../policy/index.ts";
import { cssText } from "../css-text.ts";

/** What only paper needs: the time-out to read aloud, what to do if it fails, and the strip at true scale. */
export function Paper({
  input,
  plan,
  policy,
  practice,
  chartPlace,
}: {
  readonly input: PlanInput;
  readonly plan: BedsidePlan;
  readonly policy: LocalPolicy;
  readonly practice: boolean;
  /** Told where the day's strip of the drug chart is printed. */
  readonly chartPlace: (place: Element | null) => void;
}): ReactNode {
  const { chosen } = plan.answer;
  const { name, identifier } = input.patient;
  if (!chosen || plan.standing === 3 || isMissing(name) || isMissing(identifier)) return null;
  const length = input.arms[chosen.side].armLengthCm;
  const catheter = input.shelf.find(({ id }) => id === chosen.catheterId)?.name ?? chosen.catheterId;
  const strip = isMissing(length)
    ? undefined
    : paperStrip({ id: "paper", armLengthCm: length, armWords: armWords(chosen.side), chosen });
  const overridden = plan.answer.findings.filter(({ code }) => code === "arm-barred-overridden");
  const printedAt = new Date().toLocaleString("en-GB", { dateStyle: "medium", timeStyle: "short" });
  const foot = `${practice ? "PRACTICE PATIENT, INVENTED. " : ""}${name}, no. ${identifier}. ${armWords(chosen.side)}. Policy ${policy.version}. Printed ${printedAt}. Copy: check the screen for a newer one. ${safetyStatement}`;
  return (
    <div className="paper">
      <div className="body" dangerouslySetInnerHTML={{ __html: bodyOutline(chosen.side, armWords(chosen.side)).svg }} />
      <section>
        <h2>Time-out, read aloud</h2>
        <ol className="time-out">
          {timeOutLines(chosen, { name, identifier }, catheter).map((line) => (
            <li key={line}>
              {line} <span className="blank">yes ☐ no ☐</span>
            </li>
          ))}
        </ol>
      </section>
      <section>
        <h2>If it fails</h2>
        <ul className="if-it-fails">
          {whatIfItFails.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
        {overridden.map((finding) => (
          <p key={finding.code}>
            <b>{sayFinding(finding)}</b> {String(finding.values["typedReason"])} (
            {(finding.values["names"] as readonly string[]).join(", ")})
          </p>
        ))}
      </section>
      {strip ? (
        <section className="strip-page">
          <h2>
            {name}, {identifier}. {armWords(chosen.side)}. Paper strip
          </h2>
          <p>{strip.sentence}</p>
          <div dangerouslySetInnerHTML={{ __html: strip.svg }} />
          <p>{answerSentence(plan.answer, input.shelf)}</p>
          <div className="chart-print" ref={chartPlace} />
        </section>
      ) : null}
      <style>{`@media print { @page { @bottom-left { content: ${cssText(foot)}; } } }`}</style>
    </div>
  );
}
