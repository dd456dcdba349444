import { readMeasures, type AuditRules, type Measure } from "../src/audit/index.ts";
import { countLimitsFrom, defaultPolicyTable, surveillanceDefinitions } from "../src/policy/index.ts";

/** What a count is held to where nobody has changed a row: the default limits and the first surveillance definition. */
export const limits = countLimitsFrom(defaultPolicyTable);
export const surveillance = surveillanceDefinitions[0] as (typeof surveillanceDefinitions)[number];
export const rules: AuditRules = { limits, surveillance };

/** The measures of the house; a fault in one is thrown. */
export const houseMeasures: readonly Measure[] = (() => {
  const reading = readMeasures();
  if (reading.kind === "faults") throw new Error(JSON.stringify(reading.faults));
  return reading.measures;
})();
