import { instantMs, midnightsBetween, civilDateOf, type CivilDate } from "../../core/calendar/index.ts";
import { isMissing } from "../../core/missing/index.ts";
import type { Finding } from "../../core/reason/index.ts";
import { OPEN_SIGN, SIGN_STOP, TIP_STOP } from "../../core/release/index.ts";
import type { EntryOf, EventType } from "../catalogue.ts";
import type { Author, Stamp } from "../event/index.ts";
import { valueIn, type Entry } from "../field/index.ts";
import type { LineView } from "./line-view.ts";

/** Why something about a line is not written down; the words and what to do stand in src/language. */
export const LINE_REFUSALS = [
  "line-already-placed",
  "no-line-yet",
  "line-already-out",
  "before-the-line-was-placed",
  "in-the-future",
  "owner-place-and-date-needed",
  "next-date-before-today",
  "release-needs-a-tip-reading",
  "release-needs-uses-and-names",
  "release-sides-differ",
  "two-different-names-needed",
  "release-over-tip-stop",
  "override-needs-a-reason",
  "override-needs-another-role",
  "release-over-open-sign",
] as const;
export type LineRefusal = (typeof LINE_REFUSALS)[number];

export type LineDecision =
  | { readonly kind: "accepted" }
  | { readonly kind: "refused"; readonly code: LineRefusal; readonly field?: string };

const refused = (code: LineRefusal, field?: string): LineDecision => ({
  kind: "refused",
  code,
  ...(field === undefined ? {} : { field }),
});

const MINUTES_OF_GRACE = 5; // two clocks in one building differ by this much and no more

/** What the rules say of a line before somebody signs; see answerLine. */
export interface LineKnown {
  /** Whether plan, placing and film agree on the arm and the person. */
  readonly sidesAgree: boolean;
  /** What the last tip has against a release and nobody passed. */
  readonly stop: Finding | undefined;
  /** Who may pass that stop, by local policy. */
  readonly overrideRoles: readonly string[];
}

/**
 * Whether a person may write this about a line now. It guards what a person is about to sign; a history that came from
 * elsewhere is read whatever it holds.
 */
export function decideLine(
  view: LineView,
  type: EventType,
  entry: Entry,
  stamp: Pick<Stamp, "happenedAt" | "writtenAt"> & { readonly author: Pick<Author, "role"> },
  { sidesAgree, stop, overrideRoles }: LineKnown,
): LineDecision {
  const placing = type === "LineInserted" || type === "LineFound";
  const happened = instantMs(stamp.happenedAt);
  if (happened > instantMs(stamp.writtenAt) + MINUTES_OF_GRACE * 60_000) return refused("in-the-future");
  if (placing) return view.placed ? refused("line-already-placed") : { kind: "accepted" };
  if (!view.placed) return refused("no-line-yet");
  if (happened < instantMs(view.placed.event.happenedAt) - MINUTES_OF_GRACE * 60_000) {
    return refused("before-the-line-was-placed");
  }
  const ended = view.end && view.end.kind !== "unknown" && happened > instantMs(view.end.at);
  if (ended && !AFTER_THE_END.has(type)) return refused("line-already-out");
  if (type === "OwnerNamed") return decideOwner(entry, civilDateOf(stamp.happenedAt));
  if (type === "LineReleased" && !view.tip) return refused("release-needs-a-tip-reading");
  if (type === "LineReleased" && !sidesAgree) return refused("release-sides-differ");
  if (type === "LineReleased" && stop) {
    return refused(stop.code === OPEN_SIGN ? "release-over-open-sign" : "release-over-tip-stop");
  }
  if (type === "LineReleased") return decideRelease(entry);
  if (type === "StopOverridden" && PASSED_BY_ROLE.has(valueIn((entry as EntryOf<"StopOverridden">).code) ?? "")) {
    if (!overrideRoles.includes(stamp.author.role)) return refused("override-needs-another-role");
    if ((valueIn((entry as EntryOf<"StopOverridden">).why) ?? "").trim() === "")
      return refused("override-needs-a-reason", "why");
  }
  if (type === "SideSettled" || type === "StopOverridden") return decideTwoNames(entry);
  return { kind: "accepted" };
}

/** Stops of a release: passed only in the roles that the policy names. */
const PASSED_BY_ROLE = new Set<string>([TIP_STOP, SIGN_STOP]);

/** Papers, conclusions and corrections still come after a line is out. */
const AFTER_THE_END = new Set<string>([
  "PaperIssued",
  "InfectionConcluded",
  "CulturesTaken",
  "ClotLookedFor",
  "LotAttached",
  "LineRemoved",
]);

function decideOwner(entry: EntryOf<"OwnerNamed">, today: CivilDate): LineDecision {
  for (const field of ["owner", "place", "nextOn"] as const) {
    const recorded = entry[field];
    if (recorded === undefined || isMissing(recorded) || String(valueIn(recorded)).trim() === "") {
      return refused("owner-place-and-date-needed", field);
    }
  }
  const nextOn = valueIn(entry.nextOn) as CivilDate;
  return midnightsBetween(today, nextOn) < 0 ? refused("next-date-before-today", "nextOn") : { kind: "accepted" };
}

/** A release for nothing, by nobody, or told to nobody, releases nothing. */
function decideRelease(entry: EntryOf<"LineReleased">): LineDecision {
  if ((valueIn(entry.uses) ?? []).length === 0) return refused("release-needs-uses-and-names", "uses");
  for (const field of ["releasedBy", "toldTo"] as const) {
    if ((valueIn(entry[field]) ?? "").trim() === "") return refused("release-needs-uses-and-names", field);
  }
  return { kind: "accepted" };
}

function decideTwoNames(entry: EntryOf<"SideSettled">): LineDecision {
  const [first, second] = [valueIn(entry.firstName), valueIn(entry.secondName)].map((name) =>
    (name ?? "").trim().toLowerCase(),
  );
  return first === "" || second === "" || first === second
    ? refused("two-different-names-needed", "secondName")
    : { kind: "accepted" };
}
