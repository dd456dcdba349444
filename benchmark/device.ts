import { readReferral } from "../src/contract/index.ts";
import { parseCivilDate, type CivilDate } from "../src/core/calendar/index.ts";
import { answerReferral } from "../src/core/device-choice/index.ts";
import { defaultPolicyTable, needPolicyFrom, starterInfusates } from "../src/policy/index.ts";
import { practiceReferrals } from "../src/practice/index.ts";
import { median, type BenchmarkRow } from "./plan.ts";

/** Every practice referral answered with all that would change it, a whole range of days, the slowest of them. */
export function benchmarkDevice(): readonly BenchmarkRow[] {
  const policy = needPolicyFrom(defaultPolicyTable);
  const today = parseCivilDate("2026-11-25") as CivilDate;
  const taken = practiceReferrals.map(({ referral }) => {
    const wide = { ...referral, days: { least: 1, likely: 14, most: 120 } };
    const reading = readReferral(wide, starterInfusates);
    if (reading.kind === "faults") throw new Error("a practice referral has faults");
    return median(31, () => void answerReferral(reading.referral, policy, today));
  });
  return [{ name: "device choice with all that would change it, 120 days", median: Math.max(...taken), unit: "ms" }];
}
