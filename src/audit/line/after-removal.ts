import type { SurveillanceRule } from "../../core/dwell/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import type { RowEventKind } from "./line-row.ts";

/**
 * How many days after its removal an event still belongs to a line. Counting and the reader of spreadsheets both ask here,
 * so that nothing is asked about that counts, and nothing left out that was not asked about.
 *   infection: as the surveillance rule has it; thrombosis: `clotDaysAfter`; all else: 0
 * Units: whole local days. Holds: any kind. Source: CDC/NHSN, Patient Safety Component Manual, ch. 4 (day after removal);
 * the rest common practice, no source. Example: a clot on day 7 after removal belongs to the line, an infection does not.
 */
export const daysAfterRemoval = (
  kind: RowEventKind,
  limits: Pick<CountLimits, "clotDaysAfter">,
  rule: Pick<SurveillanceRule, "daysAfterRemoval">,
): number => (kind === "infection" ? rule.daysAfterRemoval : kind === "thrombosis" ? limits.clotDaysAfter : 0);
