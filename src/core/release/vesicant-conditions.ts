import { civilDateOf, type Instant } from "../calendar/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import { lengthChange } from "../tip/index.ts";
import type { ReleaseFacts, ReleaseJudgement, ReleasePolicy } from "./release-facts.ts";

export interface VesicantConditions {
  /** True when every condition is met; the person giving the drug decides. */
  readonly met: boolean;
  readonly conditions: readonly Finding[];
}

/**
 * What stands for and against a vesicant now: released for it, the last tip central, the outside length measured today
 * and unchanged, blood coming back today. Each is met, not met or not known; nothing missing reads as met.
 * Source: common practice, no source; infusion nursing standards, from memory.
 */
export function vesicantConditions(
  facts: ReleaseFacts,
  judgement: ReleaseJudgement,
  now: Instant,
  policy: ReleasePolicy,
): VesicantConditions {
  const today = civilDateOf(now);
  const tip = [...facts.tips].reverse().find(({ place }) => place !== undefined);
  const baseline = [...facts.tips].reverse().find(({ outsideCm }) => outsideCm !== undefined)?.outsideCm;
  const seen = [...facts.observations].reverse().find(({ at }) => civilDateOf(at) === today);
  const unchanged =
    seen?.outsideCm === undefined || baseline === undefined
      ? "not known"
      : lengthChange(seen.outsideCm - baseline, policy) === "noise"
        ? "met"
        : "not met";
  const conditions = [
    finding("vesicant-released", judgement.uses.includes("vesicant") ? "met" : "not met", undefined, {
      state: judgement.state,
    }),
    finding(
      "vesicant-tip-central",
      tip === undefined ? "not known" : policy.centralPlaces.includes(tip.place ?? "") ? "met" : "not met",
      undefined,
      tip === undefined ? {} : { place: tip.place ?? "", at: tip.at },
      { policy: ["release.central-places"] },
    ),
    finding(
      "vesicant-length-today",
      unchanged,
      undefined,
      seen?.outsideCm === undefined ? {} : { outsideCm: seen.outsideCm },
      {
        policy: ["release.noise"],
      },
    ),
    finding(
      "vesicant-blood-today",
      seen?.bloodReturn === undefined ? "not known" : seen.bloodReturn === "yes" ? "met" : "not met",
      undefined,
    ),
  ];
  return { met: conditions.every(({ verdict }) => verdict === "met"), conditions };
}
