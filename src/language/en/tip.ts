import type { FilmAnswer, JunctionTarget, OutsideAnswer } from "../../core/tip/index.ts";
import type { MissingKind } from "../../core/missing/index.ts";
import type { Finding } from "../../core/reason/index.ts";
import { amount } from "./number.ts";

type Values = Finding["values"];
const n = (values: Values, key: string): number => Number(values[key]);
const t = (values: Values, key: string): string => String(values[key]);
const cm = (value: number): string => amount(value, "cm");

const missingSaid: Readonly<Record<MissingKind, string>> = {
  "not known": "Nobody knows it.",
  "not asked": "Nobody has asked yet.",
  "not measured": "Not measured yet.",
  refused: "It was refused; find another way.",
};

/** A question with the kind of its absence: four kinds, four sentences. */
const asked =
  (question: string) =>
  (values: Values): string =>
    `${question} ${missingSaid[t(values, "missing") as MissingKind] ?? missingSaid["not asked"]}`;

const by = (v: Values): string => `${n(v, "changeCm") < 0 ? "In" : "Out"} by ${cm(Math.abs(n(v, "changeCm")))}`;

/** What an outside length, an arm and two readers say, in 15 words or fewer. */
export const tipSentences: Readonly<Record<string, (values: Values, finding: Finding) => string>> = {
  "outside-at-film-missing": asked("How long was it outside at the last film?"),
  "outside-now-missing": asked("How long is it outside now?"),
  "outside-depth-missing": asked("How deep was the tip on the last film?"),
  "outside-age-missing": () => "How old is the patient?",
  "outside-symptoms-missing": asked("Any swelling, pain, leak or palpitations?"),
  "outside-blood-return-missing": asked("Does blood come back?"),
  "outside-symptoms": () => "Symptoms: use nothing. Image first, and call.",
  "outside-no-blood-return": () => "No blood comes back: no vesicant, no nutrition.",
  "outside-as-before": (v) => `Outside length as before, within ${cm(n(v, "noiseCm"))}.`,
  "outside-measure-again": (v) => `${by(v)}. A second person measures. Vesicants and nutrition wait.`,
  "outside-moved-out": (v) => `${by(v)}. Image before use. Never push it back.`,
  "outside-moved-in": (v) => `${by(v)}. Image before use. The tip may lie anywhere deeper.`,
  "tip-estimate-only": () => "A length outside never confirms a tip.",
  "arm-movement-adult": (v) =>
    `Arm to the side: expect ${cm(n(v, "meanCm"))} deeper (${n(v, "leastCm")} to ${n(v, "mostCm")}).`,
  "arm-movement-out-unknown": () => "How far a tip comes back with the arm away was not measured.",
  "arm-movement-child": (v) =>
    `A child's tip moves ${n(v, "meanSpaces")} rib spaces on average, ${n(v, "mostSpaces")} at most.`,
  "arm-movement-newborn": (v) =>
    `Newborn, ${t(v, "vein")} vein: the tip moves ${t(v, "way") === "in" ? "toward the heart" : "out"}.`,
  "arm-movement-newborn-basilic": (v) =>
    `About ${cm(n(v, "expectedCm"))} ${t(v, "way")}; in print ${n(v, "leastCm").toFixed(1)} to ${cm(n(v, "mostCm"))}.`,
  "arm-movement-vein-missing": asked("Which vein is the catheter in?"),
  "arm-movement-vein-unknown": () => "How a newborn's tip moves from this vein was not measured.",
  "readers-agree": (v) => `Two readers differ by ${cm(n(v, "differenceCm"))}, as in print. The shallower counts.`,
  "readers-apart": (v) =>
    `Two readers differ by ${cm(n(v, "differenceCm"))}, more than in print. Read the film together.`,
};

/** A depth in words: "2.5 cm below the carina", and above it where it is negative. */
export const depthWords = (depthCm: number): string =>
  `${cm(Math.abs(depthCm))} ${depthCm < 0 ? "above" : "below"} the carina`;

/** What stands behind the film's sentence: true depth, and every published way to the junction with its spread. */
export function filmLines(answer: FilmAnswer): readonly string[] {
  const depth = "trueDepthCm" in answer ? [`True depth: ${depthWords(answer.trueDepthCm)}.`] : [];
  return [...depth, ...answer.targets.map(targetLine)];
}

function targetLine({ source, people, cm: centreCm, sdCm, enabled }: JunctionTarget): string {
  const centre = centreCm === undefined ? "no scale on this film" : amount(centreCm, "cm", 2);
  const spread = sdCm === undefined ? "" : `, SD ${sdCm.toFixed(2)}`;
  return `- ${centre}${spread}: ${source} (${people}); ${enabled ? "counts here" : "shown only"}.`;
}

/** The sentence of a changed outside length; never a confirmation. */
export function outsideSentence({ estimate, shortOfJunctionCm: short }: OutsideAnswer): string {
  if (!estimate || !short) return "No estimate of the tip. Not confirmed.";
  const spread = `${short.least.toFixed(1)} to ${cm(short.most)} short of the junction, by series`;
  const zone = estimate.zone === undefined ? "" : `: ${estimate.zone}`;
  return `Tip at most ${depthWords(estimate.depthAtMostCm)}${zone}. ${spread}. Estimate, not confirmed.`;
}
