import { civilDateOf, instantMs, midnightsBetween, type CivilDate, type Instant } from "../calendar/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import type { CarePolicy } from "./care-policy.ts";

export interface NeedFacts {
  readonly placedAt: Instant;
  readonly setting: "ward" | "home" | undefined;
  readonly lastUsedAt: Instant | undefined;
  readonly lastSeenAt: Instant | undefined;
  readonly stillNeeded: string | undefined;
  readonly plannedEndOn: CivilDate | undefined;
  readonly owner: string | undefined;
}

/**
 * Why a line may no longer be needed, or has been forgotten. It never says that a line is to be removed: it asks, and a
 * person answers for the next drug, the next cycle and the next two days first.
 * Source: job of the daily list, common practice; review at the interval of local policy, no removal by age alone.
 */
export function needFindings(facts: NeedFacts, now: Instant, policy: CarePolicy): readonly Finding[] {
  const today = civilDateOf(now);
  const findings: Finding[] = [];
  const idleHours = facts.setting === "home" ? policy.idleDaysHome * 24 : policy.idleHoursWard;
  const usedAt = facts.lastUsedAt ?? facts.placedAt;
  const hours = (instantMs(now) - instantMs(usedAt)) / 3_600_000;
  if (facts.plannedEndOn !== undefined && midnightsBetween(facts.plannedEndOn, today) > 0) {
    findings.push(finding("need-end-passed", "not met", "ask", { on: facts.plannedEndOn }));
  }
  if (facts.stillNeeded === "no") findings.push(finding("need-not-needed", "not met", "ask"));
  if (facts.stillNeeded === "only blood sampling") findings.push(finding("need-only-sampling", "not met", "ask"));
  if (facts.lastUsedAt !== undefined && hours > idleHours) {
    findings.push(
      finding(
        "need-idle",
        "not met",
        "ask",
        { days: Math.floor(hours / 24) },
        {
          policy: [facts.setting === "home" ? "care.idle-days-home" : "care.idle-hours-ward"],
        },
      ),
    );
  }
  if (facts.lastSeenAt !== undefined) {
    const days = midnightsBetween(civilDateOf(facts.lastSeenAt), today);
    if (days > policy.notSeenDays) {
      findings.push(finding("need-not-seen", "not known", "stop", { days }, { policy: ["care.not-seen-days"] }));
    }
  }
  const dwell = midnightsBetween(civilDateOf(facts.placedAt), today);
  if (dwell >= policy.longDwellDays) {
    findings.push(
      finding("need-long-dwell", "not known", "ask", { days: dwell }, { policy: ["care.long-dwell-days"] }),
    );
  }
  if (!facts.owner) findings.push(finding("need-no-owner", "not known", "stop"));
  return findings;
}
