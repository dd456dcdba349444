import { amount } from "./number.ts";

/** Every word on the plate of the tip and in its table. It takes plain values, so that any reading of a film can be drawn. */
export const tipPlateWords = {
  view: "as the patient sees it",
  right: "patient's RIGHT",
  left: "patient's LEFT",
  carina: "carina",
  cava: "superior vena cava",
  atrium: "right atrium",
  junction: "junction",
  azygos: "azygos vein",
  tipNow: "tip now",
  targets: "targets",
  withdraw: (cm: number) => `withdraw by ${amount(cm, "cm")}`,
  notNow: "no number from this film now",
  reposition: "no number: reposition is a procedure",
  seenAt: (place: string): string => `Place of the tip: ${place}.`,
  pictureOnly: "Picture only, no number.",
  armNotKnown: "ARM NOT KNOWN",
  armNotSettled: "ARM NOT SETTLED",
  doubt: "doubt of the reading",
  means: "drawn by adult means",
  columns: ["what", "below the carina, cm", "note"],
  rows: {
    tip: "tip now",
    doubt: "doubt of the reading",
    target: (name: string) => `target, ${name}`,
    after: "tip after withdrawal",
    place: "place of the tip",
    counted: "counted",
    notCounted: "not counted here",
    sets: "sets the withdrawal",
  },
} as const;

/** A depth for a label: "6.5 cm below", or above where it is negative. */
export const plateDepth = (depthCm: number): string =>
  `${amount(Math.abs(depthCm), "cm")} ${depthCm < 0 ? "above" : "below"}`;
