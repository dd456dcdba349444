import { noteSignals, readMeasures } from "../../audit/index.ts";
import { civilDateOf, type Instant } from "../../core/calendar/index.ts";
import { ruleInForce } from "../../core/dwell/index.ts";
import { lineRulesFrom } from "../../paper/line/index.ts";
import { countLimitsFrom, cultureLimitsFrom, defaultPolicy, surveillanceDefinitions } from "../../policy/index.ts";
import type { EventStore } from "../../register/index.ts";
import { lookHourly, type HourlyLook } from "./hourly-look.ts";

/**
 * Notes the day's new signals by itself: looks now and every hour whether today's look was made. A look that fails is
 * made again in the next hour; one made twice writes nothing twice. Days are those of the clock in UTC.
 */
export function keepSignals(
  store: EventStore,
  now: () => Date,
  newId: () => string,
  log: (line: string) => void,
): HourlyLook {
  let doneOn = "";
  const look = async (): Promise<void> => {
    const at = `${now().toISOString().slice(0, 16)}+00:00` as Instant;
    const today = civilDateOf(at);
    if (doneOn === today) return;
    try {
      const read = readMeasures();
      const surveillance = ruleInForce<(typeof surveillanceDefinitions)[number]>(surveillanceDefinitions, today);
      if (read.kind === "faults" || !surveillance) throw new Error("no measures or no definition of this day");
      const noted = await noteSignals(
        store,
        read.measures,
        {
          limits: countLimitsFrom(defaultPolicy.table),
          surveillance,
          fold: { rules: lineRulesFrom(defaultPolicy), cultures: cultureLimitsFrom(defaultPolicy.table) },
          policyVersion: defaultPolicy.version,
        },
        { now: at, newId, device: "server" },
      );
      doneOn = today;
      // counts only: which measure and when stands in the record
      if (noted.length > 0) log(JSON.stringify({ signalsNoted: noted.length }));
    } catch (error) {
      log(JSON.stringify({ signals: error instanceof Error ? error.name : "unknown" }));
    }
  };
  return lookHourly(look);
}
