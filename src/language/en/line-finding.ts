import { civilDateOf, clockOf, type Instant } from "../../core/calendar/index.ts";
import type { Due } from "../../core/care/index.ts";
import type { Finding } from "../../core/reason/index.ts";
import type { ReleaseJudgement, ReleaseState } from "../../core/release/index.ts";
import type { FilmAnswer } from "../../core/tip/index.ts";
import { sayDay } from "./moment.ts";
import { amount, armWords } from "./number.ts";

type Values = Finding["values"];
const n = (values: Values, key: string): number => Number(values[key]);
const t = (values: Values, key: string): string => String(values[key]);
const list = (values: Values, key: string): string => (values[key] as readonly string[]).join(", ");
const cm = (values: Values, key: string): string => amount(n(values, key), "cm");

/** What the rules of a line in place found: tip, release, care, cultures, the end. 15 words or fewer. */
export const lineSentences: Readonly<Record<string, (values: Values, finding: Finding) => string>> = {
  "film-place-missing": () => "Where does the tip lie on the film?",
  "film-tip-not-in-cava": (v) => `The tip lies in: ${t(v, "place")}. No number helps. Reposition, then film again.`,
  "film-distance-missing": () => "How far is the tip from the carina on the film?",
  "film-age-missing": () => "How old is the patient? The target depends on it.",
  "film-scale-missing": () => "What is the magnification? Measure a thing of known size on the film.",
  "film-magnification-unusual": (v) =>
    `Magnification ${n(v, "magnification")} is outside ${n(v, "least")} to ${n(v, "most")}. Measure it again.`,
  "film-scaled-by-vertebra": (v) => `Scaled by the spine: one unit taken as ${amount(n(v, "unitCm"), "cm", 2)}.`,
  "film-no-target": () => "No published distance to the junction is enabled here. Set one in the policy.",
  "film-over-reads": (v) => `Films show about ${cm(v, "cm")} more between carina and tip than CT.`,
  "film-not-deeper-than-target": (v) =>
    `The tip is ${cm(v, "aboveCm")} above the target. Leave it. Nothing is pushed in.`,
  "film-no-symptoms-may-stay": (v) => `A tip in the ${t(v, "place")} without symptoms may stay. Local policy decides.`,
  "film-outside-missing": () => "What is the outside length now? Measure before anything moves.",
  "film-inside-missing": () => "What is the inside length now?",
  "film-longer-than-inside": (v) => `That is more than the ${cm(v, "insideCm")} inside. Check the film and lengths.`,
  "film-arm-away": (v) =>
    `The arm was away. At the side the tip goes about ${cm(v, "meanCm")} deeper (${n(v, "leastCm")} to ${n(v, "mostCm")}). Film again.`,
  "film-arm-not-known": () => "Was the arm at the side? Film again, or a named person confirms it.",
  "film-arm-confirmed": (v) => `${t(v, "by")} confirms the arm was at the side.`,
  "tip-estimate-only": (v) => `By the tape alone the tip may be in the ${t(v, "zone")}. Not confirmed.`,
  "release-none": () => "Nobody has released this line.",
  "release-sides-differ": () => "Plan, placing and film do not agree. Two people must settle it first.",
  "release-line-removed": () => "The line is out.",
  "release-line-unknown": () => "Nobody knows whether this line is still in. Find out first.",
  "release-line-handed-on": () => "Another service answers for this line now.",
  "release-not-confirmed": (v) => `This device heard nothing for more than ${n(v, "hours")} hours. Call.`,
  "release-tip-corrected-since": () => "The tip was moved after the release. Film, then release again.",
  "release-tip-not-central": (v) => `The tip was read in: ${t(v, "place")}. That ends the release.`,
  "release-tip-not-central-at-release": () => "Released with no central tip on record: no vesicant, no nutrition.",
  "release-given-without-knowing": (v) =>
    `${t(v, "by")} released it without knowing what came before. It does not stand.`,
  "release-needs-new-tip": (v) => `${t(v, "by")} released it, but no tip was read since it ended.`,
  "release-symptoms": (v) => `${capital(list(v, "symptoms"))}: the release is over. Image first.`,
  "release-no-blood-and-symptoms": (v) =>
    `No blood return and ${list(v, "symptoms")}: the release is over. Image first.`,
  "release-moved-out": (v) => `Out by ${cm(v, "changeCm")} since the film: the release is over. Image first.`,
  "release-moved-in": (v) =>
    `In by ${amount(-n(v, "changeCm"), "cm")} since the film: the release is over. Image first.`,
  "release-length-changed-a-little": (v) =>
    Number.isFinite(n(v, "changeCm"))
      ? `Out by ${cm(v, "changeCm")}. A second person measures. No vesicant, no nutrition till then.`
      : "The outside length had changed. A second person measures it first.",
  "release-no-blood-return": () => "No blood comes back: no vesicant, no nutrition. Work through the steps.",
  "release-blood-return-not-seen-again": () => "Blood had not come back. Nobody has tried again.",
  "release-blood-return-sluggish": () => "Blood comes back slowly. Watch it.",
  "release-outside-not-measured": () => "The outside length was not measured at the last visit.",
  "sides-differ": () => "The arm is not the same in plan, placing and film.",
  "numbers-differ": (v) => `Two patient numbers: ${list(v, "numbers")}. One of these papers is another person's.`,
  "side-missing": (v) => `The ${t(v, "from")} does not say which arm.`,
  "film-number-missing": () => "The film carries no patient number.",
  "vesicant-released": (v, f) =>
    f.verdict === "met" ? "Released for a vesicant." : `Not released for a vesicant: ${t(v, "state")}.`,
  "vesicant-tip-central": (v, f) =>
    f.verdict === "not known"
      ? "No tip reading is on record."
      : `Last tip: ${t(v, "place")}, ${sayDay(civilDateOf(t(v, "at") as Instant))}.`,
  "vesicant-length-today": (v, f) =>
    f.verdict === "not known"
      ? "The outside length was not measured today."
      : `Outside length today ${cm(v, "outsideCm")}: ${f.verdict === "met" ? "unchanged" : "changed"}.`,
  "vesicant-blood-today": (_, f) =>
    f.verdict === "met"
      ? "Blood came back today."
      : f.verdict === "not met"
        ? "Blood did not come back freely today."
        : "Blood return was not tried today.",
  "need-end-passed": (v) => `The planned end (${t(v, "on")}) has passed. Is it still needed?`,
  "need-not-needed": () => "Said to be needed no more. Is the next drug or cycle covered?",
  "need-only-sampling": () => "Only blood sampling is left. Does that justify it?",
  "need-idle": (v) => `Not used for ${n(v, "days")} days. Is it still needed?`,
  "need-not-seen": (v) => `Nobody has written of this line for ${n(v, "days")} days. Find it.`,
  "need-long-dwell": (v) => `In place ${n(v, "days")} days. Review need, skin, hub and other devices.`,
  "need-no-owner": () => "Nobody owns this line. Name an owner, a place and a date.",
  "removal-length-missing": () => "The length that came out was not measured. Measure before discharge.",
  "removal-inside-not-known": (v) => `${cm(v, "outCm")} came out; the inside length is not on record. Compare by hand.`,
  "removal-incomplete": (v) => `Incomplete: ${cm(v, "missingCm")} missing. Do not discharge. Film.`,
  "removal-tip-not-looked-at": () => "The length agrees. Was the tip whole?",
  "removal-tip-broken": () => "The tip was not whole. Do not discharge. Film.",
  "removal-longer-than-inside": (v) =>
    `${cm(v, "outCm")} came out and ${cm(v, "insideCm")} was recorded inside. Check both.`,
  "removal-complete": (v) => `Complete: ${cm(v, "outCm")} came out of ${cm(v, "insideCm")}.`,
  "lytic-weight-missing": () => "What does the patient weigh? The dose depends on it.",
  "lytic-volume-missing": () => "Read the lumen's volume from the label. It is never guessed.",
  "lytic-full-dose": (v) => `${amount(n(v, "mg"), "mg")} for each blocked lumen, by the label.`,
  "lytic-by-volume": (v) =>
    `110 % of the lumen's ${amount(n(v, "lumenVolumeMl"), "mL", 2)}: ${amount(n(v, "mg"), "mg", 3)}.`,
  "lytic-at-ceiling": (v) => `110 % of the lumen would be more. The ceiling is ${amount(n(v, "mg"), "mg")}.`,
  "patency-open": () => "It flushes and gives blood again.",
  "patency-look-first": () => "Look: clamp, kink, dressing, connector, arm, cough. No force, no small syringe.",
  "patency-after-mending": () => "Mended. Try again: does it flush, does blood come?",
  "patency-measure": () => "Measure the outside length against the last film.",
  "patency-kind": () => "Does it flush without blood, run slowly, or neither?",
  "patency-symptoms": () => "Any pain, swelling, or a sound in the ear on flushing?",
  "patency-image-first": () => "Image first. Nothing dissolving goes in before the position is known.",
  "patency-tip-moved": () => "The tip moved. Call the line team. Nothing dissolving goes in.",
  "patency-last-given": () => "What went in last, and could it have precipitated?",
  "patency-precipitate": () => "A precipitate is likely. Call pharmacy before anything goes in.",
  "patency-clot-likely": () => "A clot is likely. The dissolving dose by weight and lumen is next.",
  "patency-wait-first": (v) => `Wait. Look at ${n(v, "minutes")} minutes.`,
  "patency-look-then-wait": (v) => `Look now. Still closed: wait to ${n(v, "minutes")} minutes.`,
  "patency-second-dose": () => "Still closed at the second look: one more dose of the same size.",
  "patency-after-last-dose": () => "Still closed after the last dose. Call the line team.",
  "culture-pair-missing": () => "One bottle from the line and one from a vein are needed.",
  "culture-one-has-not-grown": () => "Only one of the two has grown. There is no difference to read.",
  "culture-loading-missing": (v) => `Bottle ${n(v, "bottle")}: when was it loaded?`,
  "culture-flagged-before-loaded": (v) => `Bottle ${n(v, "bottle")} was flagged before it was loaded. Check the times.`,
  "culture-loaded-before-drawn": (v) => `Bottle ${n(v, "bottle")} was loaded before it was drawn. Check the times.`,
  "culture-waited-before-loading": (v) =>
    `Bottle ${n(v, "bottle")} waited ${n(v, "minutes")} min before loading; ${n(v, "most")} is the most.`,
  "culture-organism-missing": () => "Which organism grew in each bottle?",
  "culture-organisms-differ": () => "The two bottles grew different organisms.",
  "culture-draw-missing": () => "When was each bottle drawn?",
  "culture-drawn-apart": (v) => `Drawn ${n(v, "minutes")} min apart; ${n(v, "most")} is the most.`,
  "culture-loaded-apart": (v) => `Loaded ${n(v, "minutes")} min apart; ${n(v, "most")} is the most.`,
  "culture-volume-missing": () => "How much blood is in each bottle?",
  "culture-volumes-differ": (v) =>
    `One bottle holds ${n(v, "ratio").toFixed(1)} times the other; ${n(v, "most")} is the most.`,
  "culture-antibiotics-before": () => "Antibiotics were given before. Growth may be late in both.",
  "surveillance-line-day": (v) => `Line day ${n(v, "lineDay")}; it counts from day ${n(v, "from")}.`,
  "surveillance-after-removal": (v) => `${n(v, "days")} days after removal; it counts up to ${n(v, "most")}.`,
  "surveillance-organism": (_, f) =>
    f.verdict === "met" ? "An organism grew from the blood." : "No organism is named.",
  "surveillance-no-other-source": (_, f) => sourceWords(f),
  "surveillance-two-samples": (_, f) => `A skin organism needs two samples: ${said(f)}.`,
  "surveillance-sign": (v, f) =>
    `Above ${n(v, "feverAboveC")}, below ${n(v, "coldBelowC")} in infants, chills or low pressure: ${said(f)}.`,
  "clinical-signs": (_, f) => `Signs of infection: ${said(f)}.`,
  "clinical-no-other-source": (_, f) => sourceWords(f),
  "clinical-laboratory": (_, f) => `Differential time, threefold count or same organism on the tip: ${said(f)}.`,
  "out-unstable": (_, f) => `Unstable or septic: ${said(f)}.`,
  "out-tunnel-or-pus": (_, f) => `Pus at the exit or an infected tunnel: ${said(f)}.`,
  "out-infected-clot": (_, f) => `An infected clot: ${said(f)}.`,
  "out-endocarditis": (_, f) => `Endocarditis: ${said(f)}.`,
  "out-cultures-after-72-h": (_, f) => `Still growing 72 hours into treatment: ${said(f)}.`,
  "out-organism": (_, f) => `An organism that usually means removal: ${said(f)}.`,
  "keep-still-needed": (_, f) => `Still needed: ${said(f)}.`,
  "keep-no-other-access": (_, f) => `No other access: ${said(f)}.`,
  "keep-working": (_, f) => `Still working: ${said(f)}.`,
  "out-symptoms-persist": (_, f) => `Symptoms persist on treatment: ${said(f)}.`,
  "out-bleeding-bars-treatment": (_, f) => `Bleeding bars treatment: ${said(f)}.`,
};

const said = ({ verdict }: Finding): string => (verdict === "met" ? "yes" : verdict === "not met" ? "no" : "not known");
const sourceWords = (f: Finding): string =>
  f.verdict === "met"
    ? "No other source."
    : f.verdict === "not met"
      ? "Another source was found."
      : "Another source is not ruled out.";
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

export const sayLineFinding = (finding: Finding): string =>
  lineSentences[finding.code]?.(finding.values, finding) ?? finding.code;

/** May it be used, in one sentence that also says how old the knowledge is. */
export function sayRelease({ state, lastKnown, uses, knownAt }: ReleaseJudgement): string {
  const known =
    knownAt === undefined ? "This device was never in touch." : `As known at ${clockOf(knownAt)} on this device.`;
  const words: Readonly<Record<ReleaseState, string>> = {
    "may be used": `Released for: ${uses.join(", ")}.`,
    restricted: `Only for: ${uses.join(", ") || "nothing"}.`,
    held: `Held. Only for: ${uses.join(", ") || "nothing"}.`,
    ended: "Do not use.",
    "not released": "Not released. Do not use.",
    "not confirmed": `Not confirmed. Call. Last known: ${lastKnown}.`,
  };
  return `${words[state]} ${known}`;
}

const DUE_WORDS: Readonly<Record<Due["what"], string>> = {
  dressing: "Dressing",
  connector: "Connector",
  flush: "Flush",
  visit: "Visit",
  owner: "Owner, place and date",
};
export const sayDueWhat = (what: Due["what"]): string => DUE_WORDS[what];
export const sayDueWhy = (due: Due): string =>
  ({
    interval: "",
    "dressing not dry and whole": "found not dry and whole",
    "named date": "as agreed",
    "nobody owns this line": "missing",
  })[due.why];

/** The most error-prone sentence of the day: three numbers, no verb that can be heard two ways. */
export function sayFilm(answer: FilmAnswer): string {
  switch (answer.kind) {
    case "withdraw":
      return `Withdraw by ${amount(answer.withdrawCm, "cm")}. Outside length will be ${amount(answer.outsideCm, "cm")}. Inside will be ${amount(answer.insideCm, "cm")}. Read back.`;
    case "leave":
      return `Leave it where it is. The tip is ${amount(answer.aboveTargetCm, "cm")} above the target.`;
    case "picture":
      return `No number. The tip lies in: ${answer.place}. Reposition, then film again.`;
    case "no number":
      return "No number yet.";
    default:
      return answer satisfies never;
  }
}

export const sayArmSource = (from: string, arm: "right" | "left" | undefined): string =>
  `${capital(from)}: ${arm ? armWords(arm) : "no arm written"}`;
