import { instantMs, type Instant } from "../calendar/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import type { ReleaseFacts, ReleaseJudgement, ReleasePolicy, Use } from "./release-facts.ts";
import {
  fixTip,
  isOpen,
  observe,
  passStop,
  release,
  settleSign,
  type OffSpan,
  type Step,
  type Walk,
} from "./release-walk.ts";
import { OPEN_SIGN, tipStop } from "./tip-stop.ts";

/**
 * Judges a line's release by the order things happened, not the order they were written: what comes in late ends a
 * release from the moment it happened. `knownAt` is when this device was last in touch with the record.
 * Source of the steps: common practice, each a policy row. Example: a release, then 4 cm out: ended from that visit on.
 */
export function judgeRelease(
  facts: ReleaseFacts,
  knownAt: Instant | undefined,
  now: Instant,
  policy: ReleasePolicy,
): ReleaseJudgement {
  const walk: Walk = {
    state: "not released",
    uses: [],
    since: undefined,
    baselineCm: undefined,
    central: false,
    placeWrittenAt: undefined,
    tipStop: tipStop(undefined, policy),
    passed: undefined,
    endedBy: undefined,
    signBy: undefined,
    signPassed: undefined,
    heldCm: undefined,
    dry: false,
    blocked: false,
    findings: [],
    unchecked: undefined,
    off: [],
  };
  for (const step of inOrder(facts)) step(walk, policy);
  if (walk.state === "not released" && walk.findings.length === 0) {
    walk.findings.push(finding("release-none", "not known", "stop"));
  }
  if (!facts.sidesAgree) {
    walk.state = "not released";
    walk.findings = [finding("release-sides-differ", "not met", "stop"), ...walk.findings];
  }
  if (facts.end !== undefined) {
    walk.state = "ended";
    walk.findings = [finding(`release-line-${facts.end.replace(" ", "-")}`, "not met", "stop")];
  }
  if (walk.unchecked !== undefined && isOpen(walk.state)) {
    walk.findings.push(finding("release-role-as-said", "not known", "ask", { by: walk.unchecked }));
  }
  const old = isOld(knownAt, now, policy) && isOpen(walk.state);
  if (old) {
    walk.findings.unshift(
      finding(
        "release-not-confirmed",
        "not known",
        "stop",
        { hours: policy.knownHours },
        { policy: ["release.known-hours"] },
      ),
    );
  }
  const open = !old && isOpen(walk.state) && walk.state !== "blocked";
  const narrowed = walk.state === "restricted" || walk.state === "held";
  return {
    state: old ? "not confirmed" : walk.state,
    lastKnown: walk.state,
    uses: open ? walk.uses.filter((use) => !narrowed || !policy.notThroughHeld.includes(use)) : [],
    knownAt,
    since: walk.since,
    findings: walk.findings,
    stop: stopOf(walk, policy),
    usedSince: usedSince(facts.uses, walk.off),
  };
}

/** What a release written now would not stand over. */
function stopOf({ endedBy, signBy, tipStop: stop, passed }: Walk, policy: ReleasePolicy): Finding | undefined {
  if (endedBy) return finding("release-ended-needs-new-tip", "not met", "stop");
  if (signBy) {
    const symptoms = signBy.symptoms.filter((symptom) => policy.silentOnTip.includes(symptom));
    return finding(OPEN_SIGN, "not met", "stop", { symptoms }, { policy: ["release.silent-on-tip"] });
  }
  return passed === undefined ? stop : undefined;
}

const isOld = (knownAt: Instant | undefined, now: Instant, policy: ReleasePolicy): boolean =>
  knownAt === undefined || instantMs(now) - instantMs(knownAt) > policy.knownHours * 3_600_000;

function usedSince(uses: readonly Use[], off: readonly OffSpan[]): readonly Use[] {
  return uses.filter(({ at, what }) =>
    off.some(
      (span) =>
        instantMs(at) >= instantMs(span.from) &&
        (span.until === undefined || instantMs(at) < instantMs(span.until)) &&
        (span.what === "everything" || span.what.includes(what)),
    ),
  );
}

/** At one moment a tip is read before its stop is passed, that before it is released, and released before anybody looks again. */
function inOrder(facts: ReleaseFacts): readonly Step[] {
  const steps: { at: number; rank: number; step: Step }[] = [
    ...facts.tips.map((tip) => ({ at: instantMs(tip.at), rank: 0, step: fixTip(tip) })),
    ...facts.passed.map((passed) => ({ at: instantMs(passed.at), rank: 1, step: passStop(passed) })),
    ...(facts.settled ?? []).map((settled) => ({ at: instantMs(settled.at), rank: 1, step: settleSign(settled) })),
    ...facts.releases.map((given) => ({ at: instantMs(given.at), rank: 2, step: release(given) })),
    ...facts.observations.map((seen) => ({ at: instantMs(seen.at), rank: 3, step: observe(seen) })),
  ];
  return steps.sort((a, b) => a.at - b.at || a.rank - b.rank).map(({ step }) => step);
}
