import { diameterSd, thirdsOf, veinProfile, type Station, type Stretch, type VeinSurvey } from "../core/arm/index.ts";
import type { Candidate, PastLine, PlanAnswer, PlanPolicy } from "../core/line-plan/index.ts";
import { isMissing } from "../core/missing/index.ts";
import type { Centimetre } from "../core/quantity/index.ts";
import { escaped, onOneLine, plateDefs, px, type Figure } from "./figure.ts";

export interface ArmStripInput {
  readonly id: string;
  readonly width: number;
  readonly armLengthCm: Centimetre;
  readonly armWords: string;
  readonly veinWords: string;
  readonly survey: VeinSurvey | undefined;
  readonly chosen: Candidate | undefined;
  readonly allowed: PlanAnswer["allowed"];
  readonly policy: PlanPolicy;
  /** Lines this arm carried before, in any vein. */
  readonly pastLines: readonly PastLine[];
}

/** Height of each part of the plate, from the top, in px of the drawing. */
const LABEL_ROW = 52;
const BAND = 26;
const RULER = 26;
const DEPTH = 170;
const FOOT = 84;

/** The plate: thirds on the skin, ruler, and under it the vein at its true place, deep things drawn deeper. */
export function armStrip(input: ArmStripInput): Figure {
  const { id, width, policy } = input;
  const thirds = thirdsOf(input.armLengthCm);
  const margin = 16;
  const perCm = (width - 2 * margin) / input.armLengthCm;
  const x = (cm: number) => margin + cm * perCm;
  const skinY = LABEL_ROW + BAND;
  const veinTop = skinY + RULER;
  const stretches = input.survey ? veinProfile(input.survey).stretches : [];
  const deepest =
    Math.max(20, ...stretches.flatMap(({ from, to }) => [from.depthMm + from.diameterMm, to.depthMm + to.diameterMm])) +
    2;
  const perMm = DEPTH / deepest;
  const y = (depthMm: number) => veinTop + depthMm * perMm;
  const height = veinTop + DEPTH + FOOT;
  const times = perMm / (perCm / 10);

  const parts = [
    bands(id, thirds, x),
    ruler(input.armLengthCm, x, skinY, width),
    body(x, input.armLengthCm, veinTop),
    ...drawnStretches(stretches).map((stretch) => veinPiece(stretch, x, y, policy)),
    ...(input.survey?.stations ?? []).map((station) => stationMark(station, x, y, veinTop)),
    ...input.pastLines.map((line) => pastMark(line, x, skinY)),
    input.allowed ? allowedMark(input.allowed, x, veinTop + DEPTH + 8) : "",
    input.chosen ? path(input.chosen, stretches, x, y, skinY) : "",
    labels(input, x, y, skinY, veinTop + DEPTH + 48, width),
    `<text class="place" x="${px(margin)}" y="${px(height - 8)}">elbow</text>`,
    `<text class="place end" x="${px(width - margin)}" y="${px(height - 8)}">armpit</text>`,
    `<text class="side" x="${px(width / 2)}" y="${px(height - 8)}">${escaped(input.armWords)}</text>`,
  ];
  const sentence = sentenceOf(input, times);
  const svg = `<svg class="plate arm-strip" viewBox="0 0 ${px(width)} ${px(height)}" role="img" aria-labelledby="${id}-t" data-per-cm="${px(perCm)}" data-origin="${margin}" data-per-mm="${perMm}" data-depth-origin="${veinTop}"><title id="${id}-t">${escaped(sentence)}</title>${plateDefs(id)}${parts.join("")}</svg>`;
  return { svg, sentence, table: tableOf(input) };
}

type Across = (cm: number) => number;

function bands(id: string, thirds: ReturnType<typeof thirdsOf>, x: Across): string {
  const y = LABEL_ROW;
  const rect = (from: number, to: number, fill: string, name: string) =>
    `<rect class="${name}" x="${px(x(from))}" y="${y}" width="${px(x(to) - x(from))}" height="${BAND}" ${fill}/>`;
  const word = (from: number, to: number, text: string) => {
    const short = x(to) - x(from) < text.length * 6.4 ? (text.split(" ")[0] as string) : text;
    return `<text class="region" x="${px((x(from) + x(to)) / 2)}" y="${y - 9}">${short}</text>`;
  };
  const L = thirds.armLengthCm;
  return [
    rect(0, thirds.middleFromCm, `fill="url(#${id}-hatch)"`, "lower-third"),
    rect(thirds.preferredFromCm, thirds.upperFromCm, "", "preferred"),
    rect(thirds.upperFromCm, L, `fill="url(#${id}-stipple)"`, "upper-third"),
    word(0, thirds.middleFromCm, "lower third"),
    word(thirds.middleFromCm, thirds.preferredFromCm, "middle third"),
    word(thirds.preferredFromCm, thirds.upperFromCm, "preferred half"),
    word(thirds.upperFromCm, L, "upper third"),
    ...[thirds.middleFromCm, thirds.preferredFromCm, thirds.upperFromCm].map(
      (at) =>
        `<line class="border" data-at-cm="${at}" x1="${px(x(at))}" x2="${px(x(at))}" y1="${y - 4}" y2="${y + BAND}"/>`,
    ),
  ].join("");
}

function ruler(length: number, x: Across, y: number, width: number): string {
  const marks: string[] = [`<line class="skin" x1="${px(x(0))}" x2="${px(x(length))}" y1="${y}" y2="${y}"/>`];
  const sparse = width / length < 22;
  for (let cm = 0; cm <= length; cm += 1) {
    const major = cm % 5 === 0;
    marks.push(`<line class="tick" x1="${px(x(cm))}" x2="${px(x(cm))}" y1="${y}" y2="${y + (major ? 9 : 4)}"/>`);
    if (major && (!sparse || cm % 5 === 0))
      marks.push(`<text class="figure" x="${px(x(cm))}" y="${y + 21}">${cm}</text>`);
  }
  return marks.join("");
}

/** Engraved lines that give the arm a body: closer together as they fall away. */
function body(x: Across, length: number, top: number): string {
  const lines: string[] = [];
  for (let step = 0; step < 7; step += 1) {
    const depth = 18 + step * step * 3.6 + step * 8;
    const sag = 5 + step * 2.2;
    const y = top + depth;
    lines.push(
      `<path class="flesh" d="M${px(x(0))} ${px(y + sag)} C${px(x(length * 0.3))} ${px(y - sag)} ${px(x(length * 0.7))} ${px(y - sag * 0.4)} ${px(x(length))} ${px(y + sag * 0.6)}"/>`,
    );
  }
  return lines.join("");
}

const drawnStretches = (stretches: readonly Stretch[]) => stretches.filter(({ from, to }) => from !== to);

function veinPiece({ from, to }: Stretch, x: Across, y: (mm: number) => number, policy: PlanPolicy): string {
  const steps = 12;
  const at = (index: number) => {
    const share = index / steps;
    const mix = (a: number, b: number) => a + share * (b - a);
    const cm = mix(from.atCm, to.atCm);
    const away = Math.min(cm - from.atCm, to.atCm - cm);
    const sd =
      Math.max(diameterSd(policy, from.repeats), diameterSd(policy, to.repeats)) + away * policy.perCentimetreSdMm;
    return {
      cm,
      front: mix(from.depthMm, to.depthMm),
      diameter: mix(from.diameterMm, to.diameterMm),
      doubt: 1.96 * sd,
    };
  };
  const points = Array.from({ length: steps + 1 }, (_, index) => at(index));
  const outline = (top: (p: (typeof points)[number]) => number, bottom: (p: (typeof points)[number]) => number) =>
    [
      ...points.map((p) => `${px(x(p.cm))},${px(y(top(p)))}`),
      ...points.toReversed().map((p) => `${px(x(p.cm))},${px(y(bottom(p)))}`),
    ].join(" ");
  return [
    `<polygon class="doubt" points="${outline(
      (p) => p.front - p.doubt / 2,
      (p) => p.front + p.diameter + p.doubt / 2,
    )}"/>`,
    `<polygon class="vein" data-from-cm="${from.atCm}" data-to-cm="${to.atCm}" points="${outline(
      (p) => p.front,
      (p) => p.front + p.diameter,
    )}"/>`,
  ].join("");
}

function stationMark(station: Station, x: Across, y: (mm: number) => number, top: number): string {
  const at = px(x(station.atCm));
  if (!station.veinPresent)
    return `<text class="absent" x="${at}" y="${px(top + 40)}">no vein</text><line class="gap" x1="${at}" x2="${at}" y1="${px(top + 46)}" y2="${px(top + 120)}"/>`;
  if (isMissing(station.depthMm) || isMissing(station.diameterMm)) return "";
  const front = y(station.depthMm);
  const back = y(station.depthMm + station.diameterMm);
  const wrong =
    station.thrombus === true
      ? "clot"
      : station.compressible === false
        ? "does not compress"
        : station.artery === "in front"
          ? "artery in front"
          : "";
  const beside = station.artery === "beside" ? `<path class="artery" d="M${at} ${px(back + 7)} l5 9 h-10 z"/>` : "";
  return [
    `<line class="reading" x1="${at}" x2="${at}" y1="${px(front)}" y2="${px(back)}"/>`,
    `<circle class="station" data-at-cm="${station.atCm}" data-depth-mm="${station.depthMm}" cx="${at}" cy="${px(front)}" r="2.6"/>`,
    wrong === "" ? "" : `<text class="absent" x="${at}" y="${px(back + 18)}">${wrong}</text>`,
    beside,
  ].join("");
}

function allowedMark(allowed: NonNullable<PlanAnswer["allowed"]>, x: Across, y: number): string {
  const from = x(allowed.fromCm);
  const to = x(allowed.toCm);
  return `<path class="allowed" data-from-cm="${allowed.fromCm}" data-to-cm="${allowed.toCm}" d="M${px(from)} ${y - 6} V${y} H${px(to)} V${y - 6}"/>`;
}

/** A line that was here before: a small cross under the skin, with its year. */
function pastMark({ atCm, year }: PastLine, x: Across, skinY: number): string {
  if (isMissing(atCm)) return "";
  const at = x(atCm);
  const y = skinY + 34;
  return `<path class="past" data-at-cm="${atCm}" d="M${px(at - 4)} ${y - 4} l8 8 m0 -8 l-8 8"/><text class="figure" x="${px(at)}" y="${y + 18}">${year}</text>`;
}

/** Needle, its band, the catheter in the vein, the tunnel: filled dot skin, open ring vein. */
function path(
  chosen: Candidate,
  stretches: readonly Stretch[],
  x: Across,
  y: (mm: number) => number,
  skinY: number,
): string {
  const vein = { x: x(chosen.veinEntryCm), y: y(chosen.depthMm) };
  const skin = x(chosen.needleSkinCm);
  const ahead = drawnStretches(stretches).filter(({ to }) => to.atCm > chosen.veinEntryCm);
  let line = `M${px(vein.x)} ${px(y(chosen.depthMm + chosen.diameterMm * 0.55))}`;
  let reach = chosen.veinEntryCm as number;
  for (const { from, to } of ahead) {
    if (from.atCm > reach + 0.01) break; // a gap: the catheter's way on is not drawn where the vein was not seen
    line += ` L${px(x(to.atCm))} ${px(y(to.depthMm + to.diameterMm * 0.55))}`;
    reach = to.atCm;
  }
  const tunnel = chosen.tunnel
    ? `<path class="catheter" d="M${px(x(chosen.tunnel.exitCm))} ${px(skinY)} Q${px((x(chosen.tunnel.exitCm) + skin) / 2)} ${px(skinY + 26)} ${px(skin)} ${px(skinY + 7)}"/>`
    : "";
  return [
    `<polygon class="hand" points="${px(x(chosen.skinBand.fromCm))},${px(skinY)} ${px(x(chosen.skinBand.toCm))},${px(skinY)} ${px(vein.x)},${px(vein.y)}"/>`,
    ahead.length > 0 ? `<path class="catheter" d="${line}"/>` : "",
    tunnel,
    `<line class="needle" x1="${px(skin - (vein.x - skin) * 0.3)}" y1="${px(skinY - (vein.y - skinY) * 0.3)}" x2="${px(vein.x)}" y2="${px(vein.y)}"/>`,
    `<circle class="skin-mark" data-at-cm="${chosen.skinExitCm}" cx="${px(x(chosen.skinExitCm))}" cy="${px(skinY)}" r="6"/>`,
    `<circle class="vein-mark" data-at-cm="${chosen.veinEntryCm}" data-depth-mm="${chosen.depthMm}" cx="${px(vein.x)}" cy="${px(vein.y)}" r="6"/>`,
  ].join("");
}

function labels(
  input: ArmStripInput,
  x: Across,
  y: (mm: number) => number,
  skinY: number,
  lineY: number,
  width: number,
): string {
  const { chosen } = input;
  const last = drawnStretches(input.survey ? veinProfile(input.survey).stretches : []).at(-1);
  const wanted = [
    ...(chosen
      ? [
          {
            anchorX: x(chosen.veinEntryCm),
            anchorY: y(chosen.depthMm),
            text: `vein ${chosen.veinEntryCm.toFixed(1)} cm`,
            strong: true,
          },
        ]
      : []),
    ...(last
      ? [{ anchorX: x(last.to.atCm), anchorY: y(last.to.depthMm + last.to.diameterMm), text: input.veinWords }]
      : []),
  ];
  const placed = onOneLine(wanted, { from: 4, to: width - 4, gap: 14, charWidth: 7.6 });
  if (!placed) return "";
  return `${skinLabel(input, x, skinY, width)}${placed
    .map((label) => {
      const middle = label.x + label.width / 2;
      return `<line class="leader" x1="${px(label.anchorX)}" y1="${px(label.anchorY + 8)}" x2="${px(middle)}" y2="${px(lineY - 14)}"/><text class="label${label.strong ? " act" : ""}" x="${px(middle)}" y="${px(lineY)}">${escaped(label.text)}</text>`;
    })
    .join("")}`;
}

/** The skin's own label stands above the bands, where nothing else is written. */
function skinLabel({ chosen }: ArmStripInput, x: Across, skinY: number, width: number): string {
  if (!chosen) return "";
  const at = x(chosen.skinExitCm);
  const middle = Math.min(Math.max(at + 52, 60), width - 60);
  return `<path class="leader" d="M${px(at)} ${px(skinY - 8)} L${px(middle - 8)} 20"/><text class="label act" x="${px(middle)}" y="14">skin ${chosen.skinExitCm.toFixed(1)} cm</text>`;
}

function sentenceOf(input: ArmStripInput, times: number): string {
  const scale = `Depth is drawn ${times.toFixed(1)} times.`;
  const { chosen } = input;
  if (!chosen)
    return `${input.armWords}, ${input.armLengthCm.toFixed(1)} cm from elbow to armpit, in thirds. No place is chosen. ${scale}`;
  return `${input.armWords}: skin at ${chosen.skinExitCm.toFixed(1)} cm, ${input.veinWords} at ${chosen.veinEntryCm.toFixed(1)} cm, ${chosen.depthMm.toFixed(0)} mm deep. ${scale}`;
}

function tableOf(input: ArmStripInput): Figure["table"] {
  const number = (value: Station["depthMm"], digits: number) =>
    isMissing(value) ? value.missing : value.toFixed(digits);
  const rows = (input.survey?.stations ?? []).map((station) =>
    station.veinPresent
      ? [station.atCm.toFixed(1), number(station.diameterMm, 1), number(station.depthMm, 0)]
      : [station.atCm.toFixed(1), "no vein", ""],
  );
  return { columns: ["at, cm", "wide, mm", "deep, mm"], rows };
}
