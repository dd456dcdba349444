import { lazy, Suspense, useCallback, useMemo, useState, type ReactNode } from "react";
import { SIDES } from "../../core/arm/index.ts";
import { freshness, lastsHours } from "../../core/identity/index.ts";
import type { Infusate } from "../../core/infusate/index.ts";
import { parseCivilDate, type CivilDate } from "../../core/calendar/index.ts";
import { ageGroupOf } from "../../core/age/index.ts";
import { armPose } from "../../figure/index.ts";
import { answerSentence, armWords, deviceSentence, heldSentence, needleSentence } from "../../language/index.ts";
import {
  expiryLimitsFrom,
  localPolicy,
  needPolicyFrom,
  planPolicyFrom,
  policyValues,
  tableWithValues,
  type LocalPolicy,
} from "../../policy/index.ts";
import { practicePatients } from "../../practice/index.ts";
import type { PlanState } from "../../register/index.ts";
import type { Plans } from "../storage/use-plans.ts";
import type { ChartNeed } from "../chart/chart-part.tsx";
import { Answer } from "./answer.tsx";
import { ArmEntry } from "./arm-entry.tsx";
import { Choice, EntryContext, Field, YES_NO } from "./field.tsx";
import { LengthEntry } from "./length-entry.tsx";
import { lookAlikes } from "./look-alikes.ts";
import { MoveEntry } from "./move-entry.tsx";
import { Paper } from "./paper.tsx";
import { PlanAgainst } from "./plan-against.tsx";
import { ShelfEntry } from "./shelf-entry.tsx";
import { readNeed, readPlan } from "./plan-reading.ts";
import { ReferralSaid } from "./referral-answer.tsx";
import { ReferralEntry } from "./referral-entry.tsx";
import { useFlips } from "./use-flips.ts";
import { useLater } from "./use-later.ts";
import { useSpeech } from "./use-speech.ts";
import { useWidth } from "./use-width.ts";

const pose = armPose();

const BesidePlan = lazy(() => import("./beside-plan.tsx").then((module) => ({ default: module.BesidePlan })));
// the search for lumens is a part of its own, loaded after the plan stands
const ChartPart = lazy(() => import("../chart/chart-part.tsx").then((module) => ({ default: module.ChartPart })));

/** One page: the entry in one column, the answer in the other, worked out anew at every key. */
export function PlanPage({
  state,
  plans,
  today,
  drugs,
}: {
  readonly state: PlanState;
  readonly plans: Plans;
  readonly today: LocalPolicy;
  readonly drugs: readonly Infusate[];
}): ReactNode {
  const policy = useMemo(
    () => localPolicy(tableWithValues(today.table, state.policyValues)),
    [today, state.policyValues],
  );
  const limits = useMemo(() => planPolicyFrom(policy.table), [policy]);
  const later = useLater();
  const [chartNeed, setChartNeed] = useState<ChartNeed>();
  const [chartPlace, setChartPlace] = useState<Element | null>(null);
  const [chartPaper, setChartPaper] = useState<Element | null>(null);
  // a drug chart beats a number somebody stated
  const planned = useMemo(
    () => (chartNeed ? { ...state.fields, ...fieldsOf(chartNeed) } : state.fields),
    [state.fields, chartNeed],
  );
  const reading = useMemo(() => readPlan(planned, limits), [planned, limits]);
  const need = useMemo(
    () => readNeed(state.fields, drugs, needPolicyFrom(policy.table), limits.armBars, todayHere()),
    [state.fields, drugs, policy, limits],
  );
  const device = need.answer?.device.outcome;
  // a need was typed, and its answer is not a PICC yet: no plan may be carried away on paper
  const held = device !== undefined && device !== "PICC";
  const { flips, done } = useFlips(reading.plan?.answer.chosen ? reading.plan.planned : undefined, limits);
  const type = useCallback(
    (path: string, text: string) => plans.command(state.planId, { type: "TypeField", path, text }),
    [plans, state.planId],
  );
  const expiry = useMemo(() => expiryLimitsFrom(policy.table), [policy]);
  const group = reading.input && ageGroupOf(reading.input.patient, limits);
  const isOld = useCallback(
    (path: string) =>
      (state.fields[path] ?? "").trim() !== "" &&
      freshness(Date.parse(state.typedAt[path] ?? ""), Date.now(), lastsHours(path, group, expiry)) === "expired",
    [state, group, expiry],
  );
  const entry = useMemo(
    () => ({ fields: state.fields, type, faults: { ...reading.faults, ...need.faults }, isOld }),
    [state.fields, type, reading.faults, need.faults, isOld],
  );
  const alike = useMemo(() => lookAlikes(state, plans.plans), [state, plans.plans]);
  const [panel, width] = useWidth();
  const practice = practicePatients.find(({ id }) => id === state.practiceId);
  const chosen = reading.plan?.answer.chosen;
  const planSaid =
    reading.plan && reading.input
      ? `${answerSentence(reading.plan.answer, reading.input.shelf, reading.plan.standing === 3)} ${reading.plan.answer.chosen ? needleSentence(reading.plan.answer.chosen) : ""}`
      : "";
  // while the need asks for something else, no voice names a place for the needle
  const said = held && need.answer ? `${deviceSentence(need.answer.device)} ${heldSentence}` : planSaid;
  const speak = useSpeech(said);

  return (
    <EntryContext value={entry}>
      <header className="who">
        <h1>Plan</h1>
        <p className="identity">
          {practice ? "Practice patient · " : ""}
          {state.fields["patient.name"] || "name missing"} · no. {state.fields["patient.identifier"] || "missing"}
        </p>
        {alike ? <p className="alike">{alike}</p> : null}
        <p className="arm-word">{chosen && !held ? armWords(chosen.side) : "NO ARM CHOSEN"}</p>
      </header>
      <div className={held ? "plan held-plan" : "plan"}>
        <form className="entry" onSubmit={(event) => event.preventDefault()} aria-label="What was measured">
          <h2>Whom</h2>
          <Field path="patient.name" label="Name" wide />
          <Field path="patient.identifier" label="Number" wide />
          <Field path="patient.bornOn" label="Born" unit="y-m-d" />
          <Field path="patient.age.value" label="Age" unit={state.fields["patient.age.unit"] ?? "unit?"} />
          <Choice
            path="patient.age.unit"
            label="Age is in"
            options={[
              ["years", "years"],
              ["months", "months"],
              ["weeks", "weeks"],
              ["days", "days"],
            ]}
          />
          {state.fields["patient.age.unit"] && state.fields["patient.age.unit"] !== "years" ? (
            <Choice path="patient.bornPreterm" label="Born before term" options={YES_NO} />
          ) : null}
          {state.fields["patient.bornPreterm"] === "yes" ? (
            <Field path="patient.correctedAgeDays" label="Age from term" unit="days" />
          ) : null}
          <Field path="patient.weight" label="Weight" unit={state.fields["patient.weightUnit"] ?? "unit?"} aloud />
          <Choice
            path="patient.weightUnit"
            label="Weight is in"
            options={[
              ["kg", "kilograms"],
              ["lb", "pounds"],
            ]}
          />
          <Field path="patient.heightCm" label="Height or length" unit="cm" aloud />
          <Choice
            path="patient.dominantArm"
            label="Dominant arm"
            options={[
              ["right", "RIGHT"],
              ["left", "LEFT"],
            ]}
          />
          <ReferralEntry drugs={drugs} />
          <h2>What it must carry</h2>
          {later ? (
            <Suspense fallback={null}>
              <ChartPart policy={policy} place={chartPlace} paper={chartPaper} take={setChartNeed} />
            </Suspense>
          ) : null}
          {chartNeed === undefined ? (
            <Field path="need.lumens" label="Lumens needed" unit="lumens" />
          ) : (
            <p className="soft">Lumens needed: {chartNeed.lumens}, from the chart.</p>
          )}
          {chartNeed?.fastestMlPerHour === undefined ? (
            <Field path="need.flowMlPerHour" label="Fastest infusion" unit="mL/h" />
          ) : (
            <p className="soft">Fastest infusion: {chartNeed.fastestMlPerHour} mL/h, from the chart.</p>
          )}
          <Choice path="need.blood" label="Blood through it" options={YES_NO} />
          <Field path="need.contrastMlPerSecond" label="Contrast, 0 if none" unit="mL/s" />
          <ShelfEntry />
          <h2>The arms</h2>
          <div className="pose" dangerouslySetInnerHTML={{ __html: pose.svg }} />
          <p className="how">{pose.sentence}</p>
          {SIDES.map((side) => (
            <ArmEntry key={side} side={side} />
          ))}
          <LengthEntry side={chosen?.side} />
          <h2>Local anaesthetic</h2>
          <Field path="anaesthetic.concentrationPercent" label="Lidocaine" unit="%" />
          <Choice path="anaesthetic.withAdrenaline" label="With adrenaline" options={YES_NO} />
        </form>
        <main className="panel" ref={panel}>
          <p className="live" aria-live="polite">
            {said}
          </p>
          {need.answer ? <ReferralSaid answer={need.answer} /> : null}
          {held ? <p className="held">{heldSentence}</p> : null}
          <div ref={setChartPlace} />
          {reading.plan && reading.input ? (
            <Answer
              input={reading.input}
              plan={reading.plan}
              echoes={reading.echoes}
              policy={policy}
              flips={flips}
              searching={!done}
              width={width}
              considered={need.answer ? NEED_CONSIDERS : NOTHING}
              held={held}
            />
          ) : (
            <p className="headline">I cannot read this entry yet. The fields that stop me are marked.</p>
          )}
          {later && chosen && reading.input && !held ? (
            <Suspense fallback={null}>
              <BesidePlan
                chosen={chosen}
                input={reading.input}
                planId={state.planId}
                policy={policy}
                need={need.answer?.need}
              />
            </Suspense>
          ) : null}
          {policy.version === today.version ? null : (
            <p className="renew">
              This plan keeps policy {policy.version}; today it is {today.version}.{" "}
              <button
                type="button"
                onClick={() =>
                  plans.command(state.planId, { type: "RenewPolicy", policyValues: policyValues(today.table) })
                }
              >
                Use today's policy
              </button>
            </p>
          )}
          {reading.plan && !held ? <MoveEntry answer={reading.plan.answer} /> : null}
          {reading.plan ? (
            <PlanAgainst
              stops={[...reading.plan.answer.findings, ...(chosen?.findings ?? [])]}
              side={chosen?.side ?? "right"}
            />
          ) : null}
          <div className="actions">
            <button type="button" onClick={() => printPlan(() => plans.command(state.planId, { type: "PrintPlan" }))}>
              {held ? "Print the note" : "Print"}
            </button>
            <button type="button" onClick={speak}>
              Read aloud (Alt+R)
            </button>
          </div>
          {practice ? (
            <details className="trap">
              <summary>Practice: what is the trap here?</summary>
              <p>{practice.trap}</p>
              <p>{practice.explanation}</p>
            </details>
          ) : null}
          {reading.plan && reading.input && !held ? (
            <Paper
              input={reading.input}
              plan={reading.plan}
              policy={policy}
              practice={practice !== undefined}
              chartPlace={setChartPaper}
            />
          ) : null}
        </main>
      </div>
    </EntryContext>
  );
}

const fieldsOf = ({ lumens, fastestMlPerHour }: ChartNeed): Readonly<Record<string, string>> => ({
  "need.lumens": String(lumens),
  ...(fastestMlPerHour === undefined ? {} : { "need.flowMlPerHour": String(fastestMlPerHour) }),
});

const NOTHING: ReadonlySet<string> = new Set();
const NEED_CONSIDERS: ReadonlySet<string> = new Set([
  "whether a line is right at all",
  "bleeding, bacteria in the blood, kidney function",
]);

/** The day of this device's own clock. */
const todayHere = (): CivilDate => parseCivilDate(new Date().toLocaleDateString("sv-SE")) as CivilDate;

function printPlan(note: () => void): void {
  note();
  globalThis.print();
}
