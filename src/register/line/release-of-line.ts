import {
  SIGN_STOP,
  TIP_STOP,
  type ReleaseFacts,
  type SettledSign,
  type SideAgreement,
} from "../../core/release/index.ts";
import type { EntryOf } from "../catalogue.ts";
import { confirmedIn, valueIn } from "../field/index.ts";
import { standing } from "../fold/index.ts";
import { filmReadingOf } from "./film-of-line.ts";
import type { LineView } from "./line-view.ts";
import { observationOfTrouble, saysNoInfection } from "./trouble-of-line.ts";

/** What the release rule reads, in the order things happened. */
export function releaseFacts(line: LineView, sides: SideAgreement, bornOn: string | undefined): ReleaseFacts {
  const releases: ReleaseFacts["releases"][number][] = [];
  const tips: ReleaseFacts["tips"][number][] = [];
  const observations: ReleaseFacts["observations"][number][] = [];
  const uses: ReleaseFacts["uses"][number][] = [];
  const passed: ReleaseFacts["passed"][number][] = [];
  const settled: SettledSign[] = [];
  for (const happening of standing(line.happenings)) {
    const { event, entry, struck } = happening;
    const at = event.happenedAt;
    switch (event.type) {
      case "TipRead": {
        const said = entry as EntryOf<"TipRead">;
        tips.push({
          at,
          kind: "read",
          place: valueIn(said.tipPlace),
          placeWrittenAt: struck.findLast(({ field }) => field === "tipPlace")?.at ?? event.writtenAt,
          outsideCm: confirmedIn(said.outsideCm),
          ...(valueIn(said.method) === "film" ? { film: filmReadingOf(said, at, bornOn ?? "") } : {}),
        });
        break;
      }
      case "TipCorrected": {
        const said = entry as EntryOf<"TipCorrected">;
        tips.push({ at, kind: "corrected", place: undefined, outsideCm: confirmedIn(said.outsideCm) });
        break;
      }
      case "LineReleased": {
        const said = entry as EntryOf<"LineReleased">;
        releases.push({
          at,
          writtenAt: event.writtenAt,
          uses: valueIn(said.uses) ?? [],
          by: event.author.initials,
          checked: event.author.account !== "",
        });
        break;
      }
      case "StopOverridden": {
        const said = entry as EntryOf<"StopOverridden">;
        const names = [valueIn(said.firstName) ?? "", valueIn(said.secondName) ?? ""] as const;
        const { role } = event.author;
        const pass = { at, writtenAt: event.writtenAt, why: valueIn(said.why) ?? "", names, role };
        const code = valueIn(said.code);
        if (code === TIP_STOP) passed.push(pass);
        else if (code === SIGN_STOP) settled.push({ at, writtenAt: event.writtenAt, passed: pass });
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
          flushes: valueIn(said.flushes),
        });
        break;
      }
      case "InfectionConcluded":
        if (saysNoInfection(happening)) settled.push({ at, writtenAt: event.writtenAt, passed: undefined });
        break;
      case "LineUsed":
        uses.push({
          at,
          what: valueIn((entry as EntryOf<"LineUsed">).what) ?? "other drug",
          by: event.author.initials,
        });
        break;
      default: {
        const seen = observationOfTrouble(happening);
        if (seen) observations.push(seen);
      }
    }
  }
  const sidesAgree = sides.agree || releases.length === 0;
  return { releases, tips, passed, settled, observations, uses, end: line.end?.kind, sidesAgree };
}
