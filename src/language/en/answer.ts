import type { StockCatheter } from "../../core/catheter/index.ts";
import type { Side } from "../../core/arm/index.ts";
import type { Candidate, Flip, Offer, PlanAnswer, PlanChoice, PlanInput } from "../../core/line-plan/index.ts";
import { millimetreToFrench } from "../../core/quantity/index.ts";
import { amount, armWords, lumens } from "./number.ts";
import { sayFinding } from "./finding.ts";

export const safetyStatement =
  "Decision support for trained clinicians. It shows its basis and defers to local policy and the treating clinician. Not validated for clinical use in any place until that place has signed its own validation.";

export const veinName: Readonly<Record<string, string>> = {
  basilic: "basilic vein",
  brachial: "brachial vein",
  "second brachial": "second brachial vein",
  cephalic: "cephalic vein",
  axillary: "axillary vein",
};

/** The sentence the hands need first. Skin and vein are two points, and both are said. */
export function answerSentence(
  answer: PlanAnswer,
  shelf: readonly StockCatheter[],
  stopped = answer.outcome === "refused",
): string {
  const { chosen } = answer;
  if (!chosen) return noPlaceSentence(answer);
  const catheter = shelf.find(({ id }) => id === chosen.catheterId);
  const size = catheter ? `${catheter.name}, ${lumens(catheter.lumens)}` : chosen.catheterId;
  const skin = chosen.tunnel
    ? `Needle in at ${amount(chosen.needleSkinCm, "cm")}, tunnel to an exit at ${amount(chosen.skinExitCm, "cm")}.`
    : `Mark the skin at ${amount(chosen.skinExitCm, "cm")}.`;
  const refused = stopped ? "Not as it stands. " : "";
  return `${refused}${armWords(chosen.side)}. ${skin} Enter the ${veinName[chosen.vein]} at ${amount(chosen.veinEntryCm, "cm")}. ${size}.`;
}

/** How the needle goes: the skin mark holds at this angle only. */
export const needleSentence = (chosen: Candidate): string =>
  `Needle at ${chosen.angleDegree} degrees, ${amount(chosen.depthMm, "mm", 0)} deep, ${amount(chosen.trackMm, "mm", 0)} of track.`;

/** The ceiling with the solution it holds for; never a dose to give. */
export function ceilingSentence(
  ceiling: { readonly mostMl: number | undefined; readonly mostMg: number | undefined },
  anaesthetic: PlanInput["anaesthetic"],
): string | undefined {
  const { concentrationPercent: percentage, withAdrenaline } = anaesthetic;
  if (ceiling.mostMl === undefined || ceiling.mostMg === undefined || typeof percentage !== "number") return undefined;
  const kind = withAdrenaline === true ? "with adrenaline" : "plain";
  return `Lidocaine ${percentage}\u202f%, ${kind}: ceiling ${amount(ceiling.mostMl, "mL")} (${amount(Math.floor(ceiling.mostMg + 1e-9), "mg", 0)}), skin and tunnel together.`;
}

/** The cut, or why there is none yet. */
export const cutSentence = (
  trim: { readonly insideCm: number; readonly outsideCm: number; readonly totalCm: number } | undefined,
): string =>
  trim
    ? `Inside ${amount(trim.insideCm, "cm")}, outside ${amount(trim.outsideCm, "cm")}: cut at ${amount(trim.totalCm, "cm")}.`
    : "No trim yet.";

function noPlaceSentence(answer: PlanAnswer): string {
  const stop = answer.findings.find(({ level }) => level === "stop");
  const ask = answer.findings.find(({ level }) => level === "ask");
  const first = stop ?? ask;
  return first ? `I cannot choose a place. ${sayFinding(first)}` : "I cannot choose a place.";
}

export function offerSentence(offer: Offer): string {
  switch (offer.kind) {
    case "smaller catheter":
      return `A catheter up to ${amount(offer.largestOutsideDiameterMm, "mm", 2)} (${millimetreToFrench(offer.largestOutsideDiameterMm).toFixed(1)} Fr) would fit: ${armWords(offer.side)}, ${veinName[offer.vein]}.`;
    case "survey another vein":
      return `${armWords(offer.side)}: measure another vein (${offer.veins.join(", ")}).`;
    case "survey the other arm":
      return `Measure the ${armWords(offer.side)}.`;
    case "tunnel from the upper third":
      return `${armWords(offer.side)}: follow the ${veinName[offer.vein]} into the upper third, and tunnel down.`;
    case "another kind of device":
      return "Consider another kind of device.";
    default:
      return offer satisfies never;
  }
}

const notConsideredSentences: Readonly<Record<string, string>> = {
  "drugs beyond the stated need": "Drugs beyond the need you stated.",
  "clot or narrowing above the arm": "Clot or narrowing above the arm.",
  "the tip": "Where the tip will lie.",
  "bleeding, bacteria in the blood, kidney function": "Bleeding, bacteria in the blood, kidney function.",
  "whether a line is right at all": "Whether a line is right at all.",
  "your hands and the room": "Your hands and the room.",
};
export const notConsideredSentence = (code: string): string => notConsideredSentences[code] ?? code;

/** What of an entry a path points at, in words: the vein and the place of a reading, not its number in a list. */
function pathWords(path: string, input: PlanInput): string {
  const reading = /^arms\.(right|left)\.surveys\.(\d+)\.stations\.(\d+)\.(\w+)$/.exec(path);
  if (reading) {
    const survey = input.arms[reading[1] as Side].surveys[Number(reading[2])];
    const at = survey?.stations[Number(reading[3])]?.atCm;
    const field = fieldWords[reading[4] as string] ?? reading[4];
    return `${armWords(reading[1])}, ${survey?.vein ?? ""} at ${at === undefined ? "?" : amount(at, "cm")}, ${field}`;
  }
  const arm = /^arms\.(right|left)\.(\w+)$/.exec(path);
  if (arm) return `${armWords(arm[1])}, ${fieldWords[arm[2] as string] ?? arm[2]}`;
  const words = fieldWords[path.split(".").at(-1) as string] ?? path;
  return words.charAt(0).toUpperCase() + words.slice(1);
}

const fieldWords: Readonly<Record<string, string>> = {
  diameterMm: "vein width",
  depthMm: "vein depth",
  compressible: "compresses",
  thrombus: "clot seen",
  tourniquetOn: "tourniquet on",
  armLengthCm: "arm length",
  bars: "reason against",
  lumens: "lumens needed",
  flowMlPerHour: "fastest infusion",
  blood: "blood through it",
  weightKg: "weight",
  age: "age",
  dominantArm: "dominant arm",
};

function choiceWords(choice: PlanChoice, shelf: readonly StockCatheter[]): string {
  if (!choice.side || !choice.vein) return choice.outcome === "refused" ? "nothing fits" : "a question is open";
  const catheter = shelf.find(({ id }) => id === choice.catheterId)?.name ?? choice.catheterId ?? "";
  const tunnel = choice.tunnelled ? ", tunnelled" : "";
  const asks = choice.outcome === "ask" ? ", with a question" : "";
  return `${armWords(choice.side)}, ${veinName[choice.vein]}, ${catheter}${tunnel}${asks}`;
}

/** "RIGHT ARM, basilic at 8.0 cm, vein width down to 3.1 mm (now 3.5): ..." or undefined when nothing changes. */
export function flipSentence(flip: Flip, input: PlanInput): string | undefined {
  if (flip.kind === "none") return undefined;
  const what = pathWords(flip.path, input);
  if (flip.kind === "answer") {
    return flip.becomes ? `${what}, if "${flip.value}": ${choiceWords(flip.becomes, input.shelf)}.` : undefined;
  }
  const digits = flip.precision >= 1 ? 0 : 1;
  const value = amount(flip.firstDifferent, flip.unit === "lumens" ? "" : flip.unit, digits);
  const way = flip.direction === "down" ? "down to" : "up to";
  return `${what} ${way} ${value} (now ${flip.from.toFixed(digits)}): ${choiceWords(flip.becomes, input.shelf)}.`;
}

/** The paragraph read aloud before the skin is touched. */
export function timeOutLines(
  chosen: Candidate,
  who: { readonly name: string; readonly identifier: string },
  catheter: string,
): readonly string[] {
  return [
    `This is ${who.name}, number ${who.identifier}.`,
    `${armWords(chosen.side)}, ${veinName[chosen.vein]}.`,
    `Skin at ${amount(chosen.skinExitCm, "cm")}, vein at ${amount(chosen.veinEntryCm, "cm")}, ${amount(chosen.depthMm, "mm", 0)} deep, needle at ${chosen.angleDegree} degrees.`,
    `${catheter}. Lot and expiry read aloud.`,
    "Allergies asked. Consent seen. Reasons against this arm asked.",
  ];
}

export const whatIfItFails = [
  "Two attempts, then stop and call.",
  "No wire in the vein: take the needle out, press, look again.",
  "Artery, needle only: out, press until it stops, check the hand.",
  "Artery, dilator or sheath in: leave it in and call.",
];
