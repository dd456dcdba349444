import { lineRowsFromRegister, type AuditRules, type AuditTable, type Period } from "../../audit/index.ts";
import { ruleInForce } from "../../core/dwell/index.ts";
import {
  countLimitsFrom,
  cultureLimitsFrom,
  surveillanceDefinitions,
  type CountLimits,
  type LocalPolicy,
} from "../../policy/index.ts";
import { countWords } from "../../language/index.ts";
import { lineRulesFrom } from "../../paper/line/index.ts";
import type { Register } from "../register/register.ts";
import { lineOf, patientOf, referralOf } from "../record/record-context.tsx";

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
 * every draw. A line keeps its own identifier, so that its page can be opened.
 */
export function sourceOfRecord(
  { histories, now }: Pick<Register, "histories" | "now">,
  policy: LocalPolicy,
): CountSource {
  const known = KEPT.get(histories);
  if (known?.policy === policy) return known.source;
  const all = [...histories.values()];
  const of = (kind: string) => all.filter(({ subject }) => subject.startsWith(`${kind}:`));
  const table = lineRowsFromRegister(
    {
      lines: of("line").map(lineOf),
      referrals: of("referral").map(referralOf),
      patients: new Map(of("patient").map((history) => [history.subject, patientOf(history)])),
      rules: lineRulesFrom(policy),
      cultures: cultureLimitsFrom(policy.table),
      keyOf: (_, name) => name.slice(name.indexOf(":") + 1),
    },
    now(),
  );
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
