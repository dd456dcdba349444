import { civilDateOf, type CivilDate, type Instant } from "../../core/calendar/index.ts";
import {
  careDue,
  judgeNeed,
  judgeRemoval,
  type CareLimits,
  type DueItem,
  type IdleLimits,
  type LineCare,
  type LineNeed,
  type RemovalLimits,
} from "../../core/care/index.ts";
import { missing } from "../../core/missing/index.ts";
import { centimetre } from "../../core/quantity/index.ts";
import { finding, type Finding } from "../../core/reason/index.ts";
import {
  judgeRelease,
  sideAgreement,
  type ReleaseJudgement,
  type ReleasePolicy,
  type SideAgreement,
  type SideSource,
} from "../../core/release/index.ts";
import type { EntryOf } from "../catalogue.ts";
import { confirmedIn, valueIn } from "../field/index.ts";
import { standing, type Happening } from "../fold/index.ts";
import type { LineView } from "./line-view.ts";
import { releaseFacts } from "./release-of-line.ts";
import { openSuspicion } from "./trouble-of-line.ts";

export interface LineRules {
  readonly release: ReleasePolicy;
  readonly care: CareLimits;
  readonly idle: IdleLimits;
  readonly removal: RemovalLimits;
}

/** What the record says of the line's person and plan: the arm a plan named, the number and the birthday. */
export interface LinePerson {
  readonly arm: "right" | "left" | undefined;
  readonly number: string | undefined;
  /** A film's target depends on the age: without it a film asks for no number. */
  readonly bornOn?: string | undefined;
}

/** One care of a line with the day it falls on; a care nobody wrote down falls on the day of placing. */
export interface LineDue {
  readonly what: DueItem["item"] | "visit" | "owner, place and date";
  readonly on: CivilDate;
  readonly why: DueItem["why"] | "as agreed" | "missing";
  readonly policy: readonly string[];
}

export interface LineAnswer {
  readonly release: ReleaseJudgement;
  readonly sides: SideAgreement;
  /** Nothing is due at a line that is out. */
  readonly due: readonly LineDue[];
  readonly need: readonly Finding[];
  /** Whether all of it came out; empty while it is in. */
  readonly removal: readonly Finding[];
}

/** What the events of a line mean under a policy at a moment; `knownAt` is this device's last touch with the record. */
export function answerLine(
  line: LineView,
  planned: LinePerson,
  knownAt: Instant | undefined,
  now: Instant,
  rules: LineRules,
): LineAnswer {
  const sides = sideAgreement(sideSources(line, planned));
  const facts = releaseFacts(line, sides, planned.bornOn);
  return {
    release: judgeRelease(facts, knownAt, now, rules.release),
    sides,
    due: line.end === undefined && line.placed ? dueOf(line, now, rules.care) : [],
    need: line.end === undefined && line.placed ? needOf(line, now, rules.idle) : [],
    removal: removalOf(line, rules.removal),
  };
}

/** Where the arm and the patient's number are written: the plan, the placing, the film, and two people who settled it. */
function sideSources(line: LineView, planned: LinePerson): readonly SideSource[] {
  const film = line.tip?.entry as EntryOf<"TipRead"> | undefined;
  const settled = settlement(line);
  return [
    ...(planned.arm ? [{ from: "plan" as const, arm: planned.arm, number: undefined }] : []),
    { from: "placing", arm: confirmedIn(line.said.arm), number: planned.number },
    ...(film ? [{ from: "film" as const, arm: valueIn(film.arm), number: valueIn(film.patientNumber) }] : []),
    ...(settled
      ? [
          {
            from: "settled by two people" as const,
            arm: valueIn((settled.entry as EntryOf<"SideSettled">).arm),
            number: undefined,
          },
        ]
      : []),
  ];
}

/** The two people who settled the side, as long as nothing was read since and they are two. */
function settlement(line: LineView): Happening | undefined {
  const last = standing(line.happenings).findLast(
    ({ event }) => event.type === "SideSettled" || event.type === "TipRead",
  );
  if (last?.event.type !== "SideSettled") return undefined;
  const said = last.entry as EntryOf<"SideSettled">;
  const [first, second] = [valueIn(said.firstName), valueIn(said.secondName)].map((name) =>
    (name ?? "").trim().toLowerCase(),
  );
  return first !== "" && second !== "" && first !== second ? last : undefined;
}

/** What is due, the earliest first: each care by its interval, the visit somebody named, and an owner where none is. */
function dueOf(line: LineView, now: Instant, limits: CareLimits): readonly LineDue[] {
  const placedOn = civilDateOf(line.placed?.event.happenedAt as Instant);
  const items: LineDue[] = careDue(lineCare(line), now, limits).map(({ item, dueOn, dueAt, why, policy }) => ({
    what: item,
    on: dueOn ?? (dueAt ? civilDateOf(dueAt) : placedOn),
    why,
    policy,
  }));
  const { owner } = line;
  if (owner?.nextOn) items.push({ what: "visit", on: owner.nextOn, why: "as agreed", policy: [] });
  if (!owner?.owner || !owner.place || !owner.nextOn) {
    items.push({ what: "owner, place and date", on: placedOn, why: "missing", policy: [] });
  }
  return items.sort((a, b) => (a.on < b.on ? -1 : a.on > b.on ? 1 : 0));
}

const none = missing("not asked");
const STATES: Readonly<Record<string, "sound" | "wet" | "loose" | "soiled">> = {
  "dry and whole": "sound",
  damp: "wet",
  loose: "loose",
  soiled: "soiled",
  bleeding: "soiled",
};

/** What the care rules read of a line. Care nobody wrote down is missing: the placing is not taken for it. */
function lineCare(line: LineView): LineCare {
  const state = line.dressingState && STATES[line.dressingState.value];
  return {
    id: line.subject,
    setting: settingOf(line),
    dressing: line.dressing
      ? {
          type: line.dressing.value.startsWith("gauze") ? "gauze" : "transparent",
          doneAt: line.dressing.at,
          state: state ?? none,
          ...(line.dressingState ? { stateSeenAt: line.dressingState.at } : {}),
        }
      : none,
    connector: line.connectorAt ? { changedAt: line.connectorAt, reason: none } : none,
    flushedAt: line.flushedAt ?? none,
    sets: [],
    reviewedAt: line.needed?.at ?? none,
    person: line.owner?.owner ?? none,
    place: line.owner?.place ?? none,
    nextOn: line.owner?.nextOn ?? none,
  };
}

/** A line whose place nobody wrote is held to the ward's shorter times. */
const settingOf = (line: LineView): "ward" | "home" => line.owner?.setting ?? valueIn(line.said.setting) ?? "ward";

/** Whether it is still needed: what the record says against it; what it does not say is asked at a visit, not here. */
function needOf(line: LineView, now: Instant, limits: IdleLimits): readonly Finding[] {
  const facts: LineNeed = {
    setting: settingOf(line),
    placedOn: civilDateOf(line.placed?.event.happenedAt as Instant),
    lastUsedAt: line.lastUsedAt ?? none,
    plannedEndOn: none,
    changedToTablets: none,
    onlyBloodSampling: line.needed ? line.needed.value === "only blood sampling" : none,
    secondDeviceDoesTheJob: none,
    somebodyFlushes: none,
    lastLongDwellReviewOn: none,
  };
  const said = judgeNeed(facts, now, limits).filter(
    ({ verdict, code }) => verdict === "not met" || code === "long-dwell-review",
  );
  return [
    ...(line.owner ? [] : [finding("line-no-owner", "not known", "stop")]),
    ...openSuspicion(line),
    ...(line.needed?.value === "no" ? [finding("line-not-needed", "not met", "ask")] : []),
    ...said,
  ];
}

function removalOf(line: LineView, limits: RemovalLimits): readonly Finding[] {
  if (line.end?.kind !== "removed") return [];
  const said = line.end.happening.entry as EntryOf<"LineRemoved">;
  const known = (cm: number | undefined) => (cm === undefined ? missing("not measured") : centimetre(cm));
  // one reading's pair: an outside length of a later day would count what slid out twice
  const { inside } = line;
  const outside = inside && line.outside.find(({ event }) => event === inside.event);
  return judgeRemoval(
    {
      placedCm: known(inside && outside ? inside.value + outside.value : undefined),
      // no event says that a line was cut later; were one, this would err toward a false stop, never a missed piece
      trimmedLaterCm: centimetre(0),
      outCm: known(confirmedIn(said.lengthOutCm)),
      tipIntact: valueIn(said.tipWhole) ?? none,
      infectionSuspected: valueIn(said.reason)?.startsWith("infection") ?? none,
      tipSentForCulture: valueIn(said.tipSentWhy) !== undefined,
    },
    limits,
  ).findings;
}
