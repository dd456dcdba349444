import {
  figureForm,
  incidenceRate,
  proportionLimits,
  rateWithMissingEnds,
  shareWithMissingEnds,
} from "../../core/incidence/index.ts";
import type { LineClock } from "../../core/dwell/index.ts";
import { day } from "../../core/quantity/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import type { RowEventKind } from "../line/index.ts";
import type { Measure } from "../measure/index.ts";
import type { Figure } from "./figure.ts";

/** A count stands alone: it is what was seen and has no chance in it. */
const BARE_COUNT = { name: "none: a count", limits: undefined } as const;

interface Told {
  readonly stratum: Figure["stratum"];
  readonly provisional: number;
  /** Looked up only when somebody asks which lines they were. */
  readonly lines: () => readonly string[];
}

/** A figure whose list of lines is made when it is read: of a million lines nobody asks for all the lists. */
function withLines(figure: Omit<Figure, "lines">, lines: () => readonly string[]): Figure {
  let known: readonly string[] | undefined;
  return Object.defineProperty({ ...figure } as Figure, "lines", {
    enumerable: true,
    get: () => (known ??= lines()),
  });
}

/** Rows that pass, over those whose answer is known; those unknown could all be one or the other. */
export function shareOf(
  measure: Measure,
  { passed, used, given }: { readonly passed: number; readonly used: number; readonly given: number },
  { stratum, provisional, lines }: Told,
  { level, fewestForEstimate }: CountLimits,
): Figure {
  const unknown = given - used;
  const bare = measure.denominator === "none";
  const empty = !bare && used === 0;
  const bounded = !bare && given > 0 && unknown > 0;
  return withLines(
    {
      measure: measure.id,
      stratum,
      form: bare ? "count" : empty ? "nothing to count over" : figureForm(passed, fewestForEstimate),
      numerator: passed,
      denominator: bare ? undefined : used,
      value: bare || empty ? undefined : passed / used,
      interval: bare
        ? { ...BARE_COUNT, level }
        : {
            name: "exact binomial",
            level,
            limits: empty ? undefined : proportionLimits(passed, used, level, "exact"),
          },
      used,
      given,
      missing: {
        count: unknown,
        bounds: bounded ? shareWithMissingEnds(passed, unknown, given) : undefined,
        outer: bounded
          ? {
              lower: proportionLimits(passed, given, level, "exact").lower,
              upper: proportionLimits(passed + unknown, given, level, "exact").upper,
            }
          : undefined,
      },
      provisional,
    },
    lines,
  );
}

/** Events over line-days, with what unknown ends and unset flags could do to the rate. */
export function rateOf(
  measure: Measure,
  counted: {
    readonly events: number;
    readonly possible: number;
    readonly days: number;
    readonly mostDays: number;
    readonly used: number;
    readonly given: number;
    /** The whole table holds no word of it: a nought is no claim, and no limit is told. */
    readonly neverWritten: boolean;
    readonly unwritten: readonly RowEventKind[];
  },
  { stratum, provisional, lines }: Told,
  { level, fewestForEstimate }: CountLimits,
): Figure {
  const clock = measure.clock as LineClock;
  const { events, possible } = counted;
  const [days, mostDays] = [day(counted.days), day(counted.mostDays)];
  const told = days > 0 && !counted.neverWritten;
  const rate = told ? incidenceRate({ events, days, clock }, level, "exact") : undefined;
  const bounds =
    told && (possible > 0 || mostDays > days)
      ? rateWithMissingEnds(
          { knownEvents: events, possibleEvents: possible, fewestDays: days, mostDays, clock },
          level,
          "exact",
        )
      : undefined;
  return withLines(
    {
      measure: measure.id,
      stratum,
      form: rate ? figureForm(events, fewestForEstimate) : days > 0 ? "never written down" : "nothing to count over",
      ...(rate && counted.unwritten.length > 0 ? { unwritten: counted.unwritten } : {}),
      numerator: events,
      denominator: days,
      value: rate?.perThousand,
      interval: { name: "exact Poisson", level, limits: rate && { lower: rate.lower, upper: rate.upper } },
      used: counted.used,
      given: counted.given,
      missing: {
        count: possible,
        bounds: bounds && { lower: bounds.lowestPerThousand, upper: bounds.highestPerThousand },
        outer: bounds?.outer,
      },
      provisional,
    },
    lines,
  );
}

/** Line-days themselves. */
export const daysFigure = (
  measure: Measure,
  { days, used, stopped }: { readonly days: number; readonly used: number; readonly stopped: number },
  stratum: Figure["stratum"],
  { level }: CountLimits,
): Figure => ({
  measure: measure.id,
  stratum,
  form: "count",
  numerator: days,
  denominator: undefined,
  value: undefined,
  interval: { ...BARE_COUNT, level },
  used,
  given: used + stopped,
  missing: { count: 0, bounds: undefined, outer: undefined },
  provisional: 0,
  lines: [],
});

/** Idle days among line-days. */
export function idleFigure(
  measure: Measure,
  counted: {
    readonly idle: number;
    readonly days: number;
    readonly used: number;
    readonly given: number;
    readonly unknown: number;
  },
  { stratum, lines }: Omit<Told, "provisional">,
  { level }: CountLimits,
): Figure {
  const { idle, days, used, given, unknown } = counted;
  const empty = !(days > 0);
  return withLines(
    {
      measure: measure.id,
      stratum,
      form: empty ? "nothing to count over" : "count",
      numerator: idle,
      denominator: days,
      value: empty ? undefined : idle / days,
      interval: { name: "none: days of one line hang together", limits: undefined, level },
      used,
      given,
      missing: { count: unknown, bounds: undefined, outer: undefined },
      provisional: 0,
    },
    lines,
  );
}
