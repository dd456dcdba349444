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
import { isKnown } from "../../core/missing/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import type { AuditTable } from "../line/index.ts";
import { checkColumns } from "./check-packed.ts";
import { countedMonths } from "./scan-table.ts";
import { firstOf } from "./table-rules.ts";

/** What cannot be a share of days. */
export type NoShare =
  | "patient-days not written"
  | "no patient-days"
  | "more line-days than patient-days"
  | "half of it not written";

/** How much a ward used lines in a month, and whether its way of counting may stand. */
export interface WardMonthDays {
  readonly ward: string;
  /** Year and month. */
  readonly month: string;
  /** Days of patients with a line: by hand where they were so counted, else by the table, two lines of one person once. */
  readonly lineDays: number;
  readonly countedBy: "hand" | "machine";
  readonly patientDays: number | undefined;
  readonly utilisation: number | NoShare;
  /** The month at whose end machine and hand had agreed for long enough; undefined while they have not. */
  readonly machineFrom: string | undefined;
  readonly agreementMonths: number;
  /** Line-days from one weekday; undefined where nobody sampled. */
  readonly sampled?: {
    readonly lineDays: number | NoShare;
    readonly may: MaySample;
    readonly leastLineDays: number;
  };
}

/**
 * The months of wards that the table has, from one date up to, not with, another.
 *   utilisation = line-days / patient-days; sampled line-days = patient-days x sampled with a line / sampled of all
 * Units: patient-days at noon. Holds: as `wardDays`, by ward of placing; a month under no rule is left out. Source: the
 * rule in force. Example: test/specification/ward-months.test.ts.
 */
export function wardMonthDays(
  table: AuditTable,
  period: { readonly from: CivilDate; readonly to: CivilDate },
  { limits, surveillance }: { readonly limits: CountLimits; readonly surveillance: SurveillanceRule },
  rules: readonly DenominatorRule[],
): readonly WardMonthDays[] {
  const { facts, stopped } = checkColumns(table, limits, surveillance);
  const months = countedMonths(facts, stopped).map(({ written, name, days }) => {
    const { manualDays: hand, patientDays, ward } = written;
    return { written, ward, month: name, first: firstOf(name), machine: days, hand, all: patientDays };
  });
  return months.flatMap(({ written, ward, month, first, machine, hand, all }) => {
    const rule = ruleInForce(rules, first);
    if (rule === undefined || first < period.from || first >= period.to) return [];
    const own = months.filter((one) => one.ward === ward);
    const upTo = own.filter((one) => one.first <= first);
    const twice = upTo.flatMap((one) =>
      isKnown(one.hand) ? [{ month: one.first, byMachine: one.machine, byHand: one.hand }] : [],
    );
    const yearBefore = own.filter((one) => one.first < first && one.month >= lastYear(month));
    const lineDays = isKnown(hand) ? hand : machine;
    const { sampledWithLine: withLine, sampledAll } = written;
    const sampledBoth = isKnown(withLine) && isKnown(sampledAll);
    return [
      {
        ward,
        month,
        lineDays,
        countedBy: isKnown(hand) ? "hand" : "machine",
        patientDays: isKnown(all) ? all : undefined,
        utilisation: isKnown(all) ? deviceUtilisation(lineDays, all) : "patient-days not written",
        machineFrom: machineCountFrom(twice, rule, limits.manualAgrees)?.slice(0, 7),
        agreementMonths: rule.agreementMonths,
        ...(isKnown(withLine) || isKnown(sampledAll)
          ? {
              sampled: {
                lineDays: !sampledBoth
                  ? "half of it not written"
                  : isKnown(all)
                    ? sampledLineDays({ withLine, all: sampledAll }, all)
                    : "patient-days not written",
                may: maySample(
                  yearBefore
                    .sort((a, b) => (a.first < b.first ? -1 : 1))
                    .map((one) => (isKnown(one.hand) ? one.hand : one.machine)),
                  rule,
                ),
                leastLineDays: rule.leastLineDaysToSample,
              },
            }
          : {}),
      } satisfies WardMonthDays,
    ];
  });
}

/** The same month of the year before. */
function lastYear(month: string): string {
  const [year, rest] = [Number(month.slice(0, 4)) - 1, month.slice(4)];
  return `${year}${rest}`;
}
