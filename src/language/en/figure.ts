import type { ArteryPlace } from "../../core/arm/index.ts";
import { amount } from "./number.ts";

/** Every word that stands on a plate. */
export const plateWords = {
  tape: {
    lower: "lower third",
    middle: "middle third",
    middleShort: "middle",
    upper: "upper third",
    preferred: "preferred half",
  },
  places: { elbow: "elbow", armpit: "armpit", view: "as the patient sees it" },
  gap: {
    "no vein": "no vein here",
    clot: "clot: not read",
    "artery in front": "artery in front: not read",
    "does not compress": "does not compress: not read",
    "not measured": "not measured",
  },
  artery: "artery beside",
  nerve: "nerve beside",
  deep: "mm deep",
} as const;

export const plateLabel = {
  skin: (cm: number) => `skin ${amount(cm, "cm")}`,
  exit: (cm: number) => `exit ${amount(cm, "cm")}`,
  needleIn: (cm: number) => `needle in ${amount(cm, "cm")}`,
  vein: (cm: number) => `vein ${amount(cm, "cm")}`,
  wideAndDeep: (diameterMm: number, depthMm: number) =>
    `${amount(diameterMm, "mm")} wide, ${amount(depthMm, "mm", 0)} deep`,
  allowed: (fromCm: number, toCm: number) => `enter from ${fromCm.toFixed(1)} to ${amount(toCm, "cm")}`,
  past: (year: number) => `line ${year}`,
  tunnel: (lengthMm: number) => `tunnel ${amount(lengthMm / 10, "cm")}`,
  nextBest: (vein: string) => `${vein}, next best`,
};

const arteryWords: Readonly<Record<ArteryPlace, string>> = {
  none: "no",
  beside: "beside",
  "in front": "in front",
};

export const plateTable = {
  columns: ["what", "at, cm", "width, mm", "depth, mm", "note"],
  skin: "skin, filled dot",
  exit: "exit, filled dot",
  needleIn: "needle through the skin",
  handFrom: "skin when held flatter",
  handTo: "skin when held steeper",
  vein: "vein, open ring",
  allowedFrom: "entry allowed from",
  allowedTo: "entry allowed to",
  middleFrom: "middle third from",
  preferredFrom: "preferred half from",
  upperFrom: "upper third from",
  end: "line of the armpit",
  reading: "reading",
  past: "line before",
  pastUnknown: "place not known",
  alternative: "next best",
  artery: (place: ArteryPlace) => `artery ${arteryWords[place]}`,
  nerve: "nerve beside",
};

/** The sentence of the arm's plate: what it shows, and the one thing to know about its scale. */
export function armStripSentence(shown: {
  readonly arm: string;
  readonly lengthCm: number;
  readonly skinCm: number | undefined;
  readonly veinCm: number | undefined;
  readonly vein: string;
  readonly depthTimes: number;
}): string {
  const place =
    shown.skinCm === undefined || shown.veinCm === undefined
      ? "No place is chosen."
      : `Skin at ${amount(shown.skinCm, "cm")}, ${shown.vein} at ${amount(shown.veinCm, "cm")}.`;
  const depth =
    shown.depthTimes === 1
      ? "Depth and length share one scale."
      : `Depth is drawn ${String(shown.depthTimes)} times larger.`;
  return `${shown.arm}, ${amount(shown.lengthCm, "cm")} from elbow to armpit. ${place} ${depth}`;
}
