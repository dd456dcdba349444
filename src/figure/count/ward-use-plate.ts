import { wardUsePlateWords } from "../../language/index.ts";
import { element, lettered, plate, textures, type Figure, type Ink } from "../plate/index.ts";
import { captionLines, captionOf, captionRoom, ticksTo } from "./frame.ts";

type Told = Parameters<typeof wardUsePlateWords.rows>[0];
type Use = Told["wards"][number];

const ROW = 46;
const TOP = 30;
const SIDE = 14;
const SIZE = 13;

/**
 * Wards by their share of patient-days with a line: each a row of its own with its name and what it is over above a scale
 * from nought, so that no name meets another; a ward that has not counted is grey, hatched and says so.
 */
export function wardUsePlate(input: Told & { readonly id: string; readonly width: number; readonly ink: Ink }): Figure {
  const { id, width, ink, wards, notCounted } = input;
  const words = wardUsePlateWords;
  const sentence = words.sentence(input);
  const rows = wards.length + notCounted.length;
  const foot = TOP + rows * ROW;
  const caption = captionLines(width, words.under);
  const height = foot + 26 + captionRoom(caption);
  const reaches = wards.flatMap(({ utilisation, limits }) => [utilisation ?? 0, limits?.upper ?? 0]);
  const most = Math.min(1, Math.max(0.1, ...reaches) * 1.08);
  const x = (share: number) => SIDE + (share / most) * (width - 2 * SIDE);
  const ticks = ticksTo(most).map(
    (share) =>
      element("line", { x1: x(share), x2: x(share), y1: TOP - 6, y2: foot, stroke: ink.hair, "stroke-width": 1 }) +
      lettered(ink, x(share), foot + 16, String(Number(share.toFixed(2))), {
        size: 12,
        anchor: share === 0 ? "start" : "middle",
        colour: ink.soft,
      }),
  );
  const head = lettered(ink, SIDE, 14, words.unit, { size: SIZE, face: "serif", italic: true, colour: ink.soft });
  const svg = plate(
    { id, kind: "count-plate", width, height, title: sentence, description: sentence },
    textures(id, ink),
    head,
    ...ticks,
    ...wards.map((use, at) => rowOf(use, { at, x, width, ink })),
    ...notCounted.map((ward, at) => greyRow(ward, { at: wards.length + at, id, width, ink })),
    captionOf({ ink, left: SIDE, height, caption }),
  );
  return { svg, sentence, table: { columns: words.columns, rows: words.rows(input) } };
}

function rowOf(
  use: Use,
  {
    at,
    x,
    width,
    ink,
  }: { readonly at: number; readonly x: (share: number) => number; readonly width: number; readonly ink: Ink },
): string {
  const words = wardUsePlateWords;
  const top = TOP + at * ROW;
  const middle = top + 31;
  const { utilisation, limits } = use;
  const over = utilisation === undefined ? words.noShare : words.over(use);
  const names =
    lettered(ink, SIDE, top + 14, words.nameOf(use), { size: SIZE, weight: 700, rim: 3 }) +
    lettered(ink, width - SIDE, top + 14, over, { size: 12, anchor: "end", colour: ink.soft, rim: 3 });
  if (utilisation === undefined) return names;
  const stroke = { stroke: ink.soft, "stroke-width": 1.5 };
  const bar = limits
    ? element("line", { x1: x(limits.lower), x2: x(limits.upper), y1: middle, y2: middle, ...stroke }) +
      [limits.lower, limits.upper]
        .map((end) => element("line", { x1: x(end), x2: x(end), y1: middle - 5, y2: middle + 5, ...stroke }))
        .join("")
    : "";
  const dot = element("circle", {
    cx: x(utilisation),
    cy: middle,
    r: 5,
    fill: limits ? ink.ink : ink.paper,
    stroke: ink.ink,
    "stroke-width": 1.5,
    "data-ward": use.ward,
  });
  return names + bar + dot;
}

function greyRow(
  ward: string,
  { at, id, width, ink }: { readonly at: number; readonly id: string; readonly width: number; readonly ink: Ink },
): string {
  const top = TOP + at * ROW;
  return (
    lettered(ink, SIDE, top + 14, ward, { size: SIZE, colour: ink.soft, rim: 3 }) +
    lettered(ink, width - SIDE, top + 14, wardUsePlateWords.notCounted, {
      size: 12,
      anchor: "end",
      face: "serif",
      italic: true,
      colour: ink.soft,
      rim: 3,
    }) +
    element("rect", {
      x: SIDE,
      y: top + 26,
      width: width - 2 * SIDE,
      height: 10,
      fill: `url(#${id}-hatch)`,
      opacity: 0.3,
      "data-not-counted": ward,
    })
  );
}
