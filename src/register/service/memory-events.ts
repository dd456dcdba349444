import { choice, count, date, name, number, reference, text } from "../field/make-field.ts";

/** Beyond it the run length cannot be worked out at a doubling, and a false signal comes once in a million events. */
export const MOST_DECISION = 12;

/** Which lines a ward counts: what the record holds, or every central line, its own among them. */
export const WARD_COUNTS = ["lines of this service", "every central line"] as const;
/** A weekday comes four or five times in a month. */
const MOST_SAMPLED_DAYS = 5;
const MOST_DAYS = 100_000;

const signal = { measure: text("must"), signalOn: date("must"), base: reference("must") } as const;

/** What a service keeps of its own numbers: the base it is held against, its signals, its actions, its changes. */
export const memoryEvents = {
  /** Frozen: the base stands until a person sets another and says why. */
  WatchBaseSet: {
    measure: text("must"),
    baseFrom: date("must"),
    /** The first day after the base: the sum runs from here. */
    baseTo: date("must"),
    baseEvents: count(1, 100_000, "must"),
    baseLineDays: number("days", 0.01, 100_000_000, "must"),
    /** Agreed rate that stands in the place of an own base. */
    targetPerThousand: number("per 1,000 days", 0.001, 1000, "may"),
    decision: number("log likelihood ratio", 0.1, MOST_DECISION, "must"),
    ruleVersion: text("must"),
    by: name("must"),
    why: text("must"),
  },
  /** One signal is one measure, one day and one base: seen twice it is kept once. */
  SignalSeen: {
    ...signal,
    since: date("must"),
    events: count(1, 100_000, "must"),
    lineDays: number("days", 0, 100_000_000, "must"),
    expected: number("events", 0, 100_000, "must"),
    sum: number("log likelihood ratio", 0, 1000, "must"),
    baseEvents: count(1, 100_000, "must"),
    baseLineDays: number("days", 0.01, 100_000_000, "must"),
    decision: number("log likelihood ratio", 0.1, MOST_DECISION, "must"),
    ruleVersion: text("must"),
    /** The first day on which anybody noted it; of an older entry the day it was written. */
    firstSeenOn: date("may"),
    /** Of the days of the run as they were counted then: whether they are the same today can be told from it. */
    dataFingerprint: text("may"),
  },
  SignalLookedAt: {
    ...signal,
    by: name("must"),
    found: choice(["record fault", "who was treated", "practice", "nothing found"], "must"),
    words: text(),
    action: text("should"),
  },
  ActionAgreed: {
    /** The month whose meeting agreed on it, as 2026-04. */
    month: text("must"),
    action: text("must"),
    ownerRole: text("must"),
    dueOn: date("must"),
    measure: text("must"),
  },
  ActionOutcomeWritten: {
    month: text("must"),
    outcome: choice(["done", "not done", "given up"], "must"),
    words: text(),
  },
  PracticeChanged: {
    changedOn: date("must"),
    kindOfChange: choice(
      ["dressing", "connector", "device or lot", "flushing", "staff", "training", "who is treated", "other"],
      "must",
    ),
    words: text("must"),
  },
  /** What no line can tell: a ward's patients and those with a line, counted at one hour of each day or of one weekday. */
  WardMonthCounted: {
    ward: text("must"),
    /** As 2026-04. */
    month: text("must"),
    linesCounted: choice(WARD_COUNTS, "must"),
    patientDays: count(0, MOST_DAYS, "must"),
    dailyLineDays: count(0, MOST_DAYS, "may"),
    sampledDays: count(1, MOST_SAMPLED_DAYS, "may"),
    sampledWithLine: count(0, MOST_DAYS, "may"),
    sampledAll: count(0, MOST_DAYS, "may"),
    countedBy: name("may"),
  },
} as const;
