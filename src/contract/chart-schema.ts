import * as z from "zod/mini";
import { COMPATIBILITIES, CONTENTS } from "../core/drug-chart/index.ts";
import { between, flag, maybe, text } from "./form.ts";

const minutes = between(0, 1440);

const infusion = z.strictObject({
  name: text,
  /** "06:00 18:00", "every 8 h from 06:00" or "continuous". */
  times: text,
  runMinutes: z.optional(minutes),
  flushBeforeMinutes: z.optional(between(0, 240)),
  flushAfterMinutes: z.optional(between(0, 240)),
  /** How far each dose may move, either way; nutrition never moves. */
  moveMinutes: z.optional(between(0, 720)),
  rateMlPerHour: maybe(between(0.1, 5000)),
  content: z.optional(z.enum(CONTENTS)),
  /** Its lumen carries nothing else on the days it runs; assumed of all but drugs. */
  dedicated: z.optional(flag),
  /** Days of the week's chart, 0 the first; all when absent. */
  daysActive: z.optional(z.array(between(0, 6)).check(z.maxLength(7))),
  peripheral: maybe(flag),
  oralForm: maybe(flag),
});

/** CHART.json: a timed drug chart, one day that repeats or a week. */
export const chartFile = z.strictObject({
  /** 1 or 7. */
  days: z.optional(between(1, 7)),
  stepMinutes: z.optional(between(1, 120)),
  lumenFlowMlPerHour: maybe(between(1, 10_000)),
  infusions: z.array(infusion).check(z.maxLength(60)),
  /** Pairs by name; a pair that is not listed is unknown, and unknown never shares. */
  together: z.optional(z.array(z.tuple([text, text, z.enum(COMPATIBILITIES)])).check(z.maxLength(800))),
});

export type ChartFile = z.infer<typeof chartFile>;

/** The JSON Schema of CHART.json, for `schema lumens` and the reference page. */
export const chartJsonSchema = (): unknown => z.toJSONSchema(chartFile);
