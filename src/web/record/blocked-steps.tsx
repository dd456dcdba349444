import { useId, useState, type ReactNode } from "react";
import { readNumber } from "../../contract/index.ts";
import {
  BLOOD_RETURNS,
  CAUSES,
  FILMS,
  FLUSHINGS,
  MECHANICAL_STEPS,
  OUTSIDE_LENGTHS,
  STEP_RESULTS,
  nextPatencyStep,
  type MechanicalStep,
  type PatencyAnswers,
  type PatencyStep,
} from "../../core/care/index.ts";
import { missing } from "../../core/missing/index.ts";
import { kilogram, millilitre } from "../../core/quantity/index.ts";
import { patencyAsks, patencyEntry, patencyLines, patencyWords, sayFinding } from "../../language/index.ts";
import { patencyLimitsFrom } from "../../policy/index.ts";
import type { Subject } from "../../register/index.ts";
import { useRecord } from "./record-context.tsx";

type Ask = MechanicalStep | Exclude<keyof PatencyAnswers, "mechanical" | "lytic" | "blockedSince">;
/** What was answered, in the order of the work: the last can be taken back. */
type Given = readonly (readonly [ask: Ask, said: string])[];

const NOT_KNOWN = "not known";
const YES_NO = ["yes", "no", NOT_KNOWN] as const;
const OPTIONS: Readonly<Partial<Record<Ask, readonly string[]>>> = {
  ...Object.fromEntries(MECHANICAL_STEPS.map((step) => [step, STEP_RESULTS])),
  outsideLength: [...OUTSIDE_LENGTHS, NOT_KNOWN],
  flushes: FLUSHINGS,
  blood: BLOOD_RETURNS,
  cause: [...CAUSES, NOT_KNOWN],
  pain: YES_NO,
  earSound: YES_NO,
  film: FILMS,
};

/** Answers of this sitting by line, kept as long as the form beside them keeps what was typed. */
const sittings = new Map<Subject, Given>();
export const forgetSteps = (subject: Subject): boolean => sittings.delete(subject);

/** A blocked line on the ward: the one next step, an answer by a press, and the next; the entry below fills as it goes. */
export function BlockedSteps({
  subject,
  put,
}: {
  readonly subject: Subject;
  /** Writes into the entry what still reads as it was put before; a word that somebody changed stands. */
  readonly put: (next: Readonly<Record<string, string>>, before: Readonly<Record<string, string>>) => void;
}): ReactNode {
  const { register, policy } = useRecord();
  const [given, setGiven] = useState<Given>(() => sittings.get(subject) ?? []);
  const limits = patencyLimitsFrom(policy.table);
  const step = nextPatencyStep(answersOf(given), register.now(), limits);
  const asks = asksOf(step, given);
  const keep = (next: Given) => {
    put(patencyEntry(next), patencyEntry(given));
    sittings.set(subject, next);
    setGiven(next);
  };
  return (
    <section className="blocked-steps" aria-label={patencyWords.title} data-step={step.step}>
      <output>
        {patencyLines(step).map((said, at) => (
          <p key={said} className={["headline", "soft"][at]}>
            {said}
          </p>
        ))}
        {step.findings.map((one) => (
          <p key={one.code}>
            <b>{sayFinding(one)}</b>
          </p>
        ))}
        {step.step === "lytic" ? (
          <p>{patencyWords.clock(limits.lyticFirstCheckMin, limits.lyticSecondCheckMin)}</p>
        ) : null}
      </output>
      {asks.map((ask) =>
        OPTIONS[ask] ? (
          <Presses key={ask} ask={ask} press={(said) => keep([...given, [ask, said]])} />
        ) : (
          <Amount key={ask} ask={ask} take={(said) => keep([...given, [ask, said]])} />
        ),
      )}
      {given.length > 0 ? (
        <p>
          <button type="button" className="quiet" data-patency="back" onClick={() => keep(given.slice(0, -1))}>
            {patencyWords.back}
          </button>
        </p>
      ) : null}
      <p className="soft">{patencyWords.basis}</p>
    </section>
  );
}

function Presses({ ask, press }: { readonly ask: Ask; readonly press: (said: string) => void }): ReactNode {
  return (
    <fieldset>
      <legend>{patencyAsks[ask]}</legend>
      <p className="presses">
        {(OPTIONS[ask] ?? []).map((said) => (
          <button key={said} type="button" data-patency={`${ask} ${said}`} onClick={() => press(said)}>
            {said}
          </button>
        ))}
      </p>
    </fieldset>
  );
}

function Amount({ ask, take }: { readonly ask: Ask; readonly take: (said: string) => void }): ReactNode {
  const id = useId();
  const [typed, setTyped] = useState("");
  const read = readNumber(typed);
  const most = ask === "weightKg" ? 300 : 10;
  const fits = read.kind === "number" && read.value > 0 && read.value <= most;
  return (
    <p className="presses">
      <label htmlFor={id}>{patencyAsks[ask]}</label>
      <input
        id={id}
        inputMode="decimal"
        autoComplete="off"
        value={typed}
        data-patency={ask}
        onChange={({ target }) => setTyped(target.value)}
      />
      <button type="button" disabled={!fits} onClick={() => fits && take(String(read.value))}>
        {patencyWords.take}
      </button>
    </p>
  );
}

/** What the next step asks: one thing, or the two that are looked for together. */
function asksOf({ step, findings }: PatencyStep, given: Given): readonly Ask[] {
  const open = (...asks: readonly Ask[]) => asks.filter((ask) => !given.some(([one]) => one === ask));
  const look = MECHANICAL_STEPS.find((one) => one === step);
  if (look) return [look];
  if (step === "outside length") return ["outsideLength"];
  if (step === "kind") return open("flushes", "blood");
  if (step === "cause") return ["cause"];
  if (step === "symptoms") return open("pain", "earSound");
  if (step === "film") return ["film"];
  if (step !== "lytic facts") return [];
  return findings.some(({ path }) => path === "weightKg") ? ["weightKg"] : ["labelLumenMl"];
}

/** The answers as the rule reads them; what nobody answered has not been asked. */
function answersOf(given: Given): PatencyAnswers {
  const said = Object.fromEntries(given) as Readonly<Partial<Record<Ask, string>>>;
  const notAsked = missing("not asked");
  const one = <Word extends string>(ask: Ask, words: readonly Word[]) =>
    words.find((word) => word === said[ask]) ?? (said[ask] === undefined ? notAsked : missing("not known"));
  const truth = (ask: Ask) => {
    const word = one(ask, YES_NO.slice(0, 2));
    return typeof word === "string" ? word === "yes" : word;
  };
  return {
    mechanical: Object.fromEntries(
      MECHANICAL_STEPS.flatMap((step) => {
        const result = one(step, STEP_RESULTS);
        return typeof result === "string" ? [[step, result]] : [];
      }),
    ),
    outsideLength: one("outsideLength", OUTSIDE_LENGTHS),
    flushes: one("flushes", FLUSHINGS),
    blood: one("blood", BLOOD_RETURNS),
    blockedSince: notAsked,
    cause: one("cause", CAUSES),
    pain: truth("pain"),
    earSound: truth("earSound"),
    film: one("film", FILMS),
    weightKg: said.weightKg === undefined ? notAsked : kilogram(Number(said.weightKg)),
    labelLumenMl: said.labelLumenMl === undefined ? notAsked : millilitre(Number(said.labelLumenMl)),
    lytic: [],
  };
}
