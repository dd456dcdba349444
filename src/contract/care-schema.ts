import * as z from "zod/mini";
import {
  BLOOD_RETURNS,
  CAUSES,
  CONNECTOR_REASONS,
  DRESSINGS,
  DRESSING_STATES,
  FILMS,
  FLUSHINGS,
  HANDOVERS,
  OUTSIDE_LENGTHS,
  SET_KINDS,
  SETTINGS,
  STEP_RESULTS,
} from "../core/care/index.ts";
import { TIP_METHODS } from "../core/complication/index.ts";
import { between, civilDate, flag, maybe, text } from "./form.ts";

/** A moment with the offset of the clock that showed it; that it exists is checked across the file. */
const moment = z.string().check(z.maxLength(40));

const line = z.strictObject({
  name: text,
  setting: z.enum(SETTINGS),
  person: maybe(text),
  place: maybe(text),
  nextOn: maybe(civilDate),
  dressing: maybe(
    z.strictObject({
      type: z.enum(DRESSINGS),
      doneAt: moment,
      state: maybe(z.enum(DRESSING_STATES)),
      stateSeenAt: z.optional(moment),
    }),
  ),
  connector: maybe(
    z.strictObject({
      changedAt: moment,
      reason: maybe(z.enum(CONNECTOR_REASONS)),
      reasonSeenAt: z.optional(moment),
    }),
  ),
  /** The later of the last flush and the last use. */
  flushedAt: maybe(moment),
  sets: z.optional(z.array(z.strictObject({ kind: z.enum(SET_KINDS), startedAt: moment })).check(z.maxLength(10))),
  reviewedAt: maybe(moment),
  /** Set when the patient is about to leave: the next care must then have a person, a place and a date. */
  leaving: z.optional(z.enum(HANDOVERS)),
});

/** DUE.json: the last care of lines, and when it is asked. */
export const dueFile = z.strictObject({
  asOf: moment,
  lines: z.array(line).check(z.maxLength(5000)),
  /** Days off, for the list made before them. */
  holidays: z.optional(z.array(civilDate).check(z.maxLength(60))),
  /** The Friday list in place of each line's own. */
  weekend: z.optional(flag),
});

const stepResult = z.optional(z.enum(STEP_RESULTS));

/** PATENCY.json: what has been answered about one blocked lumen, and when it is asked. */
export const patencyFile = z.strictObject({
  asOf: moment,
  mechanical: z.optional(
    z.strictObject({
      clamp: stepResult,
      kink: stepResult,
      dressing: stepResult,
      connector: stepResult,
      arm: stepResult,
      cough: stepResult,
    }),
  ),
  outsideLength: maybe(z.enum(OUTSIDE_LENGTHS)),
  flushes: maybe(z.enum(FLUSHINGS)),
  blood: maybe(z.enum(BLOOD_RETURNS)),
  blockedSince: maybe(moment),
  cause: maybe(z.enum(CAUSES)),
  pain: maybe(flag),
  earSound: maybe(flag),
  film: maybe(z.enum(FILMS)),
  weightKg: maybe(between(0.3, 300)),
  /** From the label; never from the French size. */
  labelLumenMl: maybe(between(0.01, 10)),
  lytic: z.optional(
    z
      .array(z.strictObject({ at: moment, bloodAtFirstCheck: maybe(flag), bloodAtSecondCheck: maybe(flag) }))
      .check(z.maxLength(4)),
  ),
  /** Somebody asks for lytic now: answered with what stands before it. */
  wantsLytic: z.optional(flag),
});

const bottle = z.strictObject({
  id: text,
  /** "peripheral", or "lumen" with its name. */
  site: z.enum(["peripheral", "lumen"]),
  lumen: z.optional(text),
  medium: maybe(z.enum(["aerobic", "anaerobic"])),
  drawnAt: maybe(moment),
  loadedAt: maybe(moment),
  /** "none" when incubation ended without growth. */
  flaggedAt: maybe(moment),
  organism: maybe(text),
  volumeMl: maybe(between(0.1, 40)),
});

const count = between(0, 1_000_000_000);

/** CULTURE.json: the bottles of one episode, and the counts where they were made. */
export const cultureFile = z.strictObject({
  bottles: z.array(bottle).check(z.maxLength(40)),
  antibioticBefore: maybe(flag),
  quantitative: z.optional(
    z.strictObject({
      lineCfuPerMl: maybe(count),
      otherCfuPerMl: maybe(count),
      other: z.enum(["peripheral", "second lumen"]),
    }),
  ),
  tip: z.optional(z.strictObject({ method: z.enum(TIP_METHODS), cfu: maybe(count) })),
});

export type DueFile = z.infer<typeof dueFile>;
export type PatencyFile = z.infer<typeof patencyFile>;
export type CultureFile = z.infer<typeof cultureFile>;

export const careJsonSchemas: Readonly<Record<"due" | "patency" | "culture", () => unknown>> = {
  due: () => z.toJSONSchema(dueFile),
  patency: () => z.toJSONSchema(patencyFile),
  culture: () => z.toJSONSchema(cultureFile),
};
