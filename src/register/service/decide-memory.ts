import type { Entry, Recorded } from "../field/index.ts";
import { confirmedIn } from "../field/index.ts";
import { canBeWatched, monthOf, signalKey, type ServiceMemory } from "./service-memory.ts";

/**
 * Why the service's own numbers do not take an entry.
 *   reason-missing         a base is changed only with a reason, and by a name
 *   base-incomplete        a base lacks its days, its events or its decision, its end comes before its start, or no sum can
 *                          run on it: more events than line-days, or a decision beyond what the run length is known for
 *   base-not-kept          a signal or a look names a base that nobody set for this measure
 *   signal-already-kept    the same measure, day and base is in the record
 *   signal-not-kept        a look at a signal that is not in the record
 *   month-unreadable       a month is four digits, a dash and two
 *   action-missing         an action lacks its words, its owner, its day or its measure
 *   action-not-agreed      an outcome of a month in which no action was agreed on
 *   words-missing          a change of practice has a day and a sentence
 */
export type MemoryRefusal =
  | "reason-missing"
  | "base-incomplete"
  | "base-not-kept"
  | "signal-already-kept"
  | "signal-not-kept"
  | "month-unreadable"
  | "action-missing"
  | "action-not-agreed"
  | "words-missing";

/**
 * Whether an entry may be written into the service's memory as it stands; undefined when it may. Other types of entry
 * about the service are not judged here. Example: the second keeping of one signal is "signal-already-kept".
 */
export function decideMemory(memory: ServiceMemory, type: string, entry: Entry): MemoryRefusal | undefined {
  const text = (name: string): string => {
    const value = confirmedIn(entry[name] as Recorded<unknown> | undefined);
    return typeof value === "string" ? value.trim() : "";
  };
  const number = (name: string): number => {
    const value = confirmedIn(entry[name] as Recorded<unknown> | undefined);
    return typeof value === "number" ? value : 0;
  };
  switch (type) {
    case "WatchBaseSet": {
      if (text("why") === "" || text("by") === "") return "reason-missing";
      const [baseEvents, baseLineDays, decision] = [number("baseEvents"), number("baseLineDays"), number("decision")];
      const numbers = baseEvents > 0 && canBeWatched({ baseEvents, baseLineDays, decision });
      const [from, to] = [text("baseFrom"), text("baseTo")];
      return numbers && text("measure") !== "" && from !== "" && from < to ? undefined : "base-incomplete";
    }
    case "SignalSeen":
    case "SignalLookedAt": {
      const [measure, on, base] = [text("measure"), text("signalOn"), text("base")];
      const held = memory.bases.find(({ id }) => id === base);
      if (held?.measure !== measure) return "base-not-kept";
      const kept = memory.signals.some((signal) => signalKey(signal) === signalKey({ measure, on, base }));
      if (type === "SignalSeen") return kept ? "signal-already-kept" : undefined;
      return kept ? undefined : "signal-not-kept";
    }
    case "ActionAgreed":
      if (monthOf(text("month")) === undefined) return "month-unreadable";
      return ["action", "ownerRole", "dueOn", "measure"].every((name) => text(name) !== "")
        ? undefined
        : "action-missing";
    case "ActionOutcomeWritten": {
      const month = monthOf(text("month"));
      if (month === undefined) return "month-unreadable";
      return memory.actions.some((action) => action.month === month) ? undefined : "action-not-agreed";
    }
    case "PracticeChanged":
      return text("changedOn") !== "" && text("words") !== "" ? undefined : "words-missing";
    default:
      return undefined;
  }
}
