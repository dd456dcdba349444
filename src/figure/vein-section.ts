import type { ShelfJudgement } from "../core/line-plan/index.ts";
import type { StockCatheter } from "../core/catheter/index.ts";
import { escaped, px, type Figure } from "./plate/index.ts";

export interface VeinSectionInput {
  readonly id: string;
  readonly diameterMm: number;
  readonly sdMm: number;
  readonly chosenId: string;
  readonly shelf: readonly ShelfJudgement[];
  readonly catheters: readonly StockCatheter[];
  readonly atCm: number;
}

const WIDTH = 470;
const HEIGHT = 300;

/** The vein cut across at the entry, with every catheter of the shelf lying on its floor, all at one scale. */
export function veinSection(input: VeinSectionInput): Figure {
  const outer = input.diameterMm + 1.96 * input.sdMm;
  const perMm = 230 / outer;
  const centre = { x: 128, y: 140 };
  const radius = (input.diameterMm / 2) * perMm;
  const floor = centre.y + radius;
  const nameOf = (id: string) => input.catheters.find((catheter) => catheter.id === id)?.name ?? id;
  // catheters of one width share a ring and a line of text
  const byWidth = new Map<string, ShelfJudgement[]>();
  for (const judgement of input.shelf) {
    const key = judgement.outsideDiameterMm.toFixed(2);
    byWidth.set(key, [...(byWidth.get(key) ?? []), judgement]);
  }
  const rings = [...byWidth.values()].sort(
    (a, b) => (a[0] as ShelfJudgement).outsideDiameterMm - (b[0] as ShelfJudgement).outsideDiameterMm,
  );
  const step = Math.min(40, 250 / Math.max(1, rings.length));
  const drawn = rings.map((same, index) => {
    const first = same[0] as ShelfJudgement;
    const r = (first.outsideDiameterMm / 2) * perMm;
    const chosen = same.some(({ catheterId }) => catheterId === input.chosenId);
    const percent = Math.round((100 * first.outsideDiameterMm) / input.diameterMm);
    const textY = 280 - index * step;
    const angle = -Math.PI / 2 + ((index + 1) / (rings.length + 1)) * Math.PI * 0.9;
    const from = { x: centre.x + r * Math.cos(angle), y: floor - r + r * Math.sin(angle) };
    const names = same.map(({ catheterId }) => nameOf(catheterId));
    return {
      ring: `<circle class="${chosen ? "catheter-cut" : "other-cut"}" data-od-mm="${first.outsideDiameterMm}" cx="${centre.x}" cy="${px(floor - r)}" r="${px(r)}"/>`,
      label: `<path class="leader" d="M${px(from.x)} ${px(from.y)} L268 ${px(textY - 4)} H278"/><text class="ratio${chosen ? " act" : ""}" x="284" y="${px(textY)}">${percent}\u202f%</text><text class="ratio-name" x="334" y="${px(textY)}">${escaped(short(names))}</text>`,
      row: [
        names.join(", "),
        first.outsideDiameterMm.toFixed(2),
        `${percent} %`,
        ...first.marks.map(({ chance }) => `${(100 * chance).toFixed(0)} in 100`),
      ],
      chosen,
    };
  });
  const sentence = `The ${input.diameterMm.toFixed(1)} mm vein at ${input.atCm.toFixed(1)} cm, cut across, with every catheter of the shelf in it.`;
  const svg = `<svg class="plate vein-section" viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-labelledby="${input.id}-t" data-per-mm="${perMm}"><title id="${input.id}-t">${escaped(sentence)}</title><circle class="doubt" cx="${centre.x}" cy="${centre.y}" r="${px((outer / 2) * perMm)}"/><circle class="vein" data-diameter-mm="${input.diameterMm}" cx="${centre.x}" cy="${centre.y}" r="${px(radius)}"/>${drawn
    .toReversed()
    .map(({ ring }) => ring)
    .join("")}${drawn.map(({ label }) => label).join("")}</svg>`;
  const limits = input.shelf[0]?.marks.map(({ limit }) => `within ${(100 * limit).toFixed(0)} %`) ?? [];
  return {
    svg,
    sentence,
    table: { columns: ["catheter", "width, mm", "of the vein", ...limits], rows: drawn.map(({ row }) => row) },
  };
}

function short(names: readonly string[]): string {
  const first = names[0] as string;
  const clipped = first.length > 16 ? `${first.slice(0, 15)}…` : first;
  return names.length > 1 ? `${clipped} +${names.length - 1}` : clipped;
}
