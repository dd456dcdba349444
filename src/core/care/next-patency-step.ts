import { instantAfter, minutesBetween, type Instant } from "../calendar/index.ts";
import { isMissing } from "../missing/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import type { PatencyLimits } from "./care-limits.ts";
import { lyticDose, type LyticDose } from "./lytic-dose.ts";
import { occlusionKind, type OcclusionKind } from "./occlusion-kind.ts";
import { MECHANICAL_STEPS, type LyticGiven, type MechanicalStep, type PatencyAnswers } from "./patency-answers.ts";

export type PatencyStepCode =
  | MechanicalStep
  | "outside length"
  | "kind"
  | "cause"
  | "symptoms"
  | "film"
  | "tip elsewhere"
  | "pharmacy"
  | "lytic facts"
  | "lytic"
  | "wait"
  | "check for blood"
  | "second lytic"
  | "ask for help"
  | "none";

export type PatencyWhy =
  | "look first"
  | "position before drugs"
  | "kind decides"
  | "cause decides"
  | "symptoms before drugs"
  | "length changed"
  | "no film to compare"
  | "pain"
  | "ear sound"
  | "no cause found"
  | "symptoms not known"
  | "tip is not where it was"
  | "precipitate likely"
  | "clot likely"
  | "first check not due"
  | "second check not due"
  | "first check due"
  | "second check due"
  | "no blood after one dose"
  | "no blood after every dose"
  | "flows again";

export interface PatencyStep {
  readonly step: PatencyStepCode;
  readonly why: PatencyWhy;
  readonly kind: OcclusionKind | undefined;
  /** When the next look for blood is due, while a dose is in. */
  readonly dueAt?: Instant;
  readonly minutesSinceDose?: number;
  /** Both looks after the dose that is in. */
  readonly firstCheckAt?: Instant;
  readonly secondCheckAt?: Instant;
  readonly dose?: LyticDose;
  readonly findings: readonly Finding[];
}

/**
 * The one next step with a blocked line, and why: look, outside length, kind, cause and symptoms, film where it is asked,
 * then pharmacy for a precipitate or lytic for a clot, with its clock. Steps are never skipped, and a later answer given
 * early is kept and waits its turn.
 * Holds: one lumen. Source: order by common practice, no source; clock and doses from the alteplase label. Example: all
 * mechanical steps tried, outside length not looked at: "outside length".
 */
export function nextPatencyStep(answers: PatencyAnswers, now: Instant, limits: PatencyLimits): PatencyStep {
  const kind = occlusionKind(answers.flushes, answers.blood);
  const say = (step: PatencyStepCode, why: PatencyWhy, more: Partial<PatencyStep> = {}): PatencyStep => ({
    step,
    why,
    kind,
    ...more,
    findings: [...force(kind, limits), ...(more.findings ?? [])],
  });
  if (kind === "open" || Object.values(answers.mechanical).includes("flows again")) return say("none", "flows again");
  if (answers.lytic.length > 0) return afterLytic(answers, answers.lytic, now, limits, say);
  const look = MECHANICAL_STEPS.find((step) => answers.mechanical[step] === undefined);
  if (look) return say(look, "look first");
  if (toBeAsked(answers.outsideLength)) return say("outside length", "position before drugs");
  if (kind === undefined) return say("kind", "kind decides");
  if (toBeAsked(answers.cause)) return say("cause", "cause decides");
  if (toBeAsked(answers.pain) || toBeAsked(answers.earSound)) return say("symptoms", "symptoms before drugs");
  const film = whyFilm(answers);
  if (film && isMissing(answers.film)) return say("film", film);
  if (answers.film === "tip elsewhere") return say("tip elsewhere", "tip is not where it was");
  if (answers.cause === "two drugs together" || answers.cause === "lipid") return say("pharmacy", "precipitate likely");
  const dose = lyticDose(answers, limits);
  return dose.kind === "asked"
    ? say("lytic facts", "clot likely", { findings: dose.findings })
    : say("lytic", "clot likely", { dose });
}

/** Nobody has asked or measured it yet; what was asked and is not known goes on, on the cautious side. */
const toBeAsked = (fact: unknown): boolean =>
  isMissing(fact) && (fact.missing === "not asked" || fact.missing === "not measured");

/**
 * Why a film comes before any drug; undefined where the position is known and nothing speaks against it. What nobody knows
 * speaks for a film: a length, a symptom or a cause.
 */
function whyFilm({ outsideLength, pain, earSound, cause }: PatencyAnswers): PatencyWhy | undefined {
  if (outsideLength === "changed") return "length changed";
  if (outsideLength === "no film to compare" || isMissing(outsideLength)) return "no film to compare";
  if (pain === true) return "pain";
  if (earSound === true) return "ear sound";
  if (isMissing(pain) || isMissing(earSound)) return "symptoms not known";
  return cause === "nothing found" || isMissing(cause) ? "no cause found" : undefined;
}

/**
 * What still stands before a lytic may be asked for: each missing step is a stop. Empty only when every mechanical step
 * was tried, the position is known, and a clot is the likely cause.
 * Holds: any answers. Source: common practice, no source. Example: nothing answered: the mechanical steps, the outside
 * length, the kind, the cause and the symptoms.
 */
export function lyticRefusals(answers: PatencyAnswers): readonly Finding[] {
  const stop = (code: string, values: Finding["values"] = {}) => finding(code, "not met", "stop", values);
  const left = MECHANICAL_STEPS.filter((step) => answers.mechanical[step] === undefined);
  const asking = [answers.outsideLength, answers.cause, answers.pain, answers.earSound].some(toBeAsked);
  const film = asking ? undefined : whyFilm(answers);
  return [
    ...(left.length > 0 ? [stop("lytic-before-mechanical-steps", { left })] : []),
    ...(toBeAsked(answers.outsideLength) ? [stop("lytic-before-outside-length")] : []),
    ...(occlusionKind(answers.flushes, answers.blood) === undefined ? [stop("lytic-before-kind")] : []),
    ...(toBeAsked(answers.cause) ? [stop("lytic-before-cause")] : []),
    ...(toBeAsked(answers.pain) || toBeAsked(answers.earSound) ? [stop("lytic-before-symptoms")] : []),
    ...(film && isMissing(answers.film) ? [stop("lytic-before-film", { why: film })] : []),
    ...(answers.film === "tip elsewhere" ? [stop("lytic-with-tip-elsewhere")] : []),
    ...(answers.cause === "two drugs together" || answers.cause === "lipid" ? [stop("lytic-for-precipitate")] : []),
  ];
}

type Say = (step: PatencyStepCode, why: PatencyWhy, more?: Partial<PatencyStep>) => PatencyStep;

/** The clock after a dose: a look at each of the two times, then one repeat, then help. */
function afterLytic(
  answers: PatencyAnswers,
  given: readonly LyticGiven[],
  now: Instant,
  limits: PatencyLimits,
  say: Say,
): PatencyStep {
  const last = given.at(-1) as LyticGiven;
  const minutesSinceDose = Math.floor(minutesBetween(last.at, now));
  const policy = ["care.lytic-first-check", "care.lytic-second-check"];
  // a dose given although a step before it was missing is written down with what was missing, and its clock runs on
  const skipped = lyticRefusals(answers).map((one) => ({ ...one, values: { ...one.values, given: true } }));
  const timed = (step: PatencyStepCode, why: PatencyWhy, afterMin: number, findings: readonly Finding[] = []) =>
    say(step, why, {
      dueAt: instantAfter(last.at, afterMin),
      firstCheckAt: instantAfter(last.at, limits.lyticFirstCheckMin),
      secondCheckAt: instantAfter(last.at, limits.lyticSecondCheckMin),
      minutesSinceDose,
      findings: [...skipped, ...findings],
    });
  const first = limits.lyticFirstCheckMin;
  const second = limits.lyticSecondCheckMin;
  // the later look outranks the earlier: a line that opened and closed again is closed
  const blood = isMissing(last.bloodAtSecondCheck) ? last.bloodAtFirstCheck : last.bloodAtSecondCheck;
  if (blood === true) return say("none", "flows again", { minutesSinceDose, findings: skipped });
  if (minutesSinceDose < 0)
    return timed("wait", "first check not due", first, [
      finding("lytic-time-ahead", "not known", "ask", {}, { policy }),
    ]);
  if (isMissing(last.bloodAtSecondCheck)) {
    if (isMissing(last.bloodAtFirstCheck) && minutesSinceDose < second)
      return minutesSinceDose < first
        ? timed("wait", "first check not due", first)
        : timed("check for blood", "first check due", first);
    return minutesSinceDose < second
      ? timed("wait", "second check not due", second)
      : timed("check for blood", "second check due", second);
  }
  if (given.length >= limits.lyticDoses)
    return say("ask for help", "no blood after every dose", { minutesSinceDose, findings: skipped });
  const dose = lyticDose(answers, limits);
  if (dose.kind === "asked") return say("lytic facts", "no blood after one dose", { findings: dose.findings });
  return say("second lytic", "no blood after one dose", { dose, minutesSinceDose, findings: skipped });
}

/** Where something resists, the word about syringes goes with every step. */
function force(kind: OcclusionKind | undefined, { syringeLeastMl }: PatencyLimits): Finding[] {
  if (kind === "open" || kind === "withdrawal occlusion") return [];
  const values = { leastMl: syringeLeastMl };
  return [finding("no-force-on-resistance", "met", "note", values, { policy: ["care.syringe-least"] })];
}
