import { ageGroupOf, ageInYears, pretermMatters, type Age, type AgeBorders } from "../age/index.ts";
import type { CivilDate } from "../calendar/index.ts";
import { judgeRoute, type Infusate, type InfusateLimits, type RouteJudgement } from "../infusate/index.ts";
import { judgeKidney, type KidneyInput, type KidneyJudgement, type KidneyLimits } from "../kidney/index.ts";
import { isMissing, missing, type Maybe } from "../missing/index.ts";
import type { Finding } from "../reason/index.ts";
import { chooseDevice, type DeviceAnswer, type DeviceQuestion } from "./choose-device.ts";
import type { DeviceNeed } from "./device-need.ts";
import type { DevicePolicy } from "./device-rule.ts";
import {
  bleedingNotes,
  cultureNotes,
  type BleedingInput,
  type CultureInput,
  type TimingLimits,
} from "./timing-notes.ts";

/** What the ward asks for, as it was said on the phone or written on the slip. */
export interface Referral extends Omit<DeviceNeed, "group" | "infusates" | "kidney"> {
  readonly bornPreterm: Maybe<boolean>;
  readonly correctedAgeDays: Maybe<number>;
  readonly age: Maybe<Age>;
  readonly infusates: Maybe<readonly Infusate[]>;
  readonly kidney: Omit<KidneyInput, "sex" | "acutelyIll">;
  readonly bleeding: BleedingInput;
  readonly culture: CultureInput;
}

export interface ReferralPolicy {
  readonly age: AgeBorders;
  readonly device: DevicePolicy;
  readonly infusate: InfusateLimits;
  readonly kidney: KidneyLimits;
  readonly timing: TimingLimits;
}

export interface ReferralAnswer {
  readonly device: DeviceAnswer | DeviceQuestion;
  readonly need: DeviceNeed;
  readonly kidney: KidneyJudgement;
  readonly infusates: readonly (RouteJudgement & { readonly infusate: Infusate })[];
  readonly notes: readonly Finding[];
}

/**
 * A referral answered: every infusate and the kidney judged, then the device, then bleeding and cultures as notes.
 * Holds: one patient, one day, one policy. What is not known is asked and never taken as normal.
 */
export function answerReferral(referral: Referral, policy: ReferralPolicy, today: CivilDate): ReferralAnswer {
  const unsettled = pretermMatters(referral, policy.age);
  const group = unsettled ? undefined : ageGroupOf(referral, policy.age);
  const ageYears = isMissing(referral.age) ? undefined : ageInYears(referral.age);
  const { sex, criticallyIll } = referral;
  const acutelyIll = isMissing(criticallyIll) ? criticallyIll : criticallyIll === "yes";
  const kidney = judgeKidney({ ...referral.kidney, sex, acutelyIll }, { group, ageYears, today }, policy.kidney);
  const infusates =
    isMissing(referral.infusates) || !group
      ? []
      : referral.infusates.map((infusate) => ({ infusate, ...judgeRoute(infusate, group, policy.infusate) }));
  const need: DeviceNeed = {
    ...referral,
    group: group ?? missing("not asked"),
    infusates: isMissing(referral.infusates)
      ? referral.infusates
      : infusates.map(({ infusate: { name, againstCancer, nutrition }, route, vesicant }) => ({
          name,
          route,
          vesicant,
          againstCancer,
          nutrition,
        })),
    kidney: kidney.standing,
  };
  return {
    device: unsettled ? { outcome: "ask", question: "preterm" } : chooseDevice(need, policy.device),
    need,
    kidney,
    infusates,
    notes: [...bleedingNotes(referral.bleeding, policy.timing), ...cultureNotes(referral.culture, policy.timing)],
  };
}
