import type { EventType } from "../catalogue.ts";
import { isAboutAnEvent } from "../catalogue.ts";
import type { StoredEvent } from "../event/index.ts";
import type { Entry } from "../field/index.ts";
import { readHistory, type History } from "../fold/index.ts";
import { decideLine, lineView, type LineRefusal } from "../line/index.ts";

/** A decision somebody made without knowing what another device had already written. */
export interface UnseenDecision {
  readonly decision: StoredEvent;
  /** What the person who decided had not seen, in store order. */
  readonly unseen: readonly StoredEvent[];
  /** Why it would not be written today; undefined when it could be, and still has to be looked at. */
  readonly refusal: LineRefusal | undefined;
}

/** Choices of a person that rest on what was known; everything else is a fact and stands whatever came between. */
const DECISIONS = new Set<string>([
  "LineReleased",
  "SideSettled",
  "StopOverridden",
  "OwnerNamed",
  "ReferralDecided",
  "PlanAgreed",
] satisfies EventType[]);

/** Says nothing about the line or the person: it cannot undo a decision. */
const SAYS_NOTHING = new Set<string>(["PaperIssued", "LineUsed"] satisfies EventType[]);

/**
 * Decisions to be made again: each rests on a history in which events of another device were missing. The decision is
 * kept as it was written. A later decision of the same kind by someone who had seen them, or a void, settles it.
 */
export function unseenDecisions(history: History): readonly UnseenDecision[] {
  const events = [...history.events].sort((a, b) => a.version - b.version);
  const marked = events
    .filter(({ type }) => DECISIONS.has(type))
    .map((decision) => ({ decision, unseen: unseenBy(decision, events) }));
  const open = marked.filter(({ unseen }) => unseen.length > 0);
  if (open.length === 0) return [];
  const voided = new Set(
    readHistory(history)
      .filter((happening) => happening.voided !== undefined)
      .map(({ event }) => event.id),
  );
  return open.flatMap(({ decision, unseen }): readonly UnseenDecision[] => {
    const standing = unseen.filter(({ id }) => !voided.has(id));
    const last = standing.at(-1);
    if (last === undefined || voided.has(decision.id)) return [];
    const again = events.some(
      (later) =>
        later.type === decision.type &&
        later.version > decision.version &&
        !voided.has(later.id) &&
        (later.seen >= last.version || (later.device === last.device && later.version > last.version)),
    );
    return again ? [] : [{ decision, unseen: standing, refusal: refusalNow(history, decision) }];
  });
}

const unseenBy = (decision: StoredEvent, events: readonly StoredEvent[]): readonly StoredEvent[] =>
  events.filter(
    ({ version, device, type }) =>
      version > decision.seen && version < decision.version && device !== decision.device && !SAYS_NOTHING.has(type),
  );

/** The rule asked again over everything that stands before the decision today. */
function refusalNow(history: History, decision: StoredEvent): LineRefusal | undefined {
  if (!decision.subject.startsWith("line:") || isAboutAnEvent(decision.type)) return undefined;
  const before = history.events.filter(({ version }) => version < decision.version);
  const view = lineView({ subject: history.subject, version: decision.version - 1, events: before });
  // what differs, and what a tip has against it, is shown on the line at every look; here only what was not seen is asked
  const known = { sidesAgree: true, stop: undefined, overrideRoles: [decision.author.role] };
  const answer = decideLine(view, decision.type as EventType, decision.data as unknown as Entry, decision, known);
  return answer.kind === "refused" ? answer.code : undefined;
}
