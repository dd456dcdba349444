import { instantMs, type CivilDate, type Instant } from "../../core/calendar/index.ts";
import { entryOf, type EntryOf } from "../catalogue.ts";
import type { Subject } from "../event/index.ts";
import { confirmedIn, missingFields, valueIn, type MissingField } from "../field/index.ts";
import { disputes, readHistory, type Dispute, type Happening, type History } from "../fold/index.ts";
import { lineEvents } from "./line-events.ts";

/** A value with the moment it was found so and the event that said it. */
export interface Seen<Value> {
  readonly value: Value;
  readonly at: Instant;
  readonly event: string;
}

export interface Owner {
  readonly owner: string;
  readonly place: string;
  readonly setting: "ward" | "home" | undefined;
  readonly phone: string;
  readonly visitOrder: number | undefined;
  readonly nextOn: CivilDate;
  readonly since: Instant;
}

export interface Paper {
  readonly paper: string;
  readonly issue: number;
  readonly at: Instant;
  /** Something it shows was changed after it was printed. */
  readonly outdatedBy: string | undefined;
}

export type LineEnd =
  | { readonly kind: "removed"; readonly happening: Happening; readonly at: Instant }
  | { readonly kind: "unknown"; readonly happening: Happening; readonly at: Instant; readonly lastSeenOn: string }
  | { readonly kind: "handed on"; readonly happening: Happening; readonly at: Instant };

/** A line as its events tell it, before any rule is asked: no clock and no policy in here. */
export interface LineView {
  readonly subject: Subject;
  readonly version: number;
  readonly happenings: readonly Happening[];
  readonly disputes: readonly Dispute[];
  readonly patient: string | undefined;
  readonly placed: Happening | undefined;
  /** What the placing says today, corrections in place; values from a plan are still in it, marked. */
  readonly said: EntryOf<"LineInserted">;
  readonly outside: readonly Seen<number>[];
  readonly inside: Seen<number> | undefined;
  readonly tip: Happening | undefined;
  readonly tipCorrected: Happening | undefined;
  readonly released: Happening | undefined;
  readonly owner: Owner | undefined;
  readonly dressing: Seen<string> | undefined;
  readonly dressingState: Seen<string> | undefined;
  readonly connectorAt: Instant | undefined;
  readonly flushedAt: Instant | undefined;
  readonly needed: Seen<string> | undefined;
  readonly lastSeenAt: Instant | undefined;
  readonly lastUsedAt: Instant | undefined;
  readonly lastWrittenAt: Instant | undefined;
  readonly papers: readonly Paper[];
  readonly end: LineEnd | undefined;
  /** Fields of the placing that are absent or still from the plan. */
  readonly missing: readonly MissingField[];
}

/** Events after which a printed paper may show something old. */
const CHANGES_PAPER = new Set(["TipCorrected", "LineReleased", "OwnerNamed", "SideSettled", "TipRead", "LotAttached"]);

type Mutable<Type> = { -readonly [Key in keyof Type]: Type[Key] };

/** Reads a line's history in the order things happened; any history is accepted. */
export function lineView(history: History): LineView {
  const happenings = readHistory(history);
  const view: Mutable<LineView> = {
    subject: history.subject,
    version: history.version,
    happenings,
    disputes: disputes(happenings),
    patient: undefined,
    placed: undefined,
    said: {},
    outside: [],
    inside: undefined,
    tip: undefined,
    tipCorrected: undefined,
    released: undefined,
    owner: undefined,
    dressing: undefined,
    dressingState: undefined,
    connectorAt: undefined,
    flushedAt: undefined,
    needed: undefined,
    lastSeenAt: undefined,
    lastUsedAt: undefined,
    lastWrittenAt: history.events.at(-1)?.writtenAt,
    papers: [],
    end: undefined,
    missing: [],
  };
  const outside: Seen<number>[] = [];
  const papers: Happening[] = [];
  for (const happening of happenings) if (happening.voided === undefined) take(view, happening, outside, papers);
  view.outside = outside;
  view.papers = papers.map((paper) => readPaper(paper, happenings));
  if (view.placed) view.missing = missingFields(lineEvents.LineInserted, view.said);
  return view;
}

function take(view: Mutable<LineView>, happening: Happening, outside: Seen<number>[], papers: Happening[]): void {
  const { event, entry } = happening;
  const at = event.happenedAt;
  const seen = <Value>(value: Value | undefined): Seen<Value> | undefined =>
    value === undefined ? undefined : { value, at, event: event.id };
  const keepOutside = (value: number | undefined): void => {
    if (value !== undefined) outside.push({ value, at, event: event.id });
  };
  switch (event.type) {
    case "LineInserted":
    case "LineFound": {
      const said = entry as EntryOf<"LineInserted">;
      // the first to say it stands; a second is a dispute, not a replacement
      if (view.placed) break;
      view.placed = happening;
      view.said = said;
      view.patient = valueIn(said.patient);
      keepOutside(confirmedIn(said.outsideCm));
      view.inside = seen(confirmedIn(said.insideCm));
      view.lastSeenAt = at;
      break;
    }
    case "TipRead": {
      const said = entry as EntryOf<"TipRead">;
      view.tip = happening;
      view.tipCorrected = undefined;
      keepOutside(confirmedIn(said.outsideCm));
      view.inside = seen(confirmedIn(said.insideCm)) ?? view.inside;
      break;
    }
    case "TipCorrected": {
      const said = entry as EntryOf<"TipCorrected">;
      view.tipCorrected = happening;
      keepOutside(confirmedIn(said.outsideCm));
      view.inside = seen(confirmedIn(said.insideCm)) ?? view.inside;
      break;
    }
    case "LineReleased":
      view.released = happening;
      break;
    case "OwnerNamed": {
      const said = entry as EntryOf<"OwnerNamed">;
      view.owner = {
        owner: valueIn(said.owner) ?? "",
        place: valueIn(said.place) ?? "",
        setting: valueIn(said.setting),
        phone: valueIn(said.phone) ?? "",
        visitOrder: valueIn(said.visitOrder),
        nextOn: (valueIn(said.nextOn) ?? "") as CivilDate,
        since: at,
      };
      break;
    }
    case "CareGiven": {
      const said = entry as EntryOf<"CareGiven">;
      view.lastSeenAt = at;
      keepOutside(confirmedIn(said.outsideCm));
      const state = valueIn(said.dressingState);
      if (valueIn(said.dressingChanged) === true) {
        view.dressing = seen(valueIn(said.dressing) ?? view.dressing?.value ?? "transparent");
        view.dressingState = seen("dry and whole");
      } else if (state !== undefined) view.dressingState = seen(state);
      if (valueIn(said.connectorChanged) === true) view.connectorAt = at;
      if (valueIn(said.flushed) === true) view.flushedAt = at;
      view.needed = seen(valueIn(said.stillNeeded)) ?? view.needed;
      const nextOn = valueIn(said.nextOn);
      if (nextOn !== undefined && view.owner) view.owner = { ...view.owner, nextOn: nextOn as CivilDate };
      break;
    }
    case "LineUsed":
      view.lastUsedAt = at;
      break;
    case "LotAttached": {
      const said = entryOf(event, "LotAttached");
      view.said = { ...view.said, lotNumber: said.lotNumber, expiresOn: said.expiresOn } as EntryOf<"LineInserted">;
      break;
    }
    case "LineRemoved":
      view.end ??= { kind: "removed", happening, at };
      break;
    case "EndUnknown":
      // seen again after that: the end is no longer unknown
      view.end = {
        kind: "unknown",
        happening,
        at,
        lastSeenOn: valueIn((entry as EntryOf<"EndUnknown">).lastSeenOn) ?? "",
      };
      break;
    case "LineHandedOn":
      view.end ??= { kind: "handed on", happening, at };
      break;
    case "PaperIssued":
      papers.push(happening);
      break;
    default:
  }
  const seenAlive = event.type === "CareGiven" || event.type === "LineUsed" || event.type === "TipRead";
  if (view.end?.kind === "unknown" && seenAlive) view.end = undefined;
  if (event.type === "LineRemoved" && view.end?.kind === "unknown") view.end = { kind: "removed", happening, at };
}

function readPaper({ event, entry }: Happening, happenings: readonly Happening[]): Paper {
  const said = entry as EntryOf<"PaperIssued">;
  const changed = happenings.find(
    (other) =>
      (other.event.position > event.position && CHANGES_PAPER.has(other.event.type)) ||
      other.struck.some(({ at }) => after(at, event.writtenAt)) ||
      (other.voided !== undefined && after(other.voided.at, event.writtenAt)),
  );
  const paper = valueIn(said.paper) ?? "";
  const issue = valueIn(said.issue) ?? 0;
  // a newer issue of the same paper takes the older one's place
  const newer = happenings.some(
    (other) =>
      other.event.type === "PaperIssued" &&
      valueIn((other.entry as EntryOf<"PaperIssued">).paper) === paper &&
      (valueIn((other.entry as EntryOf<"PaperIssued">).issue) ?? 0) > issue,
  );
  return { paper, issue, at: event.happenedAt, outdatedBy: newer ? undefined : changed?.event.id };
}

/** Moments of two devices may carry two offsets: they are compared as moments. */
const after = (a: Instant, b: Instant): boolean => instantMs(a) > instantMs(b);

/** The outside length found last, whenever it was written. */
export const outsideNow = (view: LineView): Seen<number> | undefined => view.outside.at(-1);

/** The outside length when the tip was last read or corrected: what every later length is held against. */
export function outsideAtTip(view: LineView): Seen<number> | undefined {
  const fixed = view.tipCorrected ?? view.tip ?? view.placed;
  return fixed && [...view.outside].reverse().find(({ event }) => event === fixed.event.id);
}
