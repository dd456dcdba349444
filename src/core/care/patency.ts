import { instantMs, type Instant } from "../calendar/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import type { LyticPolicy } from "./lytic.ts";

/** One answer for each step, in the order they are taken; a step not taken yet is absent. */
export interface PatencyAnswers {
  readonly mechanical?: "found and mended" | "nothing found";
  readonly outsideChanged?: "no" | "yes" | "not known";
  readonly kind?: "flushes, no blood" | "slow both ways" | "neither";
  readonly symptoms?: "none" | "pain, swelling or ear sound";
  readonly lastGiven?: "nothing that precipitates" | "drugs that may precipitate" | "lipid";
  readonly image?: "tip where it was" | "tip moved" | "not taken";
  /** When each dose went in; the clock of the looks runs from the last. */
  readonly dosesAt?: readonly Instant[];
  readonly openAgain?: boolean;
}

export const PATENCY_STEPS = [
  "look",
  "measure outside length",
  "which kind",
  "symptoms",
  "what went in last",
  "image",
  "lytic",
  "wait",
  "look again",
  "second dose",
  "call pharmacy",
  "call the line team",
  "open again",
] as const;
export type PatencyStepName = (typeof PATENCY_STEPS)[number];

export interface PatencyStep {
  readonly step: PatencyStepName;
  /** Why this step and none later. */
  readonly why: Finding;
  /** When to look next, in milliseconds since 1970, where a clock runs. */
  readonly atMs?: number;
}

/**
 * The one next step at a line that gives no blood or does not flush: look, measure, name the kind, ask, then image, and
 * only then dissolve. A lytic is never reached before position and mechanics were settled, and force is never a step.
 * Source: order, common practice; kinds, corporate occlusion texts; looks at 30 and 120 minutes and one repeat, alteplase
 * catheter-clearance label. Example: outside length changed: image, whatever else was found.
 */
export function nextPatencyStep(answers: PatencyAnswers, now: Instant, policy: LyticPolicy): PatencyStep {
  const say = (
    step: PatencyStepName,
    code: string,
    values: Finding["values"] = {},
    policyRows: readonly string[] = [],
  ) => ({
    step,
    why: finding(code, "not known", "ask", values, { policy: policyRows }),
  });
  if (answers.openAgain === true) return say("open again", "patency-open");
  if (answers.mechanical === undefined) return say("look", "patency-look-first");
  if (answers.mechanical === "found and mended" && answers.kind === undefined)
    return say("which kind", "patency-after-mending");
  if (answers.outsideChanged === undefined) return say("measure outside length", "patency-measure");
  if (answers.kind === undefined) return say("which kind", "patency-kind");
  if (answers.symptoms === undefined) return say("symptoms", "patency-symptoms");
  const mustImage = answers.outsideChanged !== "no" || answers.symptoms !== "none";
  if (mustImage && (answers.image === undefined || answers.image === "not taken"))
    return say("image", "patency-image-first");
  if (answers.image === "tip moved") return say("call the line team", "patency-tip-moved");
  if (answers.lastGiven === undefined) return say("what went in last", "patency-last-given");
  if (answers.lastGiven !== "nothing that precipitates") return say("call pharmacy", "patency-precipitate");
  const doses = answers.dosesAt ?? [];
  const last = doses.at(-1);
  if (last === undefined) return say("lytic", "patency-clot-likely");
  const minutes = (instantMs(now) - instantMs(last)) / 60_000;
  const looks = ["lytic.first-look", "lytic.second-look"];
  if (minutes < policy.firstLookMin) {
    return {
      ...say("wait", "patency-wait-first", { minutes: policy.firstLookMin }, looks),
      atMs: instantMs(last) + policy.firstLookMin * 60_000,
    };
  }
  if (minutes < policy.secondLookMin) {
    return {
      ...say("look again", "patency-look-then-wait", { minutes: policy.secondLookMin }, looks),
      atMs: instantMs(last) + policy.secondLookMin * 60_000,
    };
  }
  return doses.length < policy.mostDoses
    ? say("second dose", "patency-second-dose", {}, ["lytic.most-doses"])
    : say("call the line team", "patency-after-last-dose", {}, ["lytic.most-doses"]);
}
