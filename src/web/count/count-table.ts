import type { AuditRules, AuditTable, Period } from "../../audit/index.ts";
import { ruleInForce } from "../../core/dwell/index.ts";
import { countLimitsFrom, surveillanceDefinitions, type CountLimits, type LocalPolicy } from "../../policy/index.ts";
import { countWords } from "../../language/index.ts";
import type { Register } from "../register/register.ts";
import { recordTable } from "./record-rows.ts";

/** Where the rows come from: this device's record, or a file a person opened. */
export interface CountSource {
  readonly kind: "record" | "file";
  readonly name: string;
  readonly table: AuditTable;
}

interface Kept {
  readonly policy: LocalPolicy;
  readonly source: CountSource;
}
const KEPT = new WeakMap<Register["histories"], Kept>();

/**
 * The line table of the record on this device, as of the last thing written: a clock that runs on would count anew at
 * every draw.
 */
export function sourceOfRecord(
  { histories, now, rehearsing }: Pick<Register, "histories" | "now" | "rehearsing">,
  policy: LocalPolicy,
): CountSource {
  const known = KEPT.get(histories);
  if (known?.policy === policy) return known.source;
  const table = recordTable(histories, policy, now(), rehearsing);
  const source: CountSource = { kind: "record", name: countWords.record, table };
  KEPT.set(histories, { policy, source });
  return source;
}

const LIMITS = new WeakMap<LocalPolicy["table"], CountLimits>();

/** The limits of a policy, one object for one policy: what was worked out under it is found again. */
export function limitsOf({ table }: LocalPolicy): CountLimits {
  const known = LIMITS.get(table) ?? countLimitsFrom(table);
  LIMITS.set(table, known);
  return known;
}

/** The rules a period is counted by; undefined where no definition of that time is kept. */
export function rulesFor(policy: LocalPolicy, { from }: Pick<Period, "from">): AuditRules | undefined {
  const surveillance = ruleInForce(surveillanceDefinitions, from);
  return surveillance && { limits: limitsOf(policy), surveillance };
}
