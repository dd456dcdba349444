import { civilDateOf, clockOf, type CivilDate, type Instant } from "../../core/calendar/index.ts";
import type { Finding } from "../../core/reason/index.ts";
import type { ReleaseJudgement, ReleaseState } from "../../core/release/index.ts";
import type { FilmAnswer } from "../../core/tip/index.ts";
import { sayFinding } from "./finding.ts";
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
  "film-unit-missing": () => "How long is one vertebra with its disc on this film?",
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
  "tip-estimate-only": (v) =>
    v["zone"] === undefined
      ? "By the tape alone. Not confirmed."
      : `By the tape alone the tip may be in the ${t(v, "zone")}. Not confirmed.`,
  "release-none": () => "Nobody has released this line.",
  "release-sides-differ": () => "Plan, placing and film do not agree. Two people must settle it first.",
  "release-line-removed": () => "The line is out.",
  "release-line-unknown": () => "Nobody knows whether this line is still in. Find out first.",
  "release-line-handed-on": () => "Another service answers for this line now.",
  "release-not-confirmed": (v) => `This device heard nothing for more than ${n(v, "hours")} hours. Call.`,
  "release-tip-corrected-since": () => "The tip was moved after the release. Film, then release again.",
  "release-tip-not-central": (v) => `The tip was read in: ${t(v, "place")}. That ends the release.`,
  "release-tip-not-central-at-release": () => "Released with no central tip on record: no vesicant, no nutrition.",
  "release-tip-not-read": () => "No tip reading is on record.",
  "release-tip-place-missing": () => "The last reading does not say where the tip lies.",
  "release-tip-not-good": (v) => `The tip was read in: ${t(v, "place")}. No release on that place.`,
  "release-tip-too-deep": (v) => `Too deep: the film asks to withdraw ${cm(v, "withdrawCm")}. None is written.`,
  "release-tip-not-read-again": () => "The tip was moved and not read again since.",
  "release-ended-needs-new-tip": () => "The last release ended. Read the tip again first.",
  "release-over-stop": (v) => `${t(v, "by")} released it all the same. That does not stand.`,
  "release-stop-passed": (v) => `Passed by ${(v["names"] as readonly string[]).join(" and ")}: "${t(v, "why")}".`,
  "release-role-as-said": (v) => `Released by ${t(v, "by")}: role as said, not checked.`,
  "release-given-without-knowing": (v) =>
    `${t(v, "by")} released it without knowing what came before. It does not stand.`,
  "release-needs-new-tip": (v) => `${t(v, "by")} released it, but no tip was read since it ended.`,
  "release-symptoms": (v) => `${capital(list(v, "symptoms"))}: the release is over. ${symptomStep(v)}`,
  "release-no-blood-and-symptoms": (v) =>
    `No blood return and ${list(v, "symptoms")}: the release is over. ${symptomStep(v)}`,
  "release-moved-out": (v) =>
    `Out by ${cm(v, "changeCm")} since the film: the release is over. Image first. Never push it back.`,
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
  "release-ended-sign-open": (v) =>
    `Ended by ${list(v, "symptoms")}. Open until an infection is ruled out, or two people decide with a reason.`,
  "release-sign-not-settled": (v) => `${t(v, "by")} released it, but what ended it was not settled.`,
  "release-moved-unmeasured": () => "Found moved: the release is over. Image first. Never push it back.",
  "release-hard-flush-after-move": () =>
    "The length had changed, and now it flushes badly: the release is over. Image first.",
  "release-blocked": () => "Nothing goes through. Work through the steps. Never force.",
  "line-not-needed": () => "Said to be needed no more. Is the next drug or cycle covered?",
  "line-infection-suspected": (v) =>
    `Infection suspected since ${sayDay(t(v, "on") as CivilDate)}: cultures from line and vein before antibiotics. Fever alone takes no line out; shock may. The treating team decides.`,
  "line-no-owner": () => "Nobody owns this line. Name an owner, a place and a date.",
};

/** What comes first with fever; its basis stands behind the sentence on the page. */
const fever = "Call the team: cultures before antibiotics. Fever alone takes no line out; shock may.";
const FEVERISH = new Set(["fever", "chills"]);
const symptomStep = (v: Values): string => {
  const symptoms = v["symptoms"] as readonly string[];
  const feverish = symptoms.filter((one) => FEVERISH.has(one)).length;
  return [...(feverish < symptoms.length ? ["Image first."] : []), ...(feverish > 0 ? [fever] : [])].join(" ");
};

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

export const sayLineFinding = (finding: Finding): string =>
  lineSentences[finding.code]?.(finding.values, finding) ?? sayFinding(finding);

/** May it be used, in one sentence that also says how old the knowledge is. */
export function sayRelease({ state, lastKnown, uses, knownAt }: ReleaseJudgement): string {
  const known =
    knownAt === undefined ? "This device was never in touch." : `As known at ${clockOf(knownAt)} on this device.`;
  const words: Readonly<Record<ReleaseState, string>> = {
    "may be used": uses.length > 0 ? `Released for: ${uses.join(", ")}.` : "Released for nothing. Do not use.",
    restricted: `Only for: ${uses.join(", ") || "nothing"}.`,
    held: `Held. Only for: ${uses.join(", ") || "nothing"}.`,
    ended: "Do not use.",
    blocked: "Blocked: for nothing until it runs.",
    "not released": "Not released. Do not use.",
    "not confirmed": `Not confirmed. Call. Last known: ${lastKnown}.`,
  };
  return `${words[state]} ${known}`;
}

/** The state of a line as one row of a list says it; "ended" alone could be read as a line that is out. */
const sayReleaseRow: Readonly<Record<ReleaseState, string>> = {
  "may be used": "released",
  restricted: "not for everything: look",
  held: "held: call",
  ended: "DO NOT USE",
  blocked: "BLOCKED: for nothing",
  "not released": "not released: do not use",
  "not confirmed": "not confirmed: call",
};

/** The row's word, with an infection that is suspected and not settled. */
export const sayRowState = (state: ReleaseState, suspected: boolean): string =>
  suspected ? `infection suspected: call; ${sayReleaseRow[state]}` : sayReleaseRow[state];

/** The role on an entry must be one that may write it; the same table holds at the server. */
export const sayRoleRefused = (role: string): string =>
  `The role "${role}" may not write this. Choose yours, or ask the lead.`;

export const releasedUncorrected = "Released, but this film asks for a withdrawal. None is written. Call.";

/** What to do about a tip that speaks against a release. */
export const tipStopAsks = "Correct it and film again. Or two people pass this stop, with a reason.";

/** What to do about a sign that ended a release and says nothing of the tip. */
export const openSignAsks = "Cultures negative and a named person concludes: no infection. Then release again.";

/** What is due, as a word to begin a row with, and why where it is not its interval. */
export const sayDueWhat = (what: string): string => capital(what);
export const sayDueWhy = (why: string): string => (why === "interval" ? "" : why);

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
