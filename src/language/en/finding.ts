import type { Finding } from "../../core/reason/index.ts";
import { armBarSentence } from "./arm-bar.ts";
import { careSentences } from "./care.ts";
import { complicationSentences } from "./complication.ts";
import { amount, armWords, inHundred, lumens, percent } from "./number.ts";
import { plausibilitySentences } from "./plausibility.ts";
import { referralSentences } from "./referral-finding.ts";
import { tipSentences } from "./tip.ts";

type Values = Finding["values"];
const n = (values: Values, key: string): number => Number(values[key]);
const t = (values: Values, key: string): string => String(values[key]);

/** What each rule found, in 15 words or fewer. A code without a sentence fails a test. */
export const findingSentences: Readonly<Record<string, (values: Values, finding: Finding) => string>> = {
  "identity-missing": () => "Two identifiers are needed: name and number.",
  "age-missing": () => "The age is missing. Without it no rule applies.",
  "weight-missing": () => "The weight is missing. Without it no rule applies.",
  "born-preterm-missing": () => "Was this child born before term?",
  "corrected-age-missing": () => "How old is this child, counted from term?",
  "arm-bars-not-asked": (v) => `${armWords(v["side"])}: ask for reasons against this arm first.`,
  "arm-length-missing": (v) => `${armWords(v["side"])}: measure the arm from epicondyle to axillary line.`,
  "arm-not-surveyed": (v) => `${armWords(v["side"])}: no vein has been measured.`,
  "survey-missing": () => "No vein is measured yet. Measure at 10 to 13 cm, no tourniquet.",
  "arm-barred": (v) => `${armWords(v["side"])} is barred: ${armBarSentence(t(v, "reason"))}.`,
  "arm-barred-overridden": (v) =>
    `${armWords(v["side"])} is barred (${armBarSentence(t(v, "reason"))}) and planned against.`,
  "arm-strong-reason": (v) => `${armWords(v["side"])}: strong reason against, ${armBarSentence(t(v, "reason"))}.`,
  "arm-weak-reason": (v) => `${armWords(v["side"])}: weak reason against, ${armBarSentence(t(v, "reason"))}.`,
  "fixed-arm-barred": (v) => `${armWords(v["side"])} is barred. Nothing can be planned there.`,
  "fixed-place-not-measured": (v) =>
    `Nothing is measured at ${amount(n(v, "veinEntryCm"), "cm")}. Move, or measure there.`,
  "fixed-catheter-does-not-carry-need": () => "This catheter does not carry what you need.",
  "arms-tie": () => "Both arms stand equally well. Choose with the patient.",
  "need-lumens-missing": () => "How many lumens are needed?",
  "need-flow-missing": () => "How fast is the fastest infusion? Zero if none.",
  "need-blood-missing": () => "Will blood be given through it?",
  "need-contrast-missing": () => "Will contrast be injected? At what rate, or zero?",
  "need-lumens-many": (v) => `${lumens(n(v, "lumens"))} asked for; more than ${n(v, "limit")} is questioned here.`,
  "need-stated-by-you": (v) => `Need as stated by you: ${lumens(n(v, "lumens"))}.`,
  "no-catheter-carries-need": () => "No catheter on the shelf carries what you need.",
  "nothing-fits": (v) => `Nothing fits. What stops it: ${ruleNames[t(v, "emptiedBy")] ?? "the rules together"}.`,
  "adult-ratio-borrowed": () => "No ratio is validated in children. The evidence for one is borrowed from adults.",
  "skin-in-middle-third": (v, f) =>
    f.verdict === "not met"
      ? `Skin exit at ${amount(n(v, "skinExitCm"), "cm")} is outside the middle third (${n(v, "fromCm").toFixed(1)} to ${n(v, "toCm").toFixed(1)}).`
      : f.verdict === "at the limit"
        ? `Skin exit at ${amount(n(v, "skinExitCm"), "cm")} is too near the border to tell by tape.`
        : `Skin exit in the middle third (${n(v, "fromCm").toFixed(1)} to ${n(v, "toCm").toFixed(1)}).`,
  "skin-in-preferred-half": (v, f) =>
    f.verdict === "met"
      ? `Skin exit in its upper half (${n(v, "fromCm").toFixed(1)} to ${n(v, "toCm").toFixed(1)}).`
      : `Skin exit below the preferred half (${n(v, "fromCm").toFixed(1)} to ${n(v, "toCm").toFixed(1)}).`,
  "angle-band-in-middle-third": (v, f) =>
    f.verdict === "met"
      ? `Five degrees off still lands in the middle third.`
      : `${n(v, "angleErrorDegree")} degrees off leaves the middle third (${n(v, "fromCm").toFixed(1)} to ${n(v, "toCm").toFixed(1)}).`,
  "vein-entry-in-upper-third": () => "The vein is entered in the upper third. Is that wanted?",
  "tunnel-needed": (v) =>
    `Tunnel ${amount(n(v, "lengthCm"), "cm")} down to an exit at ${amount(n(v, "exitCm"), "cm")}. Can you tunnel?`,
  "catheter-to-vein-ratio": (v, f) => {
    const range = `${n(v, "lowPercent").toFixed(0)} to ${percent(n(v, "highPercent"))}`;
    const found = `It fills ${percent(n(v, "ratioPercent"))} of the vein (${range})`;
    if (f.verdict === "met") return `${found}, within the ${percent(n(v, "limitPercent"))} you set.`;
    if (f.verdict === "not met") return `${found}, over the ${percent(n(v, "limitPercent"))} you set.`;
    return `${found}: ${inHundred(n(v, "chancePercent"))} within ${percent(n(v, "limitPercent"))}.`;
  },
  "one-third-mark": (v) => `Within one third of the vein: ${inHundred(n(v, "chancePercent"))}.`,
  "vein-depth": (v, f) =>
    f.verdict === "met"
      ? `Vein ${amount(n(v, "depthMm"), "mm", 0)} deep.`
      : f.verdict === "not met"
        ? `Vein ${amount(n(v, "depthMm"), "mm", 0)} deep, over the ${amount(n(v, "stopMm"), "mm", 0)} you set.`
        : `Vein ${amount(n(v, "depthMm"), "mm", 0)} deep, past ${amount(n(v, "askMm"), "mm", 0)}. Can you reach it?`,
  "vein-compresses": (_, f) =>
    said(
      f,
      "The vein compresses.",
      "The vein does not compress: think of a clot.",
      "Does the vein compress? Nobody has said.",
    ),
  "no-thrombus": (_, f) =>
    said(f, "No clot seen at this place.", "A clot was seen here.", "Was a clot looked for? Nobody has said."),
  "artery-clear": (_, f) =>
    said(
      f,
      "No artery in the way here.",
      "An artery lies in front of the vein.",
      f.verdict === "not known"
        ? "Was an artery looked for? Nobody has said."
        : "An artery lies beside the vein. Can you keep clear?",
    ),
  "nerve-clear": (_, f) =>
    said(
      f,
      "No nerve seen beside it.",
      "A nerve lies in the way.",
      f.verdict === "not known"
        ? "Nobody has said whether a nerve lies beside it."
        : "A nerve lies beside the vein. Can you keep clear?",
    ),
  "measured-without-tourniquet": (_, f) =>
    said(
      f,
      "Measured without a tourniquet.",
      "Measured with a tourniquet.",
      f.verdict === "not known"
        ? "Was a tourniquet on? Nobody has said."
        : "Measured with a tourniquet: likely about 0.7 mm too wide. Measure again.",
    ),
  "between-readings": (v, f) =>
    f.verdict === "met"
      ? `Read between measurements, ${amount(n(v, "nearestCm"), "cm")} from the nearest.`
      : `Nobody measured within ${amount(n(v, "nearestCm"), "cm")} of here. Look with the probe first.`,
  "vein-narrows-beyond": (v) =>
    `Further on, at ${amount(n(v, "atCm"), "cm")}, the vein is ${amount(n(v, "diameterMm"), "mm")}: ${percent(n(v, "ratioPercent"))} filled.`,
  "vein-does-not-compress": (v) =>
    `${armWords(v["side"])}, ${t(v, "vein")} at ${amount(n(v, "atCm"), "cm")}: does not compress. Rule out a clot.`,
  "size-within-weight-band": (v, f) =>
    f.verdict === "met"
      ? `Size within what ${amount(n(v, "weightKg"), "kg")} makes one expect.`
      : `${n(v, "french")} Fr is more than ${amount(n(v, "weightKg"), "kg")} makes one expect (${n(v, "largestFrench")} Fr).`,
  "label-does-not-answer": (v) =>
    `The label of ${t(v, "catheter")} does not answer: ${(v["need"] as readonly string[]).join(", ")}.`,
  "outside-diameter-from-french": (v) =>
    `True width not on record: ${n(v, "french")} Fr taken as ${amount(n(v, "outsideDiameterMm"), "mm", 2)}.`,
  "catheter-too-short": (v) => `Too short for this length: ${(v["catheters"] as readonly string[]).join(", ")}.`,
  "weight-converted": (v) => `${amount(n(v, "weightLb"), "lb")} is ${amount(n(v, "weightKg"), "kg", 2)}.`,
  "length-missing": () => "No length is measured yet. Tape from the vein mark to the third right rib space.",
  "tape-start-missing": () => "From which mark on the arm was the tape laid? No trim until then.",
  "catheter-length-unchecked": (v) =>
    `This catheter is ${amount(n(v, "lengthCm"), "cm")} long, and no length is known.`,
  "lengths-disagree": (v) =>
    `These lengths differ by ${amount(n(v, "differenceCm"), "cm")}. Measure again before cutting.`,
  "length-by-one-way": () => "One way to the length only. Measure by a second.",
  "length-ends-short": (v) =>
    `The ${t(v, "way")} gives ${amount(n(v, "lengthCm"), "cm")} to the ${t(v, "target")} only. Lay the tape as well.`,
  "length-against-formula": (v) =>
    `The tape misses the ${t(v, "way")} by ${amount(n(v, "missCm"), "cm")}. Measure again before cutting.`,
  "anaesthetic-age-missing": () => "The age is missing: no ceiling.",
  "anaesthetic-no-child-row": () => "No ceiling for children until local policy sets one.",
  "anaesthetic-not-known": () => "Weight, concentration or adrenaline is missing: no ceiling.",
  ...plausibilitySentences,
  ...referralSentences,
  ...careSentences,
  ...complicationSentences,
  ...tipSentences,
};

function said(finding: Finding, met: string, notMet: string, open: string): string {
  return finding.verdict === "met" ? met : finding.verdict === "not met" ? notMet : open;
}

/** Rules by the name people call them, for "what stops it". */
export const ruleNames: Readonly<Record<string, string>> = {
  "catheter-to-vein-ratio": "the vein is too small for the catheter",
  "skin-in-middle-third": "the skin exit leaves the middle third",
  "vein-depth": "the vein is too deep",
  "vein-compresses": "the vein does not compress",
  "no-thrombus": "a clot",
  "artery-clear": "an artery in front",
  "survey-missing": "no vein is measured",
  "no-catheter-carries-need": "no catheter carries the need",
};

/** The one-sentence reason behind a rule, for "why". */
export const ruleReasons: Readonly<Record<string, string>> = {
  "skin-in-middle-third":
    "Low on the arm the vein is thin, shallow and bent by the elbow. High up it is deep, and hair and sweat lift dressings.",
  "skin-in-preferred-half": "The upper half of the middle third is wide enough and still flat and dry.",
  "catheter-to-vein-ratio": "A vein filled by its catheter clots: blood needs room to pass.",
  "need-stated-by-you": "Each lumen is narrower and blocks sooner.",
  "tunnel-needed": "A tunnel brings the exit to skin that a dressing can hold.",
  "vein-depth": "A deep vein takes a long, steep needle track.",
  "measured-without-tourniquet": "A tied arm makes the vein look wider than it lives.",
  "line-infection-suspected":
    "Paired cultures before antibiotics: Mermel LA and others 2009, from memory. No removal for fever without proof: Chopra V and others 2015.",
};

export function sayFinding(finding: Finding): string {
  const say = findingSentences[finding.code];
  if (!say) throw new Error(`No sentence for the finding "${finding.code}"`);
  const sentence = say(finding.values, finding);
  return finding.values["plannedAgainst"] === true ? `Planned against: ${sentence}` : sentence;
}
