// Longer than 300 lines because it is one walk through time and the facts it reads; cut apart, no part could be checked alone.
import { instantMs, type Instant } from "../calendar/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import { lengthChange, type LengthChange } from "../tip/index.ts";

/** When a release ends, is held or is narrowed; the rows stand in src/policy/tip-rows.ts. */
export interface ReleasePolicy {
  readonly noiseCm: number;
  readonly outCm: number;
  readonly knownHours: number;
  readonly notThroughHeld: readonly string[];
  readonly endsOnSymptoms: readonly string[];
  readonly centralPlaces: readonly string[];
}

/** A person said that the line may be used, and for what. */
export interface GivenRelease {
  readonly at: Instant;
  readonly writtenAt: Instant;
  readonly uses: readonly string[];
  readonly by: string;
}

/** A tip that was read, or corrected: from here on lengths are held against its outside length. */
export interface FixedTip {
  readonly at: Instant;
  readonly kind: "read" | "corrected";
  readonly place: string | undefined;
  readonly outsideCm: number | undefined;
}

/** What somebody found at the line. */
export interface Observation {
  readonly at: Instant;
  readonly writtenAt: Instant;
  readonly outsideCm: number | undefined;
  readonly second: { readonly outsideCm: number; readonly by: string } | undefined;
  readonly measuredBy: string;
  readonly bloodReturn: string | undefined;
  readonly symptoms: readonly string[];
}

/** Something given through the line. */
export interface Use {
  readonly at: Instant;
  readonly what: string;
  readonly by: string;
}

export interface ReleaseFacts {
  readonly releases: readonly GivenRelease[];
  readonly tips: readonly FixedTip[];
  readonly observations: readonly Observation[];
  readonly uses: readonly Use[];
  /** Where the line is out or its end is not known. */
  readonly end: "removed" | "unknown" | "handed on" | undefined;
  readonly sidesAgree: boolean;
}

/**
 * May the line be used?
 *   not released    nobody has released it, or plan, placing and film do not agree
 *   may be used     released, and nothing since says otherwise
 *   restricted      blood does not come back: some uses are off
 *   held            the outside length changed a little: some uses wait for a second measurer
 *   ended           the release is over; only a new tip reading and a new release begin another
 *   not confirmed   what this device knows is too old to be believed
 */
export const RELEASE_STATES = ["not released", "may be used", "restricted", "held", "ended", "not confirmed"] as const;
export type ReleaseState = (typeof RELEASE_STATES)[number];

export interface ReleaseJudgement {
  readonly state: ReleaseState;
  /** What the device last knew when the state is "not confirmed". */
  readonly lastKnown: Exclude<ReleaseState, "not confirmed">;
  /** What may be given now; nothing while it is not released, ended or not confirmed. */
  readonly uses: readonly string[];
  readonly knownAt: Instant | undefined;
  readonly since: Instant | undefined;
  readonly findings: readonly Finding[];
  /** What was given after the release had already ended, held or narrowed for it: each is to be told to somebody. */
  readonly usedSince: readonly Use[];
}

interface Walk {
  state: Exclude<ReleaseState, "not confirmed">;
  uses: readonly string[];
  since: Instant | undefined;
  baselineCm: number | undefined;
  central: boolean;
  /** The observation that ended the last release, until a tip is read again. */
  endedBy: Observation | undefined;
  findings: Finding[];
  /** Stretches of time in which some or all uses were off. */
  off: OffSpan[];
}

interface OffSpan {
  readonly from: Instant;
  until: Instant | undefined;
  readonly what: readonly string[] | "everything";
}

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
    endedBy: undefined,
    findings: [],
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
  const old =
    isOld(knownAt, now, policy) &&
    (walk.state === "may be used" || walk.state === "restricted" || walk.state === "held");
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
  const open = !old && (walk.state === "may be used" || walk.state === "restricted" || walk.state === "held");
  const narrowed = walk.state === "restricted" || walk.state === "held";
  return {
    state: old ? "not confirmed" : walk.state,
    lastKnown: walk.state,
    uses: open ? walk.uses.filter((use) => !narrowed || !policy.notThroughHeld.includes(use)) : [],
    knownAt,
    since: walk.since,
    findings: walk.findings,
    usedSince: usedSince(facts.uses, walk.off),
  };
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

function close(off: readonly OffSpan[], at: Instant): void {
  for (const span of off) span.until ??= at;
}

type Step = (walk: Walk, policy: ReleasePolicy) => void;

/** At one moment a tip is read before it is released, and released before anybody looks again. */
function inOrder(facts: ReleaseFacts): readonly Step[] {
  const steps: { at: number; rank: number; step: Step }[] = [
    ...facts.tips.map((tip) => ({ at: instantMs(tip.at), rank: 0, step: fixTip(tip) })),
    ...facts.releases.map((given) => ({ at: instantMs(given.at), rank: 1, step: release(given) })),
    ...facts.observations.map((seen) => ({ at: instantMs(seen.at), rank: 2, step: observe(seen) })),
  ];
  return steps.sort((a, b) => a.at - b.at || a.rank - b.rank).map(({ step }) => step);
}

const fixTip =
  (tip: FixedTip): Step =>
  (walk, policy) => {
    walk.baselineCm = tip.outsideCm ?? walk.baselineCm;
    walk.endedBy = undefined;
    if (tip.place !== undefined) walk.central = policy.centralPlaces.includes(tip.place);
    const wasOpen = walk.state === "may be used" || walk.state === "restricted" || walk.state === "held";
    if (!wasOpen) return;
    if (tip.kind === "corrected") end(walk, tip.at, finding("release-tip-corrected-since", "not met", "stop"));
    else if (!walk.central) {
      end(
        walk,
        tip.at,
        finding(
          "release-tip-not-central",
          "not met",
          "stop",
          { place: tip.place ?? "not known" },
          { policy: ["release.central-places"] },
        ),
      );
    }
  };

const release =
  (given: GivenRelease): Step =>
  (walk, policy) => {
    const { endedBy } = walk;
    // whoever released did not know: it was written only afterwards, and no tip was read in between
    if (endedBy && instantMs(endedBy.writtenAt) > instantMs(given.writtenAt)) {
      walk.findings.push(finding("release-given-without-knowing", "not met", "stop", { by: given.by }));
      return;
    }
    if (endedBy) {
      walk.findings.push(finding("release-needs-new-tip", "not met", "stop", { by: given.by }));
      return;
    }
    walk.state = "may be used";
    walk.uses = walk.central ? given.uses : given.uses.filter((use) => !policy.notThroughHeld.includes(use));
    walk.since = given.at;
    close(walk.off, given.at);
    if (!walk.central) walk.off.push({ from: given.at, until: undefined, what: policy.notThroughHeld });
    walk.findings = walk.central
      ? []
      : [finding("release-tip-not-central-at-release", "not met", "ask", {}, { policy: ["release.central-places"] })];
  };

const observe =
  (seen: Observation): Step =>
  (walk, policy) => {
    if (walk.state === "not released" || walk.state === "ended") return;
    const symptoms = seen.symptoms.filter((symptom) => policy.endsOnSymptoms.includes(symptom));
    if (symptoms.length > 0) {
      walk.endedBy = seen;
      const noBlood = seen.bloodReturn === "no";
      return end(
        walk,
        seen.at,
        finding(
          noBlood ? "release-no-blood-and-symptoms" : "release-symptoms",
          "not met",
          "stop",
          { symptoms },
          {
            policy: ["release.ends-on-symptoms"],
          },
        ),
      );
    }
    const change = changeOf(seen, walk.baselineCm, policy);
    if (change?.kind === "out" || change?.kind === "in") {
      walk.endedBy = seen;
      return end(
        walk,
        seen.at,
        finding(
          change.kind === "out" ? "release-moved-out" : "release-moved-in",
          "not met",
          "stop",
          { changeCm: change.cm },
          {
            policy: change.kind === "out" ? ["release.out"] : ["release.noise"],
          },
        ),
      );
    }
    narrow(walk, seen, change, policy);
  };

function narrow(walk: Walk, seen: Observation, change: Change | undefined, policy: ReleasePolicy): void {
  const findings: Finding[] = [];
  const little = change?.kind === "out a little";
  // held stays held until a second person finds the length unchanged, or a tip is read and released again
  const lifted = change?.kind === "noise" && (walk.state !== "held" || change.bySecond);
  if (little || (walk.state === "held" && !lifted)) {
    walk.state = "held";
    findings.push(
      finding(
        "release-length-changed-a-little",
        "at the limit",
        "ask",
        { changeCm: change?.cm ?? Number.NaN },
        {
          policy: ["release.noise", "release.out", "release.not-through-held"],
        },
      ),
    );
  } else if (seen.bloodReturn === "no" || (walk.state === "restricted" && seen.bloodReturn !== "yes")) {
    walk.state = "restricted";
  } else walk.state = "may be used";
  if (seen.bloodReturn === "no") {
    findings.push(finding("release-no-blood-return", "not met", "ask", {}, { policy: ["release.not-through-held"] }));
  } else if (walk.state === "restricted") {
    findings.push(finding("release-blood-return-not-seen-again", "not known", "ask"));
  } else if (seen.bloodReturn === "sluggish")
    findings.push(finding("release-blood-return-sluggish", "at the limit", "note"));
  if (seen.outsideCm === undefined) findings.push(finding("release-outside-not-measured", "not known", "ask"));
  const narrowed = walk.state === "held" || walk.state === "restricted";
  const isOff = walk.off.some(({ until }) => until === undefined);
  if (narrowed && !isOff) walk.off.push({ from: seen.at, until: undefined, what: policy.notThroughHeld });
  else if (!narrowed && walk.central) close(walk.off, seen.at);
  walk.findings = findings;
}

interface Change {
  readonly kind: LengthChange;
  readonly cm: number;
  readonly bySecond: boolean;
}

/** The graver of two measurements counts, unless a second person finds the length unchanged. */
function changeOf(seen: Observation, baselineCm: number | undefined, policy: ReleasePolicy): Change | undefined {
  if (baselineCm === undefined || seen.outsideCm === undefined) return undefined;
  const first = seen.outsideCm - baselineCm;
  const kind = lengthChange(first, policy);
  const other =
    seen.second && seen.second.by.trim().toLowerCase() !== seen.measuredBy.trim().toLowerCase()
      ? seen.second
      : undefined;
  if (!other) return { kind, cm: first, bySecond: false };
  const second = other.outsideCm - baselineCm;
  const secondKind = lengthChange(second, policy);
  if (kind === "out a little" && secondKind === "noise") return { kind: "noise", cm: second, bySecond: true };
  const graver = Math.abs(second) > Math.abs(first) ? second : first;
  return { kind: lengthChange(graver, policy), cm: graver, bySecond: kind === "noise" && secondKind === "noise" };
}

function end(walk: Walk, at: Instant, why: Finding): void {
  walk.state = "ended";
  walk.off.push({ from: at, until: undefined, what: "everything" });
  walk.findings = [why];
}
