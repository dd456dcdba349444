import { statesSentence, statesWords } from "../../language/index.ts";
import { element, lettered, plate, textures, type Figure, type Ink } from "../plate/index.ts";
import { DAY_AXIS_ROOM, dayAxis } from "./day-axis.ts";
import { captionOf, frameOf, scaleOf, yOf } from "./frame.ts";

type Told = Parameters<typeof statesSentence>[0];
type State = keyof typeof statesWords.edge;

const HUNDRED = 100;
const LINE = 15;
/** Room at the right for the longest word. */
const WORDS = 94;

/** Of a hundred lines by the day: bands that lie on each other, told apart by texture and not by colour. */
export function lineStatesPlate(
  input: Told & { readonly id: string; readonly width: number; readonly ink: Ink },
): Figure {
  const { id, width, ink, days } = input;
  const sentence = statesSentence(input);
  const frame = frameOf(ink, width, HUNDRED, {
    plot: 260,
    caption: statesWords.under,
    under: DAY_AXIS_ROOM,
    right: WORDS,
  });
  const greyFrom = days.findIndex(({ grey }) => grey);
  const read = greyFrom < 0 ? days : days.slice(0, greyFrom);
  // as far as it may be read: what lies beyond stands in the table
  const last = Math.max(1, read.at(-1)?.day ?? 1);
  const x = (day: number) => frame.left + (day / last) * (frame.right - frame.left);
  const y = (share: number) => yOf(frame, share * HUNDRED);
  // from below: never blocked, blocked, running again, out
  const edges = read.map(({ day, shares }) => {
    let under = 0;
    return { day, bands: shares.map(({ state, share }) => ({ state, from: under, to: (under += share) })) };
  });
  const fills: Readonly<Record<State, string>> = {
    "never blocked": ink.vein,
    blocked: `url(#${id}-hatch)`,
    "running again": `url(#${id}-stipple)`,
    out: "none",
  };
  const band = (at: number, state: State) => {
    if (edges.length < 2) return "";
    const along = (of: "from" | "to", some: typeof edges) =>
      some.map(({ day, bands }) => `${x(day).toFixed(1)} ${y(bands[at]?.[of] ?? 0).toFixed(1)}`).join("L");
    return element("path", {
      d: `M${along("to", edges)}L${along("from", [...edges].reverse())}Z`,
      fill: fills[state],
      ...(state === "never blocked" && { opacity: 0.2 }),
      "data-state": state,
    });
  };
  const top = (at: number) => {
    const d = edges.map(
      ({ day, bands }, k) => `${k === 0 ? "M" : "L"}${x(day).toFixed(1)} ${y(bands[at]?.to ?? 0).toFixed(1)}`,
    );
    return element("path", { d: d.join(""), fill: "none", stroke: ink.ink, "stroke-width": 1 });
  };
  const states = (days[0]?.shares ?? []).map(({ state }) => state);
  const usual = days.filter(({ day }) => statesWords.days.includes(day));
  const marked = usual.filter(({ day }) => day <= last);
  const end = edges.at(-1);
  const svg = plate(
    { id, kind: "count-plate", width, height: frame.height, title: statesWords.title, description: sentence },
    textures(id, ink),
    ...states.map((state, at) => band(at, state)),
    ...(edges.length > 1 ? states.slice(0, -1).map((_, at) => top(at)) : []),
    scaleOf(frame, statesWords.unit, String),
    ...(end ? names(end, { ink, x: x(end.day), y, top: frame.top, bottom: frame.bottom }) : []),
    ...marked.flatMap((one) => limitStrokes(one, ink, x, y)),
    dayAxis(
      frame,
      marked.map(({ day, watched }) => ({ day, lines: watched.toLocaleString("en-GB") })),
      x,
      last,
    ),
    captionOf(frame),
  );
  return { svg, sentence, table: { columns: statesWords.columns, rows: statesWords.rows(usual) } };
}

/**
 * Limits of the two shares that are edges of the drawing: still in and never blocked from below, out from above. The
 * bands between lie on others, and their limits stand in the table.
 */
function limitStrokes(
  { day, shares }: Told["days"][number],
  ink: Ink,
  x: (day: number) => number,
  y: (share: number) => number,
): readonly string[] {
  return shares.flatMap(({ state, lower, upper }) => {
    if (day === 0 || lower === undefined || upper === undefined) return [];
    if (state !== "never blocked" && state !== "out") return [];
    const [low, high] = state === "out" ? [1 - upper, 1 - lower] : [lower, upper];
    const at = x(day) + (state === "out" ? -4 : 4);
    const stroke = { stroke: ink.soft, "stroke-width": 1.5 };
    const cap = (share: number) => element("line", { x1: at - 3, x2: at + 3, y1: y(share), y2: y(share), ...stroke });
    return [
      element("line", { x1: at, x2: at, y1: y(low), y2: y(high), ...stroke, "data-limits": state, "data-day": day }),
      cap(low),
      cap(high),
    ];
  });
}

/** The name of each band at its right end with a thin leader, no two on one line. */
function names(
  { bands }: { readonly bands: readonly { readonly state: State; readonly from: number; readonly to: number }[] },
  at: {
    readonly ink: Ink;
    readonly x: number;
    readonly y: (share: number) => number;
    readonly top: number;
    readonly bottom: number;
  },
): readonly string[] {
  const { ink, x, y } = at;
  const wanted = bands.map(({ state, from, to }) => ({ state, middle: y((from + to) / 2) }));
  let below = at.bottom + LINE - 8;
  return wanted.map(({ state, middle }, place) => {
    const above = at.top + LINE * (wanted.length - 1 - place);
    const level = Math.max(above, Math.min(middle, below - LINE));
    below = level;
    return (
      element("line", { x1: x, y1: middle, x2: x + 10, y2: level, stroke: ink.soft, "stroke-width": 1 }) +
      lettered(ink, x + 13, level + 4, statesWords.edge[state], { size: 12, weight: 700, rim: 3 })
    );
  });
}
