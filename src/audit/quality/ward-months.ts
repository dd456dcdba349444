import type { CivilDate } from "../../core/calendar/index.ts";
import {
  deviceUtilisation,
  machineCountFrom,
  maySample,
  ruleInForce,
  sampledLineDays,
  type DenominatorRule,
  type MaySample,
  type SurveillanceRule,
} from "../../core/dwell/index.ts";
import { isKnown, missing } from "../../core/missing/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import type { AuditTable, WardMonth } from "../line/index.ts";
import { checkColumns } from "./check-packed.ts";
import { countedMonths } from "./scan-table.ts";
import { firstOf } from "./table-rules.ts";

/** What cannot be a share of days. */
export type NoShare =
  | "patient-days not written"
  | "no patient-days"
  | "more line-days than patient-days"
  | "half of it not written"
  | "its own count may not stand";

/** How much a ward used lines in a month, and whether its way of counting may stand. */
export interface WardMonthDays {
  readonly ward: string;
  /** Year and month. */
  readonly month: string;
  /** The ward counted every central line, and not those of this service alone. */
  readonly everyCentralLine: boolean;
  /** Days of patients with a line: by hand where every day was so counted, else from a sample that may stand, else by the table. */
  readonly lineDays: number;
  readonly countedBy: "hand" | "sample" | "machine";
  readonly patientDays: number | undefined;
  readonly utilisation: number | NoShare;
  /** Of a month that the ward counted: the days of the table, two lines of one person once, and their difference as a share. */
  readonly byRecord?: { readonly days: number; readonly apart: number | undefined; readonly agrees: boolean };
  /** The month at whose end machine and hand had agreed for long enough; undefined while they have not. */
  readonly machineFrom: string | undefined;
  readonly agreementMonths: number;
  /** Line-days from one weekday; undefined where nobody sampled. */
  readonly sampled?: {
    readonly lineDays: number | NoShare;
    readonly days: number | undefined;
    readonly may: MaySample;
    readonly leastLineDays: number;
  };
}

/**
 * The months of wards that the table has, from one date up to, not with, another.
 *   utilisation = line-days / patient-days; sampled line-days = patient-days x sampled with a line / sampled of all
 * Units: patient-days at noon. Holds: as `wardDays`, by ward of placing; a month under no rule is left out; machine and hand
 * are held against each other only where the ward counted this service's lines. Source: the rule in force.
 * Example: test/specification/ward-months.test.ts.
 */
export function wardMonthDays(
  table: AuditTable,
  period: { readonly from: CivilDate; readonly to: CivilDate },
  { limits, surveillance }: { readonly limits: CountLimits; readonly surveillance: SurveillanceRule },
  rules: readonly DenominatorRule[],
): readonly WardMonthDays[] {
  const { facts, stopped } = checkColumns(table, limits, surveillance);
  const months = countedMonths(facts, stopped).map(({ written, name, days }) => ({
    written,
    ward: written.ward,
    month: name,
    first: firstOf(name),
    machine: days,
    hand: written.manualDays,
    all: written.patientDays,
    every: written.everyCentralLine === true,
    bySample: sampledOf(written),
  }));
  return months.flatMap(({ written, ward, month, first, machine, hand, all, every, bySample }) => {
    const rule = ruleInForce(rules, first);
    if (rule === undefined || first < period.from || first >= period.to) return [];
    const own = months.filter((one) => one.ward === ward && one.every === every);
    const twice = own
      .filter((one) => one.first <= first && !every)
      .flatMap((one) => (isKnown(one.hand) ? [{ month: one.first, byMachine: one.machine, byHand: one.hand }] : []));
    const yearBefore = own.filter((one) => one.first < first && one.month >= lastYear(month));
    const may = maySample(
      yearBefore
        .sort((a, b) => (a.first < b.first ? -1 : 1))
        .map((one) => (isKnown(one.hand) ? one.hand : typeof one.bySample === "number" ? one.bySample : one.machine)),
      rule,
    );
    const stands = may === "may sample" && typeof bySample === "number" ? bySample : undefined;
    const countedBy = isKnown(hand) ? "hand" : stands === undefined ? "machine" : "sample";
    const lineDays = isKnown(hand) ? hand : (stands ?? machine);
    const apart = lineDays > 0 ? (machine - lineDays) / lineDays : undefined;
    return [
      {
        ward,
        month,
        everyCentralLine: every,
        lineDays,
        countedBy,
        patientDays: isKnown(all) ? all : undefined,
        utilisation: !isKnown(all)
          ? "patient-days not written"
          : every && countedBy === "machine"
            ? "its own count may not stand"
            : deviceUtilisation(lineDays, all),
        ...(countedBy === "machine" || every
          ? {}
          : {
              byRecord: {
                days: machine,
                apart,
                agrees: Math.abs(machine - lineDays) <= limits.manualAgrees * lineDays,
              },
            }),
        machineFrom: machineCountFrom(twice, rule, limits.manualAgrees)?.slice(0, 7),
        agreementMonths: rule.agreementMonths,
        ...(bySample === undefined
          ? {}
          : {
              sampled: {
                lineDays: bySample,
                days: isKnown(written.sampledDays ?? NOT_ASKED) ? (written.sampledDays as number) : undefined,
                may,
                leastLineDays: rule.leastLineDaysToSample,
              },
            }),
      } satisfies WardMonthDays,
    ];
  });
}

const NOT_ASKED = missing("not asked");

/** Line-days of a month from its sample, or why there are none; undefined where nobody sampled. */
function sampledOf({ sampledWithLine: withLine, sampledAll, patientDays }: WardMonth): number | NoShare | undefined {
  if (!isKnown(withLine) && !isKnown(sampledAll)) return undefined;
  if (!isKnown(withLine) || !isKnown(sampledAll)) return "half of it not written";
  return isKnown(patientDays)
    ? sampledLineDays({ withLine, all: sampledAll }, patientDays)
    : "patient-days not written";
}

/** The same month of the year before. */
function lastYear(month: string): string {
  const [year, rest] = [Number(month.slice(0, 4)) - 1, month.slice(4)];
  return `${year}${rest}`;
}
