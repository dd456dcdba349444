import type { DrugChart, LumenAnswer, PlacedDose } from "../core/drug-chart/index.ts";
import { clockWords, stripWords } from "../language/index.ts";
import { escaped, type Figure } from "./plate/index.ts";

export interface LumenStripInput {
  readonly id: string;
  readonly chart: DrugChart;
  readonly answer: LumenAnswer;
}

const LEFT = 90;
const RIGHT = 880;
const TOP = 34;
const BAR = 34;
const LINE = 17;
const GAP = 16;
const LETTER = 6.9;
const DAY_MIN = 1440;

const x = (minutes: number): number => LEFT + (minutes / DAY_MIN) * (RIGHT - LEFT);
const n = (value: number): string => value.toFixed(1);

/** One day, lumen by lumen: every dose with its flushes and clock time; a moved one has its mark, its word and where it came from. */
export function lumenStrip({ id, chart, answer }: LumenStripInput): Figure {
  const nameOf = (infusion: string) => chart.infusions.find((one) => one.id === infusion)?.name ?? infusion;
  const labels = labelLines(answer.doses, nameOf);
  // a lumen is as high as its bar and the lines its names need
  let y = TOP;
  const tops = Array.from({ length: answer.lumens }, (_, index) => {
    const top = y;
    const lines = Math.max(
      1,
      ...answer.doses.filter(({ lumen }) => lumen === index + 1).map((dose) => 1 + (labels.get(dose)?.line ?? 0)),
    );
    y += BAR + lines * LINE + GAP;
    return top;
  });
  const height = y;
  const rows = tops
    .map(
      (top, index) =>
        `<text class="lumen-name" x="${LEFT - 12}" y="${top + 22}">${escaped(stripWords.lumen(index + 1))}</text><line class="hair" x1="${LEFT}" x2="${RIGHT}" y1="${top + BAR}" y2="${top + BAR}"/>`,
    )
    .join("");
  const hours = Array.from({ length: 9 }, (_, index) => index * 3)
    .map(
      (hour) =>
        `<line class="hour" x1="${n(x(hour * 60))}" x2="${n(x(hour * 60))}" y1="${TOP - 8}" y2="${height - 10}"/><text class="tick" x="${n(x(hour * 60))}" y="${TOP - 14}">${clockWords(hour * 60)}</text>`,
    )
    .join("");
  const doses = answer.doses
    .map((dose) => drawn(dose, chart, tops[dose.lumen - 1] as number, labels.get(dose) as Label))
    .join("");
  const sentence = stripWords.sentence(answer.lumens, answer.doses.filter(({ movedMin }) => movedMin !== 0).length);
  const svg = `<svg class="plate lumen-strip" viewBox="0 0 900 ${height}" role="img" aria-labelledby="${id}-t" data-lumens="${answer.lumens}"><title id="${id}-t">${escaped(sentence)}</title>${hours}${rows}${doses}</svg>`;
  const table = [...answer.doses]
    .sort((a, b) => a.lumen - b.lumen || a.startMin - b.startMin)
    .map((dose) => [
      stripWords.lumen(dose.lumen),
      nameOf(dose.infusionId),
      clockWords(dose.startMin),
      dose.movedMin === 0 ? stripWords.asCharted : stripWords.moved(dose.chartedMin, dose.movedMin),
    ]);
  return { svg, sentence, table: { columns: [...stripWords.columns], rows: table } };
}

interface Label {
  readonly text: string;
  readonly x: number;
  readonly line: number;
}

/** Each name on the first line under its bar where it lies on no other. */
function labelLines(
  doses: readonly PlacedDose[],
  nameOf: (infusion: string) => string,
): ReadonlyMap<PlacedDose, Label> {
  const labels = new Map<PlacedDose, Label>();
  const ends = new Map<string, number>();
  for (const dose of [...doses].sort((a, b) => a.startMin - b.startMin)) {
    const name = nameOf(dose.infusionId);
    const text = dose.movedMin === 0 ? name : `${name}, ${stripWords.movedShort(dose.chartedMin)}`;
    const width = LETTER * text.length;
    const from = Math.min(x(dose.startMin), RIGHT - width);
    let line = 0;
    while ((ends.get(`${dose.lumen} ${line}`) ?? -Infinity) > from) line += 1;
    ends.set(`${dose.lumen} ${line}`, from + width + 6);
    labels.set(dose, { text, x: from, line });
  }
  return labels;
}

function drawn(dose: PlacedDose, chart: DrugChart, y: number, label: Label): string {
  const infusion = chart.infusions.find((one) => one.id === dose.infusionId);
  const before = infusion?.flushBeforeMin ?? 0;
  const after = infusion?.flushAfterMin ?? 0;
  const run = dose.occupiedForMin - before - after;
  // a dose past midnight goes on at the left
  const pieces = (from: number, length: number, name: string) =>
    [0, -DAY_MIN]
      .map((shift) => [Math.max(0, from + shift), Math.min(DAY_MIN, from + shift + length)] as const)
      .filter(([start, end]) => end > start)
      .map(
        ([start, end]) =>
          `<rect class="${name}" x="${n(x(start))}" y="${y}" width="${n(x(end) - x(start))}" height="${BAR}"/>`,
      )
      .join("");
  const from = dose.occupiedFromMin;
  const moved = dose.movedMin !== 0;
  const mark = moved
    ? `<path class="moved" d="M${n(x(dose.startMin))} ${y - 7} l6 6 l-6 6 l-6 -6 Z"/><path class="came-from" d="M${n(x(dose.chartedMin))} ${y + BAR + 4} v-8"/>`
    : "";
  return `<g class="dose" data-infusion="${escaped(dose.infusionId)}" data-start="${dose.startMin}" data-moved="${dose.movedMin}">${pieces(from, before, "flush")}${pieces(from + before, run, "run")}${pieces(from + before + run, after, "flush")}<text class="clock" x="${n(Math.min(x(dose.startMin) + 4, RIGHT - 36))}" y="${y + 22}">${clockWords(dose.startMin)}</text><text class="drug" x="${n(label.x)}" y="${y + BAR + 15 + label.line * LINE}">${escaped(label.text)}</text>${mark}</g>`;
}
