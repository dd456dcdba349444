import type { ReactNode } from "react";
import type { BedsidePlan, Flip, PlanInput } from "../../core/line-plan/index.ts";
import { isMissing } from "../../core/missing/index.ts";
import type { Finding } from "../../core/reason/index.ts";
import { armStripFromPlan, veinSection } from "../../figure/index.ts";
import {
  amount,
  answerSentence,
  ceilingSentence,
  cutSentence,
  armWords,
  flipSentence,
  heldMarkSentence,
  needleSentence,
  lumens,
  notConsideredSentence,
  offerSentence,
  safetyStatement,
  sayFinding,
  sumsOf,
  veinName,
} from "../../language/index.ts";
import { planPolicyFrom, type LocalPolicy } from "../../policy/index.ts";
import { Drawing } from "./drawing.tsx";
import { useMove } from "./move-entry.tsx";
import { Reason } from "./reasons.tsx";

interface AnswerProps {
  readonly input: PlanInput;
  readonly plan: BedsidePlan;
  readonly echoes: readonly Finding[];
  readonly policy: LocalPolicy;
  readonly flips: readonly Flip[];
  readonly searching: boolean;
  readonly width: number;
  /** What the questions before the arm have looked at, taken off the list of what was not considered. */
  readonly considered: ReadonlySet<string>;
  /** A plan that may not be acted on names and draws no place. */
  readonly held: boolean;
}

const RANK = { stop: 0, ask: 1, note: 3 } as const;
const rank = (finding: Finding) => (finding.level ? RANK[finding.level] : 2);

/** The answer: the sentence first, then the plate, then why, what would change it, and what was not looked at. */
export function Answer({
  input,
  plan,
  echoes,
  policy,
  flips,
  searching,
  width,
  considered,
  held,
}: AnswerProps): ReactNode {
  const { answer } = plan;
  const unsaid = held && answer.chosen !== undefined;
  const findings = [
    ...(unsaid ? [] : (answer.chosen?.findings ?? [])),
    ...answer.findings,
    ...(plan.length?.findings ?? []),
    ...echoes,
  ];
  const sorted = [
    ...new Map(findings.map((finding) => [`${finding.code} ${sayFinding(finding)}`, finding])).values(),
  ].sort((a, b) => rank(a) - rank(b));
  const changes = flips
    .map((flip) => [flip, flipSentence(flip, input)] as const)
    .filter(([, sentence]) => sentence !== undefined);
  return (
    <div className="answer" data-outcome={answer.outcome}>
      <div className="said">
        {unsaid ? <p className="under">{heldMarkSentence}</p> : <Sentence input={input} plan={plan} />}
      </div>
      {unsaid ? null : <Sums plan={plan} policy={policy} />}
      {answer.chosen && !held ? <Plates input={input} plan={plan} policy={policy} width={width} /> : null}
      <div className="columns">
        <section>
          <h2>Why</h2>
          <ul className="reasons">
            {sorted.map((finding) => (
              <Reason key={`${finding.code}-${sayFinding(finding)}`} finding={finding} policy={policy} />
            ))}
          </ul>
        </section>
        {unsaid ? null : (
          <section>
            <h2>{answer.offers.length > 0 ? "Try, in this order" : "What would change this"}</h2>
            {answer.offers.length > 0 ? (
              <ol>
                {answer.offers.map((offer) => (
                  <li key={offerSentence(offer)}>{offerSentence(offer)}</li>
                ))}
              </ol>
            ) : (
              <ul className="plain">
                {changes.map(([flip, sentence]) => (
                  <li key={`${flip.path}-${"direction" in flip ? flip.direction : flip.kind}`}>{sentence}</li>
                ))}
                {searching ? <li className="soft">Still looking ...</li> : null}
                {!searching && changes.length === 0 ? (
                  <li className="soft">Nothing found within the plausible range.</li>
                ) : null}
              </ul>
            )}
            <Alternatives input={input} plan={plan} />
          </section>
        )}
        <section className="not-considered">
          <h2>Not considered</h2>
          <ul className="plain">
            {answer.notConsidered
              .filter((code) => !considered.has(code))
              .map((code) => (
                <li key={code}>{notConsideredSentence(code)}</li>
              ))}
          </ul>
          <p className="soft">{safetyStatement}</p>
          <p className="soft">Policy {policy.version}</p>
        </section>
      </div>
    </div>
  );
}

/** The number the hands need now is the largest thing on the page. */
function Sentence({ input, plan }: { readonly input: PlanInput; readonly plan: BedsidePlan }): ReactNode {
  const { answer, trim, ceiling } = plan;
  const { chosen } = answer;
  if (!chosen) return <p className="headline">{answerSentence(answer, input.shelf)}</p>;
  const catheter = input.shelf.find(({ id }) => id === chosen.catheterId);
  return (
    <>
      <p className="headline">
        {plan.standing === 3 ? "Not as it stands. " : null}
        {chosen.tunnel ? (
          <>
            Needle in at{" "}
            <span className="together">
              <Pressed>{amount(chosen.needleSkinCm, "cm")}</Pressed>,
            </span>{" "}
            tunnel to an exit at{" "}
            <span className="together">
              <Pressed>{amount(chosen.skinExitCm, "cm")}</Pressed>.
            </span>{" "}
          </>
        ) : (
          <>
            Mark the skin at{" "}
            <span className="together">
              <Pressed>{amount(chosen.skinExitCm, "cm")}</Pressed>.
            </span>{" "}
          </>
        )}
        Enter the {veinName[chosen.vein]} at {amount(chosen.veinEntryCm, "cm")}.{" "}
        {catheter ? `${catheter.name}, ${lumens(catheter.lumens)}.` : null}
      </p>
      <p className="under">
        {needleSentence(chosen)} {plan.standing === 3 ? null : cutSentence(trim)}{" "}
        {ceilingSentence(ceiling, input.anaesthetic)}
      </p>
    </>
  );
}

/** A number of the answer: pressing it opens the sums. */
function Pressed({ children }: { readonly children: string }): ReactNode {
  const open = () => {
    const sums = document.querySelector<HTMLDetailsElement>(".sums");
    if (sums) sums.open = true;
  };
  return (
    <button type="button" className="number" aria-label={`${children}: show how it comes about`} onClick={open}>
      {children}
    </button>
  );
}

/** Every number of the answer with the sum that made it. */
function Sums({ plan, policy }: { readonly plan: BedsidePlan; readonly policy: LocalPolicy }): ReactNode {
  const ratio = plan.answer.chosen?.findings.find(({ code }) => code === "catheter-to-vein-ratio");
  const limit = ratio ? Number(ratio.values["limitPercent"]) / 100 : policy.table["ratio.limit"].value;
  const sums = sumsOf(plan, limit);
  if (sums.length === 0) return null;
  return (
    <details className="sums">
      <summary>How these numbers come about</summary>
      <dl>
        {sums.map(({ name, sum }) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{sum}</dd>
          </div>
        ))}
      </dl>
    </details>
  );
}

function Plates({ input, plan, policy, width }: Pick<AnswerProps, "input" | "plan" | "policy" | "width">): ReactNode {
  const move = useMove(plan.answer);
  const { chosen, shelf } = plan.answer;
  const length = chosen ? input.arms[chosen.side].armLengthCm : undefined;
  if (!chosen || length === undefined || isMissing(length)) return null;
  const wide = width > 900;
  const strip = armStripFromPlan(input, plan.answer, planPolicyFrom(policy.table), {
    id: "strip",
    width: wide ? width - 364 : width,
    interactive: true,
  });
  if (!strip) return null;
  const section = veinSection({
    id: "section",
    diameterMm: chosen.diameterMm,
    sdMm: chosen.diameterSdMm,
    chosenId: chosen.catheterId,
    shelf,
    catheters: input.shelf,
    atCm: chosen.veinEntryCm,
  });
  return (
    <div className={wide ? "plates beside" : "plates"}>
      <Drawing
        figure={strip}
        press={move}
        plate="Plate 1."
        caption="Hatched and stippled skin: not for the exit. Pale edge: what the readings can hide."
      />
      <Drawing figure={section} plate="Plate 2." caption="The filled ring is the chosen one." />
    </div>
  );
}

function Alternatives({ input, plan }: { readonly input: PlanInput; readonly plan: BedsidePlan }): ReactNode {
  const { alternatives } = plan.answer;
  if (alternatives.length === 0) return null;
  return (
    <details className="others">
      <summary>Next best, {alternatives.length}</summary>
      <ul className="plain">
        {alternatives.map((one) => (
          <li key={`${one.side}-${one.vein}-${one.catheterId}`}>
            {armWords(one.side)}, {veinName[one.vein]} at {amount(one.veinEntryCm, "cm")},{" "}
            {input.shelf.find(({ id }) => id === one.catheterId)?.name}
            {one.standing === "ask" ? ", with a question" : ""}.
          </li>
        ))}
      </ul>
    </details>
  );
}
