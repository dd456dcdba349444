import type { PatencyAnswers } from "../src/core/care/index.ts";
import { missing } from "../src/core/missing/index.ts";
import { kilogram } from "../src/core/quantity/index.ts";

const notKnown = missing("not known");

/** A line that gives no blood, with blood the likely cause and nothing else in its way. */
export const blockedLine: PatencyAnswers = {
  mechanical: {
    clamp: "no change",
    kink: "no change",
    dressing: "no change",
    connector: "no change",
    arm: "no change",
    cough: "no change",
  },
  outsideLength: "as at the last film",
  flushes: "freely",
  blood: "none",
  blockedSince: notKnown,
  cause: "blood",
  pain: false,
  earSound: false,
  film: notKnown,
  weightKg: kilogram(40),
  labelLumenMl: notKnown,
  lytic: [],
};
