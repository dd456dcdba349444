import { chiSquareTail } from "../../core/distribution/index.ts";
import { eventsToCompare } from "../../core/incidence/index.ts";
import {
  cumulativeIncidence,
  incidenceAt,
  kaplanMeier,
  logRank,
  numberAtRisk,
  riskTable,
  survivalAt,
} from "../../core/survival/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import { stratumOf, type StratumName } from "../figure/index.ts";
import type { FollowedLines } from "./time-to-event.ts";

export interface CurvePoint {
  readonly day: number;
  readonly atRisk: number;
  /** Too few at risk: drawn grey and not read. */
  readonly grey: boolean;
  /** Chance of the event by then while other ends compete (Aalen-Johansen), with its limits. */
  readonly incidence: number;
  readonly lower: number | undefined;
  readonly upper: number | undefined;
  readonly standardError: number;
  /** Chance of another end first. */
  readonly otherEnd: number;
  /** Kaplan-Meier, other ends censored: for a cause alone and never a risk. */
  readonly freeOfEvent: number;
  readonly freeLower: number | undefined;
  readonly freeUpper: number | undefined;
}

export interface Curve {
  readonly group: string;
  readonly lines: number;
  readonly events: number;
  readonly otherEnds: number;
  readonly points: readonly CurvePoint[];
  /** Fewer events than the policy's least: counts are told and no chance is. */
  readonly tooFew: boolean;
}

export interface Curves {
  /** What the groups are of; undefined for all lines as one. */
  readonly by: StratumName | undefined;
  readonly curves: readonly Curve[];
  /** Of all groups, each kind of other end censored; undefined for one group. */
  readonly logRank:
    | {
        readonly chiSquare: number;
        readonly degrees: number;
        readonly chance: number;
        /** Less likely than the policy's level leaves to chance. */
        readonly apart: boolean;
      }
    | undefined;
  /** Events that showing a doubling between the groups would take, the smallest group against the rest; undefined for one. */
  readonly eventsForDoubling: number | undefined;
  /** The policy's least. */
  readonly fewest: number;
  readonly used: number;
  readonly given: number;
}

const [DOUBLING, POWER] = [2, 0.8];

/**
 * Curves of the event by group at the days asked, with the numbers at risk.
 * Units: days, chances. Holds: as the estimators of core/survival. Source: theirs (Aalen and Johansen 1978; Kaplan and
 * Meier 1958; Mantel 1966). Example: reference/independent/count.
 */
export function curvesOf(
  followed: FollowedLines,
  by: StratumName | undefined,
  days: readonly number[],
  limits: CountLimits,
): Curves {
  const names = groupNames(followed, by, limits);
  const order = [...new Set(names)].sort(new Intl.Collator("en", { numeric: true }).compare);
  const group = Uint16Array.from(names, (name) => order.indexOf(name));
  const follow = {
    ...(followed.delayed ? { entry: followed.follow.entry } : {}),
    exit: followed.follow.exit,
    end: followed.follow.end,
    group,
  };
  const table = riskTable(follow);
  const curves = order.map((name, at): Curve => {
    const incidence = cumulativeIncidence(table, at);
    const free = kaplanMeier(table, at, 1);
    const inGroup = (end: number) => names.filter((one, i) => one === name && followed.follow.end[i] === end).length;
    return {
      group: name,
      lines: names.filter((one) => one === name).length,
      events: inGroup(1),
      otherEnds: inGroup(2),
      tooFew: inGroup(1) < limits.fewestForEstimate,
      points: days.map((day): CurvePoint => {
        const event = incidenceAt(incidence, 1, day, limits.level);
        const survival = survivalAt(free, day, limits.level);
        const atRisk = numberAtRisk(follow, day, at);
        return {
          day,
          atRisk,
          grey: atRisk < limits.atRiskLeast,
          incidence: event.incidence,
          lower: event.low,
          upper: event.high,
          standardError: event.standardError,
          otherEnd: table.kinds >= 2 ? incidenceAt(incidence, 2, day, limits.level).incidence : 0,
          freeOfEvent: survival.survival,
          freeLower: survival.low,
          freeUpper: survival.high,
        };
      }),
    };
  });
  const test = order.length > 1 ? logRank([table], { kind: "log-rank" }, 1) : undefined;
  const chance =
    test && (test.degreesOfFreedom === 0 ? 1 : chiSquareTail("upper", test.statistic, test.degreesOfFreedom));
  return {
    by,
    curves,
    logRank:
      test && chance !== undefined
        ? {
            chiSquare: test.statistic,
            degrees: test.degreesOfFreedom,
            chance,
            apart: chance < 1 - limits.level,
          }
        : undefined,
    eventsForDoubling: test && forDoubling(curves, limits.level),
    fewest: limits.fewestForEstimate,
    used: followed.lines.length,
    given: followed.given,
  };
}

/** By the lines of the smallest group, as Schoenfeld's formula asks for shares. */
function forDoubling(curves: readonly Curve[], level: number): number {
  const lines = curves.map((curve) => curve.lines);
  const share = Math.min(...lines) / lines.reduce((all, one) => all + one, 0);
  return eventsToCompare(DOUBLING, share, level, POWER);
}

const groupNames = ({ lines }: FollowedLines, by: StratumName | undefined, limits: CountLimits): readonly string[] =>
  lines.map(({ row }) => (by ? stratumOf(row, by, limits) : "all lines"));
