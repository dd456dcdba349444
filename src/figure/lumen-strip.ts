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
const ROW = 74;
const BAR = 34;
const DAY_MIN = 1440;

const x = (minutes: number): number => LEFT + (minutes / DAY_MIN) * (RIGHT - LEFT);
const n = (value: number): string => value.toFixed(1);

/** One day, lumen by lumen: every dose with its flushes and clock time; a moved one has its mark, its word and where it came from. */
export function lumenStrip({ id, chart, answer }: LumenStripInput): Figure {
  const height = TOP + answer.lumens * ROW + 10;
  const nameOf = (infusion: string) => chart.infusions.find((one) => one.id === infusion)?.name ?? infusion;
  const rows = Array.from({ length: answer.lumens }, (_, index) => {
    const y = TOP + index * ROW;
    return `<text class="lumen-name" x="${LEFT - 12}" y="${y + 24}">${escaped(stripWords.lumen(index + 1))}</text><line class="hair" x1="${LEFT}" x2="${RIGHT}" y1="${y + BAR}" y2="${y + BAR}"/>`;
  }).join("");
  const hours = Array.from({ length: 9 }, (_, index) => index * 3)
    .map(
      (hour) =>
        `<line class="hour" x1="${n(x(hour * 60))}" x2="${n(x(hour * 60))}" y1="${TOP - 8}" y2="${height - 10}"/><text class="tick" x="${n(x(hour * 60))}" y="${TOP - 14}">${clockWords(hour * 60)}</text>`,
    )
    .join("");
  const doses = answer.doses.map((dose) => drawn(dose, chart, nameOf(dose.infusionId))).join("");
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

function drawn(dose: PlacedDose, chart: DrugChart, name: string): string {
  const y = TOP + (dose.lumen - 1) * ROW;
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
  const word = moved ? `${name} ${stripWords.movedShort(dose.chartedMin)}` : name;
  return `<g class="dose" data-infusion="${escaped(dose.infusionId)}" data-start="${dose.startMin}" data-moved="${dose.movedMin}">${pieces(from, before, "flush")}${pieces(from + before, run, "run")}${pieces(from + before + run, after, "flush")}<text class="clock" x="${n(x(dose.startMin) + 4)}" y="${y + 22}">${clockWords(dose.startMin)}</text><text class="drug" x="${n(Math.min(x(dose.startMin), RIGHT - 8 * word.length))}" y="${y + BAR + 18}">${escaped(word)}</text>${mark}</g>`;
}
