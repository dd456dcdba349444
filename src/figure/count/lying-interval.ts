import { element, type Ink } from "../plate/index.ts";

/** A value with its limits on a scale that lies: the marks of the upright one, a stroke with caps and a dot. */
export function lyingInterval(
  ink: Ink,
  {
    y,
    x,
    most,
    value,
    lower,
    upper,
    open,
    colour = ink.ink,
    part,
  }: {
    readonly y: number;
    readonly x: (value: number) => number;
    /** A limit beyond it runs off the scale: its cap is not drawn. */
    readonly most: number;
    readonly value: number;
    readonly lower: number;
    readonly upper: number;
    readonly open: boolean;
    readonly colour?: string;
    readonly part: string;
  },
): string {
  const bar = { stroke: colour === ink.ink ? ink.soft : colour, "stroke-width": 1.5 };
  const cap = (at: number) => element("line", { x1: x(at), x2: x(at), y1: y - 5, y2: y + 5, ...bar });
  const line = { x1: x(lower), x2: x(Math.min(upper, most)), y1: y, y2: y, ...bar };
  return (
    element("line", { ...line, "data-lower": lower, "data-upper": upper }) +
    cap(lower) +
    (upper > most ? "" : cap(upper)) +
    element("circle", {
      cx: x(value),
      cy: y,
      r: 5,
      fill: open ? ink.paper : colour,
      stroke: colour,
      "stroke-width": 1.5,
      "data-mark": part,
    })
  );
}
