import type { LineState, LineStates, StatesDay } from "../../audit/index.ts";
import { numberOf } from "./number.ts";

const whole = (value: number): string => value.toLocaleString("en-GB", { maximumFractionDigits: 0 });
/** Of a hundred lines, in whole lines but for the rarest. */
const ofHundred = (share: number): string => {
  const lines = share * 100;
  return lines > 0 && lines < 9.95 ? lines.toFixed(1) : lines.toFixed(0);
};

const SAID: Readonly<Record<LineState, string>> = {
  "never blocked": "in, never blocked",
  blocked: "blocked",
  "running again": "running again after a block",
  out: "out",
};

const limitsOf = ({ lower, upper }: StatesDay["shares"][number]): string =>
  lower === undefined || upper === undefined ? "no limit" : `${ofHundred(lower)} to ${ofHundred(upper)}`;

type Told = Extract<LineStates, { kind: "told" }>;

/** The last of the days usual in a table that is still read, with what stands on it. */
export function statesSentence({ days, used }: Pick<Told, "days" | "used">): string {
  const read = days.findLast(({ day, grey }) => !grey && day > 0 && statesWords.days.includes(day));
  if (!read) return `Too few of ${whole(used)} lines are watched for a picture.`;
  const parts = read.shares.map(({ state, share }) => `${ofHundred(share)} ${SAID[state]}`);
  return `By day ${read.day}, of a hundred lines: ${parts.join(", ")}; ${whole(used)} lines watched.`;
}

export const statesWords = {
  days: [0, 7, 14, 21, 30, 45, 60, 90] as readonly number[],
  title: "Lines running, blocked, running again and out",
  unit: "of 100 lines",
  names: SAID,
  /** Short words at the right edge of a drawing. */
  edge: { "never blocked": "in", blocked: "blocked", "running again": "running again", out: "out" } as Readonly<
    Record<LineState, string>
  >,
  under: "days since insertion; under them lines watched; hatch: blocked; stipple: running again",
  columns: ["Day", "Lines watched", ...Object.values(SAID).flatMap((name) => [name, "95 in 100"]), "Enough to read"],
  rows: (days: readonly StatesDay[]): readonly (readonly string[])[] =>
    days.map((one) => [
      String(one.day),
      whole(one.watched),
      ...one.shares.flatMap((share) => [ofHundred(share.share), limitsOf(share)]),
      one.grey ? "no" : "yes",
    ]),
};

/** Where a table cannot tell, what it found and what would let it. */
export function statesRefused(answer: Exclude<LineStates, Told>): readonly string[] {
  if (answer.kind === "too few blocks")
    return [
      `${numberOf(answer.blocks, "block")} in ${numberOf(answer.used, "line")}: too few for a picture. The least is ${answer.fewest} (common practice).`,
    ];
  return [
    `${numberOf(answer.blocks, "block")}, and nobody wrote when a line ran again.`,
    "Each would last until the line is out, so no share is told.",
    "Write when it ran again (cleared= in a table), or each use and flush.",
  ];
}

/** The states as lines. */
export function statesLines(answer: LineStates): readonly string[] {
  if (answer.kind !== "told") return statesRefused(answer);
  const { used, given, blocks, cleared, days } = answer;
  return [
    `${whole(used)} of ${whole(given)} lines watched; ${numberOf(blocks, "block")}, ${whole(cleared)} seen to run again.`,
    "Of a hundred lines, with limits of 95 in 100:",
    ...days.map((one) => {
      if (one.grey) return `  By day ${one.day}: ${whole(one.watched)} watched, too few to read.`;
      const parts = one.shares.map((share) => `${SAID[share.state]} ${ofHundred(share.share)} (${limitsOf(share)})`);
      return `  By day ${one.day}: ${parts.join("; ")}; ${whole(one.watched)} watched.`;
    }),
    "A block whose end nobody wrote lasts until the line is out.",
  ];
}
