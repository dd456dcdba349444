import { HOW_KNOWN, type PolicyRow } from "../core/reason/index.ts";
import { parseCivilDate } from "../core/calendar/index.ts";
import { defaultPolicyTable, type PolicyKey } from "./policy-table.ts";

/** Whether something read from outside may stand in the table: a row of this release, with a value it can hold and its owner. */
export function rowFits(key: string, row: unknown): row is PolicyRow {
  if (!Object.hasOwn(defaultPolicyTable, key) || typeof row !== "object" || row === null) return false;
  const now: PolicyRow = defaultPolicyTable[key as PolicyKey];
  const { value, howKnown, owner, date } = row as Record<string, unknown>;
  const owned =
    typeof owner === "string" && owner.trim() !== "" && typeof date === "string" && parseCivilDate(date) !== undefined;
  return owned && HOW_KNOWN.some((one) => one === howKnown) && valueFits(value, now);
}

function valueFits(value: unknown, now: PolicyRow): boolean {
  const [least, most] = now.range ?? [-Infinity, Infinity];
  const inRange = (one: unknown) => typeof one === "number" && Number.isFinite(one) && one >= least && one <= most;
  if (typeof now.value === "number") return inRange(value);
  if (!Array.isArray(now.value))
    return typeof value === typeof now.value && (typeof value !== "string" || isStrength(value, now));
  if (!Array.isArray(value) || value.length === 0) return false;
  // a list of words is an order: the same words, in another order
  if (typeof now.value[0] === "string") {
    const words = (list: readonly unknown[]) =>
      list
        .map(String)
        .sort((a, b) => (a < b ? -1 : 1))
        .join();
    return words(value) === words(now.value);
  }
  return value.every(inRange);
}

/** The only single words in the table are how heavily a reason weighs. */
const isStrength = (value: string, now: PolicyRow): boolean =>
  now.value !== "bar" && now.value !== "strong" && now.value !== "weak"
    ? true
    : ["bar", "strong", "weak"].includes(value);
