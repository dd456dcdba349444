import { instantMs, type Instant } from "../calendar/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import { lengthChange, type LengthChange } from "../tip/index.ts";
import type {
  FixedTip,
  GivenRelease,
  Observation,
  PassedStop,
  ReleasePolicy,
  ReleaseState,
  SettledSign,
} from "./release-facts.ts";
import { passCounts, tipStop } from "./tip-stop.ts";

/** Where the line stands as its facts are walked through in the order they happened. */
export interface Walk {
  state: Exclude<ReleaseState, "not confirmed">;
  uses: readonly string[];
  since: Instant | undefined;
  baselineCm: number | undefined;
  central: boolean;
  /** When the place of the last tip read was written. */
  placeWrittenAt: Instant | undefined;
  /** What the last tip has against a release, and who passed it since. */
  tipStop: Finding | undefined;
  passed: PassedStop | undefined;
  /** What makes a release impossible until a tip is read again, whether or not the line was released when it was seen. */
  endedBy: Observation | undefined;
  /** What ended a release, or would have, and says nothing of the tip; settled for itself or by a new reading. */
  signBy: Observation | undefined;
  /** The two people who settled it with a reason. */
  signPassed: PassedStop | undefined;
  /** A small change nobody has settled yet, in cm; it outlives a release that says nothing of it. */
  heldCm: number | undefined;
  /** Blood did not come back and nobody has seen it come back since; a hold that is lifted does not lift this. */
  dry: boolean;
  /** Nothing went through at the last try. */
  blocked: boolean;
  findings: Finding[];
  /** Who released it in a role that no account vouches for. */
  unchecked: string | undefined;
  /** Stretches of time in which some or all uses were off. */
  off: OffSpan[];
}

export interface OffSpan {
  readonly from: Instant;
  until: Instant | undefined;
  readonly what: readonly string[] | "everything";
}

export type Step = (walk: Walk, policy: ReleasePolicy) => void;

export const isOpen = (state: ReleaseState): boolean =>
  state === "may be used" || state === "restricted" || state === "held" || state === "blocked";

/** A tip that is read settles the length; one that is only corrected gives a new length and settles nothing. */
export const fixTip =
  (tip: FixedTip): Step =>
  (walk, policy) => {
    walk.baselineCm = tip.outsideCm ?? walk.baselineCm;
    if (tip.kind === "read") {
      walk.endedBy = undefined;
      walk.signBy = undefined;
      walk.signPassed = undefined;
      walk.heldCm = undefined;
    }
    if (tip.place !== undefined) {
      walk.central = policy.centralPlaces.includes(tip.place);
      walk.placeWrittenAt = tip.placeWrittenAt;
    }
    // moved, and the house asks for no new film: what was too deep is drawn back, what lay elsewhere lies there still
    const mended = tip.kind === "read" || walk.tipStop?.code === "release-tip-too-deep" || policy.filmAfterCorrection;
    if (mended) walk.tipStop = tipStop(tip, policy);
    walk.passed = undefined;
    if (!isOpen(walk.state)) return;
    if (tip.kind === "corrected") end(walk, tip.at, finding("release-tip-corrected-since", "not met", "stop"));
    else if (tip.place !== undefined && !walk.central) {
      const rows = { policy: ["release.central-places"] };
      end(walk, tip.at, finding("release-tip-not-central", "not met", "stop", { place: tip.place }, rows));
    } else if (walk.tipStop) end(walk, tip.at, walk.tipStop);
  };

/** Two people pass what the last tip has against a release; whoever wrote it before that tip was read did not know. */
export const passStop =
  (passed: PassedStop): Step =>
  (walk, policy) => {
    const knew = walk.placeWrittenAt === undefined || instantMs(passed.writtenAt) >= instantMs(walk.placeWrittenAt);
    if (walk.tipStop && knew && passCounts(passed, policy)) walk.passed = passed;
  };

/** A sign that says nothing of the tip is settled by whoever knew of it; what may have moved the tip stays. */
export const settleSign =
  (settled: SettledSign): Step =>
  (walk, policy) => {
    const { signBy } = walk;
    if (!signBy || instantMs(settled.writtenAt) < instantMs(signBy.writtenAt)) return;
    if (settled.passed && !passCounts(settled.passed, policy)) return;
    walk.signBy = undefined;
    walk.signPassed = settled.passed;
  };

/** A release stands unless something was seen before it that is not settled yet. */
export const release =
  (given: GivenRelease): Step =>
  (walk, policy) => {
    if (given.uses.length === 0) return; // released for nothing is not released
    const { endedBy, signBy, placeWrittenAt } = walk;
    // whoever released did not know: it was written only afterwards
    const unknown = (writtenAt: Instant | undefined) =>
      writtenAt !== undefined && instantMs(writtenAt) > instantMs(given.writtenAt);
    const strayed = !walk.central && unknown(placeWrittenAt);
    const stopped = walk.passed === undefined ? walk.tipStop : undefined;
    if (endedBy || signBy || strayed || stopped) {
      const unseen = strayed || unknown(endedBy?.writtenAt) || unknown(signBy?.writtenAt);
      const told = endedBy ? "release-needs-new-tip" : signBy ? "release-sign-not-settled" : "release-over-stop";
      const code = unseen ? "release-given-without-knowing" : told;
      if (stopped && code === "release-over-stop") walk.findings.push(stopped);
      walk.findings.push(finding(code, "not met", "stop", { by: given.by }));
      // what was given on the word of that release is listed as well
      if (!walk.off.some(({ until }) => until === undefined)) {
        walk.off.push({ from: given.at, until: undefined, what: "everything" });
      }
      return;
    }
    walk.uses = walk.central ? given.uses : given.uses.filter((use) => !policy.notThroughHeld.includes(use));
    walk.since = given.at;
    walk.unchecked = given.checked === false ? given.by : undefined;
    for (const span of walk.off) span.until ??= given.at;
    walk.findings = walk.central
      ? []
      : [finding("release-tip-not-central-at-release", "not met", "ask", {}, { policy: ["release.central-places"] })];
    if (walk.tipStop && walk.passed) walk.findings.push({ ...walk.tipStop, level: "ask" });
    for (const passed of [walk.tipStop && walk.passed, walk.signPassed]) {
      if (!passed) continue;
      const { why, names } = passed;
      const rows = { policy: ["release.override-roles"] };
      walk.findings.push(finding("release-stop-passed", "not met", "ask", { why, names }, rows));
    }
    stand(walk, given.at, policy);
  };

/** What was seen counts whether or not the line was released then: a later release does not undo it. */
export const observe =
  (seen: Observation): Step =>
  (walk, policy) => {
    if (seen.bloodReturn === "no") walk.dry = true;
    else if (seen.bloodReturn === "yes") walk.dry = false;
    if (seen.flushes !== undefined) walk.blocked = seen.flushes === "no";
    const change = changeOf(seen, walk.baselineCm, policy);
    // a small change outlives a release that ends for another reason
    if (change?.kind === "out a little") walk.heldCm = change.cm;
    else if (change?.bySecond) walk.heldCm = undefined;
    const ending = endingOf(seen, change, walk.heldCm !== undefined, policy);
    if (ending.why.length > 0) {
      const { signBy } = walk;
      if (ending.ofTip) walk.endedBy = seen;
      // whoever settles it must have known of the one written last
      else if (!signBy || instantMs(seen.writtenAt) >= instantMs(signBy.writtenAt)) walk.signBy = seen;
      if (isOpen(walk.state)) end(walk, seen.at, ...ending.why);
      return;
    }
    if (!isOpen(walk.state)) return;
    walk.findings = [];
    if (seen.bloodReturn === "sluggish" && !walk.dry) {
      walk.findings.push(finding("release-blood-return-sluggish", "at the limit", "note"));
    }
    if (seen.outsideCm === undefined) walk.findings.push(finding("release-outside-not-measured", "not known", "ask"));
    if (walk.dry && seen.bloodReturn !== "no") {
      walk.findings.push(finding("release-blood-return-not-seen-again", "not known", "ask"));
    }
    stand(walk, seen.at, policy);
  };

/** The state of an open release, from the hold and the blood return that are still open. */
function stand(walk: Walk, at: Instant, policy: ReleasePolicy): void {
  const held = walk.heldCm !== undefined;
  walk.state = walk.blocked ? "blocked" : held ? "held" : walk.dry ? "restricted" : "may be used";
  if (walk.blocked) walk.findings.push(finding("release-blocked", "not met", "stop"));
  if (walk.heldCm !== undefined) {
    const rows = { policy: ["release.noise", "release.out", "release.not-through-held"] };
    const values = { changeCm: walk.heldCm };
    walk.findings.push(finding("release-length-changed-a-little", "at the limit", "ask", values, rows));
  }
  if (walk.dry && !walk.blocked && !walk.findings.some(({ code }) => code === "release-blood-return-not-seen-again")) {
    const rows = { policy: ["release.not-through-held"] };
    walk.findings.push(finding("release-no-blood-return", "not met", "ask", {}, rows));
  }
  const narrowed = held || walk.dry || !walk.central;
  const what = walk.blocked ? "everything" : narrowed ? policy.notThroughHeld : undefined;
  if (walk.off.some((span) => span.until === undefined && span.what === what)) return;
  for (const span of walk.off) span.until ??= at;
  if (what !== undefined) walk.off.push({ from: at, until: undefined, what });
}

/**
 * What ends a release by itself: any symptom of the list, a length well out or further in than noise, a move without a
 * number, and a hard flush while the length stands changed. Only signs that say nothing of the tip, and those alone,
 * are not of the tip. Source: common practice, no source; the signs are policy rows.
 */
function endingOf(
  seen: Observation,
  change: Change | undefined,
  changed: boolean,
  policy: ReleasePolicy,
): { readonly why: readonly Finding[]; readonly ofTip: boolean } {
  const symptoms = seen.symptoms.filter((symptom) => policy.endsOnSymptoms.includes(symptom));
  const moved = moveOf(seen, change, changed, policy);
  const code = seen.bloodReturn === "no" ? "release-no-blood-and-symptoms" : "release-symptoms";
  const rows = { policy: ["release.ends-on-symptoms", "release.silent-on-tip"] };
  return {
    why: [...(symptoms.length > 0 ? [finding(code, "not met", "stop", { symptoms }, rows)] : []), ...moved],
    ofTip: moved.length > 0 || symptoms.some((symptom) => !policy.silentOnTip.includes(symptom)),
  };
}

function moveOf(
  seen: Observation,
  change: Change | undefined,
  changed: boolean,
  policy: ReleasePolicy,
): readonly Finding[] {
  if (change?.kind === "out" || change?.kind === "in") {
    const out = change.kind === "out";
    const rows = { policy: [out ? "release.out" : "release.noise"] };
    return [finding(out ? "release-moved-out" : "release-moved-in", "not met", "stop", { changeCm: change.cm }, rows)];
  }
  if (seen.moved) return [finding("release-moved-unmeasured", "not met", "stop")];
  const hard = seen.flushes !== undefined && seen.flushes !== "freely";
  if (!policy.flushAfterMove || !changed || !hard) return [];
  return [finding("release-hard-flush-after-move", "not met", "stop", {}, { policy: ["release.flush-after-move"] })];
}

interface Change {
  readonly kind: LengthChange;
  readonly cm: number;
  /** A second person of another name found the length unchanged. */
  readonly bySecond: boolean;
}

/** The graver of two measurements counts, unless a second person finds the length unchanged. */
function changeOf(seen: Observation, baselineCm: number | undefined, policy: ReleasePolicy): Change | undefined {
  if (baselineCm === undefined || seen.outsideCm === undefined) return undefined;
  const first = seen.outsideCm - baselineCm;
  const kind = lengthChange(first, policy);
  const { second: other } = seen;
  if (!other || plain(other.by) === plain(seen.measuredBy)) return { kind, cm: first, bySecond: false };
  const second = other.outsideCm - baselineCm;
  const unchanged = lengthChange(second, policy) === "noise";
  if (unchanged && (kind === "out a little" || kind === "noise")) return { kind: "noise", cm: second, bySecond: true };
  const graver = Math.abs(second) > Math.abs(first) ? second : first;
  return { kind: lengthChange(graver, policy), cm: graver, bySecond: false };
}

const plain = (name: string): string => name.trim().toLowerCase();

function end(walk: Walk, at: Instant, ...why: readonly Finding[]): void {
  walk.state = "ended";
  walk.off.push({ from: at, until: undefined, what: "everything" });
  walk.findings = [...why];
}
