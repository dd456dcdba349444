import { expect, test } from "vitest";
import { instantMs, type Instant } from "../../core/calendar/index.ts";
import { practiceUpTo } from "./rehearsal.ts";

test.each(["00:00:01", "07:19:59", "07:40:00", "23:59:59"])(
  "at %s nothing of the practice service lies ahead",
  (clock) => {
    const now = `2026-11-26T${clock}+01:00` as Instant;
    const events = practiceUpTo(now);
    expect(events.length).toBeGreaterThan(50);
    const latest = Math.max(...events.flatMap(({ happenedAt, writtenAt }) => [happenedAt, writtenAt].map(instantMs)));
    expect(latest).toBeLessThanOrEqual(instantMs(now));
    expect(instantMs(now) - latest).toBeLessThan(25 * 3_600_000);
  },
);
