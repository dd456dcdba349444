import { instantMs, offsetMinutesOf, type Instant } from "../../core/calendar/index.ts";
import type { Moment } from "../../core/dwell/index.ts";
import { minute } from "../../core/quantity/index.ts";

/** An instant of the record as a moment of a stay: to the minute, with the offset of the clock that showed it. */
export const momentOfInstant = (at: Instant): Moment => ({
  precision: "minute",
  utc: minute(Math.floor(instantMs(at) / 60_000)),
  offset: minute(offsetMinutesOf(at)),
});
