import type { DrugChart, FewestLumens, LumenAnswer, LumenOffer, PlacedDose } from "../../core/drug-chart/index.ts";
import { lumens } from "./number.ts";

const DAY_MIN = 1440;

/** Minutes after midnight as a clock shows them. */
export function clockWords(minutes: number): string {
  const within = ((Math.round(minutes) % DAY_MIN) + DAY_MIN) % DAY_MIN;
  return `${String(Math.floor(within / 60)).padStart(2, "0")}:${String(within % 60).padStart(2, "0")}`;
}

/** Every word of the strip. */
export const stripWords = {
  lumen: (count: number) => `lumen ${count}`,
  asCharted: "as charted",
  moved: (charted: number, by: number) =>
    `moved from ${clockWords(charted)}, ${Math.abs(by)} min ${by < 0 ? "earlier" : "later"}`,
  movedShort: (charted: number) => `moved from ${clockWords(charted)}`,
  sentence: (count: number, moved: number) =>
    `One day on ${lumens(count)}${moved === 0 ? ", every dose as charted" : `, ${moved} ${moved === 1 ? "dose" : "doses"} moved`}.`,
  columns: ["lumen", "infusion", "start", "time"],
} as const;

/** The answer in one sentence: as charted, after re-timing, and which doses move. */
export function lumensSentence(answer: FewestLumens, chart: DrugChart): string {
  const { asCharted, retimed } = answer;
  const claim = (one: LumenAnswer) =>
    one.status === "proven"
      ? lumens(one.lumens)
      : `${lumens(one.lumens)} (best found, not proven; at least ${one.atLeast})`;
  if (retimed.lumens >= asCharted.lumens) return `${capital(claim(asCharted))} as charted; moving doses saves none.`;
  const moves = retimed.doses.filter(({ movedMin }) => movedMin !== 0);
  const doubt =
    retimed.movesStatus === "proven" ? "" : ` Fewer moves may do; at least ${retimed.atLeastMoved}: not proven.`;
  return `${capital(claim(retimed))} if ${movesWords(moves, chart)}; ${claim(asCharted)} as charted.${doubt}`;
}

function movesWords(moves: readonly PlacedDose[], chart: DrugChart): string {
  const byInfusion = new Map<string, PlacedDose[]>();
  for (const dose of moves) byInfusion.set(dose.infusionId, [...(byInfusion.get(dose.infusionId) ?? []), dose]);
  return [...byInfusion]
    .map(([id, doses]) => {
      const name = chart.infusions.find((one) => one.id === id)?.name ?? id;
      const times = (of: (dose: PlacedDose) => number) => doses.map((dose) => clockWords(of(dose))).join("/");
      return `${name} moves from ${times(({ chartedMin }) => chartedMin)} to ${times(({ startMin }) => startMin)}`;
    })
    .join(", ");
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Why one lumen fewer is not enough, in words; never "smallest" where it is not proven. */
export function proofSentence(answer: LumenAnswer): string | undefined {
  if (!answer.proof) return undefined;
  const { infusionIds, irreducible } = answer.proof;
  const names = infusionIds.join(", ");
  if (infusionIds.length <= 1) return undefined;
  return irreducible
    ? `Fewer is impossible: ${names}. Leave any one out and fewer suffice.`
    : `Fewer is impossible for these together: ${names}.`;
}

export const unknownPairSentence = ([first, second]: readonly [string, string]): string =>
  `${first} with ${second}: not known, so kept apart. Ask pharmacy.`;

const offerWords: Readonly<Record<LumenOffer["kind"], string>> = {
  "peripheral cannula": "through a cannula instead",
  "gap in a cyclic bag": "with a gap in the bag",
  "oral switch": "by mouth instead",
};

export const lumenOfferSentence = (offer: LumenOffer): string =>
  `${offer.known ? "" : "Ask first: "}${offer.infusionId} ${offerWords[offer.kind]}: ${lumens(offer.lumens)}${offer.settled ? "" : " or fewer"}.`;

/** A chart too tangled for the time a page gives it. */
export const countEnded =
  "The count was ended after 15 seconds. Type the lumens yourself, or give fewer doses room to move.";
