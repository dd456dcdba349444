import { ageInYears, type Age, type AgeGroup } from "../age/index.ts";
import type { Route } from "../infusate/index.ts";
import type { KidneyStanding, Sex } from "../kidney/index.ts";
import { isMissing, type Maybe } from "../missing/index.ts";
import type { DeviceLimits } from "./device-rule.ts";
import type { Band, FactName, Facts, FactValue } from "./fact.ts";

/** Planned days of need: the least, the likely and the most. One number three times when nobody gives a range. */
export interface PlannedDays {
  readonly least: number;
  readonly likely: number;
  readonly most: number;
}

/** One infusate of the need, judged already. */
export interface NeededInfusate {
  readonly name: string;
  readonly route: Route;
  readonly vesicant: boolean;
  readonly againstCancer: boolean;
  readonly nutrition: boolean;
}

/** Answers that are facts as they stand. */
type Plain = Exclude<
  FactName,
  "band" | "route" | "vesicant" | "againstCancer" | "nutrition" | "kidney" | "sampling" | "admissions"
>;

export type DeviceNeed = {
  readonly group: Maybe<AgeGroup>;
  readonly age: Maybe<Age>;
  readonly sex: Maybe<Sex>;
  readonly days: Maybe<PlannedDays>;
  /** Empty when asked and none; missing until asked. */
  readonly infusates: Maybe<readonly NeededInfusate[]>;
  readonly kidney: KidneyStanding;
  /** Hours between blood samples; 0 when none are drawn. */
  readonly sampleEveryHours: Maybe<number>;
  readonly admissionsAYear: Maybe<number>;
  /** Where the rules cannot decide: the team has agreed to a PICC. */
  readonly teamAgreed: Maybe<"yes" | "no">;
} & { readonly [Name in Plain]: Maybe<FactValue<Name>> };

/** The band a number of days falls in; the last day of a band belongs to it. */
export function bandOf(days: number, group: AgeGroup, limits: DeviceLimits): Band {
  const [short, middle, long = Infinity] = group === "adult" ? limits.adultBandEnds : limits.childBandEnds;
  if (days <= short) return "short";
  if (days <= middle) return "middle";
  return days <= long ? "long" : "longest";
}

/** Whether pregnancy has to be asked: a woman, or a person whose sex nobody wrote down, within the ages of the policy. */
export function pregnancyPossible(need: Pick<DeviceNeed, "age" | "sex">, limits: DeviceLimits): boolean {
  if (need.sex === "male") return false;
  if (isMissing(need.age)) return true;
  const years = Math.floor(ageInYears(need.age));
  return years >= limits.pregnancyFromYears && years <= limits.pregnancyToYears;
}

/** The known facts of a need at one number of days. */
export function factsOf(need: DeviceNeed, days: number, group: AgeGroup, limits: DeviceLimits): Facts {
  const known = <Value>(value: Maybe<Value>): Value | undefined => (isMissing(value) ? undefined : value);
  const { sampleEveryHours, admissionsAYear } = need;
  return definedOnly({
    band: bandOf(days, group, limits),
    ...infusateFacts(need.infusates),
    criticallyIll: known(need.criticallyIll),
    setting: known(need.setting),
    cancer: known(need.cancer),
    urgent: known(need.urgent),
    cycles: known(need.cycles),
    kidney: need.kidney === "not known" ? undefined : need.kidney,
    pregnancy: known(need.pregnancy) ?? (pregnancyPossible(need, limits) ? undefined : "no"),
    armBars: known(need.armBars),
    sampling: isMissing(sampleEveryHours)
      ? undefined
      : sampleEveryHours === 0
        ? "none"
        : sampleEveryHours <= limits.oftenEveryHours
          ? "often"
          : "seldom",
    difficultVeins: known(need.difficultVeins),
    carer: known(need.carer),
    oral: known(need.oral),
    endOfLife: known(need.endOfLife),
    purpose: known(need.purpose),
    admissions: isMissing(admissionsAYear) ? undefined : admissionsAYear > limits.fewAdmissions ? "many" : "few",
  });
}

/** One infusate that asks for a central vein decides for all; one whose route is not known leaves the route open. */
function infusateFacts(infusates: DeviceNeed["infusates"]): { [Name in FactName]?: FactValue<Name> | undefined } {
  if (isMissing(infusates)) return {};
  const yesNo = (yes: boolean): "yes" | "no" => (yes ? "yes" : "no");
  const route = infusates.some((one) => one.route === "central")
    ? "central"
    : infusates.some((one) => one.route === "not known")
      ? undefined
      : "peripheral";
  return {
    route,
    vesicant: yesNo(infusates.some((one) => one.vesicant)),
    againstCancer: yesNo(infusates.some((one) => one.againstCancer)),
    nutrition: yesNo(infusates.some((one) => one.nutrition)),
  };
}

function definedOnly(facts: { [Name in FactName]?: FactValue<Name> | undefined }): Facts {
  return Object.fromEntries(Object.entries(facts).filter(([, value]) => value !== undefined)) as Facts;
}
