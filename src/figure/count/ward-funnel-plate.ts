import { wardPlateWords, wardSentences } from "../../language/index.ts";
import { element, plate, lettered, type Figure, type Ink } from "../plate/index.ts";
import { captionOf, frameOf, levelLine, levelRoom, scaleOf, ticksTo, yOf, type Frame } from "./frame.ts";
import { wardDots } from "./ward-dots.ts";

type Told = Parameters<typeof wardSentences>[0];
interface Limits {
  readonly days: number;
  readonly inner: { readonly lower: number | undefined; readonly upper: number | undefined };
  readonly outer: { readonly lower: number | undefined; readonly upper: number | undefined };
}
type Edge = (limits: Limits) => number | undefined;

const OVER = 2.4;

/** Wards by their days: each a dot among the limits that chance alone keeps to, closer together as days grow. */
export function wardFunnelPlate(
  input: Told & {
    readonly id: string;
    readonly title: string;
    readonly perThousand: number;
    readonly curve: readonly Limits[];
    readonly wideCurve: readonly Limits[];
    readonly width: number;
    readonly ink: Ink;
  },
): Figure {
  const { id, title, wards, curve, wideCurve, width, ink, perThousand } = input;
  const sentence = `${title}: ${wardSentences(input).join(" ")}`;
  const rates = wards.map((ward) => ward.perThousand);
  const uppers = wards.flatMap(({ inner }) => inner.upper ?? []);
  // limits of very few days run off the scale: the table has them
  const most = Math.max(
    ...rates.map((rate) => rate * 1.15),
    Math.min(Math.max(...uppers, 0) * 1.1, perThousand * OVER),
  );
  const frame = frameOf(ink, width, most, {
    plot: 250,
    caption: wardPlateWords.under(input),
    under: 42,
    right: levelRoom(width),
  });
  const longest = Math.max(...wards.map(({ days }) => days));
  const x = (days: number) => frame.left + (days / (longest * 1.02)) * (frame.right - frame.left);
  const edge = (limits: readonly Limits[], of: Edge, dash: string | undefined, strokeWidth = 1) => {
    const inFrame = limits.filter((at) => (of(at) ?? Infinity) <= frame.most);
    const d = inFrame
      .map((at, k) => `${k === 0 ? "M" : "L"}${x(at.days).toFixed(1)} ${yOf(frame, of(at) as number).toFixed(1)}`)
      .join("");
    return inFrame.length < 2
      ? ""
      : element("path", { d, fill: "none", stroke: ink.ink, "stroke-width": strokeWidth, "stroke-dasharray": dash });
  };
  const edges: readonly (readonly [Edge, string | undefined])[] = [
    [({ inner }) => inner.upper, undefined],
    [({ inner }) => inner.lower, undefined],
    [({ outer }) => outer.upper, "7 4"],
    [({ outer }) => outer.lower, "7 4"],
  ];
  const svg = plate(
    { id, kind: "count-plate", width, height: frame.height, title, description: sentence },
    scaleOf(frame, wardPlateWords.unit, wardPlateWords.tick),
    across(frame, longest, x),
    levelLine(frame, yOf(frame, perThousand), wardPlateWords.all(perThousand)),
    ...edges.map(([of, dash]) => edge(curve, of, dash)),
    ...edges.slice(0, 2).map(([of]) => edge(wideCurve, of, "1.5 3.5", 2)),
    ...wardDots(frame, wards, x),
    captionOf(frame),
  );
  return { svg, sentence, table: { columns: wardPlateWords.columns, rows: wardPlateWords.rows(wards) } };
}

/** Days under the axis: the denominator of every dot. */
function across(frame: Frame, longest: number, x: (days: number) => number): string {
  const { ink, bottom, right } = frame;
  const words = lettered(ink, right, bottom + 36, wardPlateWords.across, {
    size: 12,
    face: "serif",
    italic: true,
    anchor: "end",
    colour: ink.soft,
  });
  return (
    ticksTo(longest)
      .map(
        (days) =>
          element("line", { x1: x(days), x2: x(days), y1: bottom, y2: bottom + 5, stroke: ink.ink }) +
          lettered(ink, x(days), bottom + 19, days.toLocaleString("en-GB"), { size: 12, anchor: "middle" }),
      )
      .join("") + words
  );
}
