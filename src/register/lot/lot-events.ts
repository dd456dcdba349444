import { choice, count, date, name, number, text } from "../field/make-field.ts";

/** What can happen to a box of catheters. */
export const lotEvents = {
  LotReceived: {
    catheter: text("must"),
    lotNumber: text("must"),
    french: number("Fr", 1, 9, "must"),
    lumens: count(1, 4, "must"),
    expiresOn: date("must"),
    count: count(1, 10_000, "must"),
    how: choice(["scanned", "typed twice"], "must"),
  },
  LotRecalled: { why: text("must"), orderedBy: name("must") },
  LotDiscarded: { count: count(1, 10_000, "must"), why: text("must") },
} as const;
