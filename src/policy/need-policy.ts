import type { ReferralPolicy } from "../core/device-choice/index.ts";
import type { PolicyRow } from "../core/reason/index.ts";
import { deviceRules } from "./device/index.ts";
import type { PolicyTable } from "./policy-table.ts";

/** A rule stands unless this place has put it out of force. */
const inForce = (table: PolicyTable, id: string): boolean =>
  (table as Readonly<Record<string, PolicyRow>>)[`device-rule.${id}`]?.value !== false;

/** The limits of the question before the arm, as its rooms read them. */
export function needPolicyFrom(table: PolicyTable): ReferralPolicy {
  const [pregnancyFromYears, pregnancyToYears] = table["device.pregnancy-ages"].value as [number, number];
  const [phFrom, phTo] = table["infusate.ph"].value as [number, number];
  return {
    age: { newbornUnderDays: table["age.newborn-under"].value, adultFromYears: table["age.adult-from"].value },
    device: {
      rules: deviceRules.filter(({ id }) => inForce(table, id)),
      limits: {
        adultBandEnds: table["device.adult-band-ends"].value as unknown as readonly [number, number, number],
        childBandEnds: table["device.child-band-ends"].value as unknown as readonly [number, number],
        oftenEveryHours: table["device.often-hours"].value,
        fewAdmissions: table["device.few-admissions"].value,
        pregnancyFromYears,
        pregnancyToYears,
      },
    },
    infusate: {
      osmolarity: table["infusate.osmolarity"].value,
      nutritionOsmolarityAdult: table["infusate.nutrition-osmolarity-adult"].value,
      nutritionOsmolarityChild: table["infusate.nutrition-osmolarity-child"].value,
      phFrom,
      phTo,
    },
    kidney: {
      barBelow: table["kidney.bar-below"].value,
      assessBelow: table["kidney.assess-below"].value,
      acuteAgeDays: table["expiry.creatinine-acute"].value,
      plausibleMost: table["kidney.plausible-most"].value,
      steadyAgeDays: table["expiry.creatinine-steady"].value,
    },
    timing: {
      inrMost: table["bleeding.inr-most"].value,
      plateletsLeast: table["bleeding.platelets-least"].value,
      plateletsDoubtBelow: table["bleeding.platelets-doubt"].value,
      cultureHours: table["culture.wait"].value,
    },
  };
}
