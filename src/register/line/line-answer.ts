import type { Instant } from "../../core/calendar/index.ts";
import {
  dueItems,
  needFindings,
  removalFinding,
  type CareDone,
  type CarePolicy,
  type Due,
  type RemovalPolicy,
} from "../../core/care/index.ts";
import { missing } from "../../core/missing/index.ts";
import type { Finding } from "../../core/reason/index.ts";
import {
  judgeRelease,
  sideAgreement,
  type ReleaseFacts,
  type ReleaseJudgement,
  type ReleasePolicy,
  type SideAgreement,
  type SideSource,
} from "../../core/release/index.ts";
import type { EntryOf } from "../catalogue.ts";
import { confirmedIn, valueIn } from "../field/index.ts";
import { standing } from "../fold/index.ts";
import type { LineView } from "./line-view.ts";

export interface LineRules {
  readonly release: ReleasePolicy;
  readonly care: CarePolicy;
  readonly removal: RemovalPolicy;
}

export interface LineAnswer {
  readonly release: ReleaseJudgement;
  readonly sides: SideAgreement;
  /** Nothing is due at a line that is out. */
  readonly due: readonly Due[];
  readonly need: readonly Finding[];
  /** Whether all of it came out; undefined while it is in. */
  readonly removal: Finding | undefined;
}

/** What the events of a line mean under a policy at a moment; `knownAt` is this device's last touch with the record. */
export function answerLine(
  line: LineView,
  planned: { readonly arm: "right" | "left" | undefined; readonly number: string | undefined },
  knownAt: Instant | undefined,
  now: Instant,
  rules: LineRules,
): LineAnswer {
  const sides = sideAgreement(sideSources(line, planned));
  const facts = releaseFacts(line, sides);
  return {
    release: judgeRelease(facts, knownAt, now, rules.release),
    sides,
    due: line.end === undefined && line.placed ? dueItems(careDone(line), rules.care) : [],
    need: line.end === undefined && line.placed ? needFindings(needFacts(line), now, rules.care) : [],
    removal: removalOf(line, rules.removal),
  };
}

/** Where the arm and the patient's number are written: the plan, the placing, the film, and two people who settled it. */
function sideSources(
  line: LineView,
  planned: { readonly arm: "right" | "left" | undefined; readonly number: string | undefined },
): readonly SideSource[] {
  const film = line.tip?.entry as EntryOf<"TipRead"> | undefined;
  const settled = [...standing(line.happenings)].reverse().find(({ event }) => event.type === "SideSettled");
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

/** What the release rule reads, in the order things happened. */
export function releaseFacts(line: LineView, sides: SideAgreement): ReleaseFacts {
  const releases: ReleaseFacts["releases"][number][] = [];
  const tips: ReleaseFacts["tips"][number][] = [];
  const observations: ReleaseFacts["observations"][number][] = [];
  const uses: ReleaseFacts["uses"][number][] = [];
  for (const { event, entry } of standing(line.happenings)) {
    const at = event.happenedAt;
    switch (event.type) {
      case "TipRead": {
        const said = entry as EntryOf<"TipRead">;
        tips.push({ at, kind: "read", place: valueIn(said.tipPlace), outsideCm: confirmedIn(said.outsideCm) });
        break;
      }
      case "TipCorrected": {
        const said = entry as EntryOf<"TipCorrected">;
        tips.push({ at, kind: "corrected", place: undefined, outsideCm: confirmedIn(said.outsideCm) });
        break;
      }
      case "LineReleased": {
        const said = entry as EntryOf<"LineReleased">;
        releases.push({ at, writtenAt: event.writtenAt, uses: valueIn(said.uses) ?? [], by: event.author.initials });
        break;
      }
      case "CareGiven": {
        const said = entry as EntryOf<"CareGiven">;
        const second = confirmedIn(said.secondMeasureCm);
        observations.push({
          at,
          writtenAt: event.writtenAt,
          outsideCm: confirmedIn(said.outsideCm),
          second:
            second === undefined
              ? undefined
              : { outsideCm: second, by: valueIn(said.secondMeasurer) ?? event.author.initials },
          measuredBy: event.author.initials,
          bloodReturn: valueIn(said.bloodReturn),
          symptoms: valueIn(said.symptoms) ?? [],
        });
        break;
      }
      case "LineUsed":
        uses.push({
          at,
          what: valueIn((entry as EntryOf<"LineUsed">).what) ?? "other drug",
          by: event.author.initials,
        });
        break;
      default:
    }
  }
  return { releases, tips, observations, uses, end: line.end?.kind, sidesAgree: sides.agree || releases.length === 0 };
}

/** What the care rules read. */
export function careDone(line: LineView): CareDone {
  return {
    placedAt: line.placed?.event.happenedAt as Instant,
    dressing: line.dressing?.value,
    dressedAt: line.dressing?.at,
    dressingState: line.dressingState?.value,
    stateSeenAt: line.dressingState?.at,
    connectorAt: line.connectorAt,
    flushedAt: line.flushedAt,
    lastUsedAt: line.lastUsedAt,
    nextOn: line.owner?.nextOn,
    owner: line.owner?.owner,
    place: line.owner?.place,
  };
}

const needFacts = (line: LineView) => ({
  placedAt: line.placed?.event.happenedAt as Instant,
  setting: line.owner?.setting ?? valueIn(line.said.setting),
  lastUsedAt: line.lastUsedAt,
  lastSeenAt: line.lastSeenAt,
  stillNeeded: line.needed?.value,
  plannedEndOn: undefined,
  owner: line.owner?.owner,
});

function removalOf(line: LineView, policy: RemovalPolicy): Finding | undefined {
  if (line.end?.kind !== "removed") return undefined;
  const said = line.end.happening.entry as EntryOf<"LineRemoved">;
  const none = missing("not measured");
  return removalFinding(
    line.inside?.value ?? none,
    confirmedIn(said.lengthOutCm) ?? none,
    valueIn(said.tipWhole) ?? none,
    policy,
  );
}
