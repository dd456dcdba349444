import type { MapCell } from "../../audit/index.ts";
import { amount } from "./number.ts";

const whole = (value: number): string => value.toLocaleString("en-GB", { maximumFractionDigits: 0 });
const two = (value: number | undefined): string => (value === undefined ? "none" : amount(value, "", 2));
const share = (value: number | undefined): string => (value === undefined ? "no limit" : amount(value * 100, "%", 1));

interface Span {
  readonly name: string;
  readonly events: number;
  readonly days: number;
  readonly perThousand: number | undefined;
  readonly lower: number | undefined;
  readonly upper: number | undefined;
}

const MOST_NAMED = 6;
/** The newest of many, and how many more there are. */
const listed = (names: readonly string[]): string =>
  names.length <= MOST_NAMED
    ? names.join(", ")
    : `${names.slice(-MOST_NAMED).join(", ")} and ${names.length - MOST_NAMED} before`;

/** The sentence, the axes and the table of every plate of counting. */
export const countPlateWords = {
  over: (events: number, days: number) => ({ events: whole(events), days: whole(days), in: `in ${whole(days)}` }),
  atRisk: (lines: number): string => whole(lines),
  overNames: { events: "events", days: "days" },
  signal: "look",
  curveDays: [0, 7, 14, 21, 30, 45, 60, 90] as readonly number[],
  tick: (value: number): string => value.toLocaleString("en-GB", { maximumFractionDigits: 2 }),
  line: (name: string): string => `line: ${name}`,
  lastSpans: (shown: number, all: number): string =>
    `the last ${shown} of ${whole(all)} spans; the table has all; dashes: exact limits`,
  chart: (
    title: string,
    clock: string,
    base: number,
    spans: readonly (Span & { readonly signal: "high" | "low" | undefined })[],
  ) => {
    const signals = spans.filter(({ signal }) => signal !== undefined);
    return {
      sentence:
        signals.length === 0
          ? `${title}: no span stands outside chance at the base of ${two(base)} per 1,000.`
          : `${title}: look at ${listed(signals.map(({ name, signal }) => `${name} (${signal})`))}.`,
      unit: "per 1,000 days",
      base: `base ${two(base)}`,
      under: `events in ${clock}; dashes: exact limits; strokes: each event`,
      columns: ["Span", "Events", "Days", "Per 1,000", "Lower limit", "Upper limit", "By the exact limit"],
      rows: spans.map(({ name, events, days, perThousand, lower, upper, signal }) => [
        name,
        whole(events),
        whole(days),
        two(perThousand),
        two(lower),
        two(upper),
        signal ?? "within",
      ]),
    };
  },
  curve: ({
    title,
    lines,
    events,
    otherEnds,
    days,
  }: {
    readonly title: string;
    readonly lines: number;
    readonly events: number;
    readonly otherEnds: number;
    readonly days: readonly {
      readonly day: number;
      readonly atRisk: number;
      readonly grey: boolean;
      readonly incidence: number;
      readonly lower: number | undefined;
      readonly upper: number | undefined;
      readonly otherEnd: number;
    }[];
  }) => {
    const read = days.findLast(({ grey, day }) => !grey && day > 0);
    return {
      sentence: read
        ? `${title} by day ${read.day}: ${share(read.incidence)} (${share(read.lower)} to ${share(read.upper)}), ${whole(events)} of ${whole(lines)} lines.`
        : `${title}: ${whole(events)} of ${whole(lines)} lines; too few to read a chance.`,
      unit: "of lines",
      event: "this event",
      other: `from above: ended otherwise first, ${whole(otherEnds)} lines`,
      under: "days since insertion; under them lines at risk; hatch: 95 %; dots: too few",
      columns: ["Day", "At risk", "This event", "Lower", "Upper", "Ended otherwise", "Enough to read"],
      rows: days
        .filter(({ day }) => countPlateWords.curveDays.includes(day) || day === read?.day)
        .map(({ day, atRisk, grey, incidence, lower, upper, otherEnd }) => [
          String(day),
          whole(atRisk),
          share(incidence),
          share(lower),
          share(upper),
          share(otherEnd),
          grey ? "no" : "yes",
        ]),
    };
  },
  map: ({
    title,
    clock,
    cells,
    flat,
    used,
    given,
  }: {
    readonly title: string;
    readonly clock: string;
    readonly flat: boolean;
    readonly used: number;
    readonly given: number;
    readonly cells: readonly MapCell[];
  }) => ({
    // no line at all fits any rate: nothing was shown, least of all that places do not differ
    sentence:
      used === 0
        ? `${title} along the arm: the place is written for none of ${whole(given)} lines.`
        : `${title} along the arm, ${whole(used)} of ${whole(given)} lines. ${flat ? "No difference is shown." : "Smoothed; no cause is shown."}`,
    unit: "per 1,000 days, smoothed",
    elbow: "elbow",
    armpit: "armpit",
    thirds: ["lower third", "middle third", "upper third"],
    under: `events in ${clock}; hatch: 95 %; grey: too few days`,
    columns: ["From", "To", "Events", "Days", "Per 1,000", "Lower", "Upper"],
    rows: cells.map(({ from, to, events, lineDays, perThousand, lower, upper, grey }) => [
      share(from),
      share(to),
      whole(events),
      whole(lineDays),
      ...(grey ? ["too few days", "", ""] : [two(perThousand), two(lower), two(upper)]),
    ]),
  }),
} as const;
