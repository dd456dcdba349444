import { flowPair } from "../../core/flow/index.ts";
import { flowWords } from "../../language/index.ts";
import { millimetre } from "../../core/quantity/index.ts";
import { escaped, type Figure } from "../plate/index.ts";

export interface FlowCurveInput {
  readonly id: string;
  /** Outside diameters to draw, each with its name. */
  readonly sizes: readonly { readonly name: string; readonly outsideDiameterMm: number }[];
  readonly chosenMm: number;
  /** The patient's own vein and the standard deviation of its diameter. */
  readonly veinMm: number;
  readonly veinSdMm: number;
}

const LEFT = 70;
const RIGHT = 770;
const TOP = 20;
const BOTTOM = 380;
const FROM_MM = 1.5;
const TO_MM = 8;
const POINTS = 120;
const Z_95 = 1.96;

const x = (mm: number): number => LEFT + ((mm - FROM_MM) / (TO_MM - FROM_MM)) * (RIGHT - LEFT);
const y = (share: number): number => BOTTOM - share * (BOTTOM - TOP);
const n = (value: number): string => value.toFixed(1);

/** What each size leaves of the flow against the width of the vein, as a band from centred to touching, with the patient's vein and its doubt. */
export function flowCurve(input: FlowCurveInput): Figure {
  const { veinMm, veinSdMm, chosenMm } = input;
  const pair = (outside: number, diameter: number) => {
    const answer = flowPair({ outsideDiameterMm: millimetre(outside), diameterMm: millimetre(diameter) });
    return answer.kind === "flow" ? answer : undefined;
  };
  const curves = input.sizes.map(({ name, outsideDiameterMm }) => {
    const points = Array.from({ length: POINTS + 1 }, (_, index) => FROM_MM + ((TO_MM - FROM_MM) * index) / POINTS)
      .map((mm) => ({ mm, at: pair(outsideDiameterMm, mm) }))
      .filter((one) => one.at !== undefined);
    const line = (which: "centred" | "touching") =>
      points.map(({ mm, at }, index) => `${index === 0 ? "M" : "L"}${n(x(mm))} ${n(y(at?.[which] ?? 0))}`).join("");
    const last = points.at(-1)?.at;
    const chosen = outsideDiameterMm === chosenMm;
    return {
      svg: `<path class="centred${chosen ? " act" : ""}" d="${line("centred")}"/>${chosen ? `<path class="touching" d="${line("touching")}"/>` : ""}`,
      label: { text: name, at: y(last?.centred ?? 0), chosen },
      row: [name, ...cells(pair(outsideDiameterMm, veinMm))],
    };
  });
  const labels = spread(curves.map(({ label }) => label))
    .map(
      ({ text, at, chosen }) =>
        `<text class="size${chosen ? " act" : ""}" x="${RIGHT + 10}" y="${n(at + 5)}">${escaped(text)}</text>`,
    )
    .join("");
  const low = Math.max(FROM_MM, veinMm - Z_95 * veinSdMm);
  const high = Math.min(TO_MM, veinMm + Z_95 * veinSdMm);
  const words = flowWords.curve({ veinMm, low, high });
  const axis = [0, 0.25, 0.5, 0.75, 1]
    .map(
      (share) =>
        `<line class="hair" x1="${LEFT}" x2="${RIGHT}" y1="${n(y(share))}" y2="${n(y(share))}"/><text class="tick end" x="${LEFT - 8}" y="${n(y(share) + 5)}">${(100 * share).toFixed(0)}\u202f%</text>`,
    )
    .join("");
  const ticks = [2, 3, 4, 5, 6, 7, 8]
    .map((mm) => `<text class="tick" x="${n(x(mm))}" y="${BOTTOM + 22}">${mm}</text>`)
    .join("");
  const svg = `<svg class="plate flow-curve" viewBox="0 0 900 440" role="img" aria-labelledby="${input.id}-t"><title id="${input.id}-t">${escaped(words.sentence)}</title><rect class="doubt" x="${n(x(low))}" y="${TOP}" width="${n(x(high) - x(low))}" height="${BOTTOM - TOP}"/>${axis}${ticks}${curves.map((curve) => curve.svg).join("")}<line class="own" data-vein-mm="${veinMm}" x1="${n(x(veinMm))}" x2="${n(x(veinMm))}" y1="${TOP}" y2="${BOTTOM}"/><text class="own-name" x="${n(x(veinMm) + 6)}" y="${TOP + 16}">${escaped(words.own)}</text>${labels}<text class="tick" x="${n((LEFT + RIGHT) / 2)}" y="${BOTTOM + 48}">${escaped(words.axis)}</text></svg>`;
  return { svg, sentence: words.sentence, table: { columns: words.columns, rows: curves.map(({ row }) => row) } };
}

const cells = (
  pair: { readonly ratio: number; readonly centred: number; readonly touching: number } | undefined,
): string[] =>
  pair
    ? [pair.ratio, pair.centred, pair.touching].map((share) => `${(100 * share).toFixed(0)} %`)
    : ["fills the vein", "0 %", "0 %"];

/** Moves labels apart so that none lies on another. */
function spread<Label extends { readonly at: number }>(labels: readonly Label[]): readonly Label[] {
  const sorted = [...labels].sort((a, b) => a.at - b.at);
  let before = -Infinity;
  return sorted.map((label) => {
    before = Math.max(label.at, before + 19);
    return { ...label, at: before };
  });
}
