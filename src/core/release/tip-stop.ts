import { finding, type Finding } from "../reason/index.ts";
import { correctFilm } from "../tip/index.ts";
import type { FixedTip, PassedStop, ReleasePolicy } from "./release-facts.ts";

/** The name a person passes this stop under, as it stands in the entry. */
export const TIP_STOP = "tip not in a good place";

/** The name two people settle a sign under that ended a release and says nothing of the tip. */
export const SIGN_STOP = "ended by a sign that says nothing of the tip";

/** The finding of such a sign while nobody has settled it. */
export const OPEN_SIGN = "release-ended-sign-open";

/**
 * Why a line may not be released on its last tip, or undefined where it may. The place must be one of the policy's; a film
 * must ask for no withdrawal beyond the tape's noise; a tip that was moved must have been read again.
 *   too deep when withdrawal > noise
 * Lengths in cm. Source: common practice, no source; places and noise are policy rows.
 * Example: read in the right atrium, withdraw 2.5 cm asked for, none written: a stop.
 */
export function tipStop(tip: FixedTip | undefined, policy: ReleasePolicy): Finding | undefined {
  if (tip === undefined) return finding("release-tip-not-read", "not known", "stop");
  if (tip.kind === "corrected") {
    const rows = { policy: ["release.film-after-correction"] };
    return policy.filmAfterCorrection
      ? finding("release-tip-not-read-again", "not known", "stop", {}, rows)
      : undefined;
  }
  if (tip.place === undefined) return finding("release-tip-place-missing", "not known", "stop");
  if (!policy.centralPlaces.includes(tip.place)) {
    const rows = { policy: ["release.central-places"] };
    return finding("release-tip-not-good", "not met", "stop", { place: tip.place }, rows);
  }
  const asked = tip.film && correctFilm(tip.film, policy.film);
  if (asked?.kind !== "withdraw" || asked.withdrawCm <= policy.noiseCm) return undefined;
  const rows = { policy: ["tip.series", "release.noise"] };
  return finding("release-tip-too-deep", "not met", "stop", { withdrawCm: asked.withdrawCm }, rows);
}

/**
 * Whether a passing of the tip's stop counts: two people of different names, a reason in words, and the role of one who
 * answers for a line. The others' passing is kept and read, and opens nothing.
 */
export function passCounts(passed: PassedStop, policy: ReleasePolicy): boolean {
  const [first, second] = passed.names.map((name) => name.trim().toLowerCase());
  return (
    passed.why.trim() !== "" &&
    first !== "" &&
    second !== "" &&
    first !== second &&
    policy.overrideRoles.includes(passed.role)
  );
}
