import { lidocaineCeiling, type LidocaineCeiling } from "../anaesthetic/index.ts";
import { expectedLength, trimOf, type ExpectedLength, type Trim } from "../length/index.ts";
import { isMissing } from "../missing/index.ts";
import { day, millimetre, type Centimetre } from "../quantity/index.ts";
import { isAsk, isStop, type Finding } from "../reason/index.ts";
import { ageGroupOf, ageInDays, correctedDays } from "../age/index.ts";
import type { PlanAnswer } from "./plan-answer.ts";
import type { PlanInput } from "./plan-input.ts";
import { planLine } from "./plan-line.ts";
import type { PlanPolicy } from "./plan-policy.ts";

/** Everything one bedside needs from one entry: the place, the length and trim, and the anaesthetic's ceiling. */
export interface BedsidePlan {
  /** The entry as it was planned: catheters too short for their own trim are off its shelf. */
  readonly planned: PlanInput;
  readonly answer: PlanAnswer;
  readonly length: ExpectedLength | undefined;
  /** Undefined while the lengths disagree, are missing, or nobody has said how much stays outside. */
  readonly trim: Trim | undefined;
  readonly ceiling: LidocaineCeiling;
  /** 0 answered, 2 a question is open, 3 a stop stands: the exit codes of the command line. */
  readonly standing: 0 | 2 | 3;
}

/**
 * Plans the line, its length and its trim. A catheter that turns out shorter than its own trim is taken off the shelf
 * and the plan made again, so the answer never asks for more catheter than there is.
 */
export function bedsidePlan(input: PlanInput, policy: PlanPolicy): BedsidePlan {
  let shelf = input.shelf;
  const tooShort: string[] = [];
  for (;;) {
    const planned = { ...input, shelf };
    const plan = { planned, ...planOnce(planned, policy) };
    const chosen = shelf.find(({ id }) => id === plan.answer.chosen?.catheterId);
    const needed = plan.trim?.totalCm ?? leastInside(plan);
    if (chosen && needed !== undefined && chosen.lengthCm < needed) {
      const short = shelf.filter(({ lengthCm }) => lengthCm < needed);
      tooShort.push(...short.map(({ name }) => name));
      shelf = shelf.filter(({ lengthCm }) => lengthCm >= needed);
      continue;
    }
    if (tooShort.length === 0) return plan;
    const finding: Finding = {
      code: "catheter-too-short",
      verdict: "not met",
      level: "note",
      values: { catheters: tooShort },
      policy: [],
    };
    return { ...plan, answer: { ...plan.answer, findings: [...plan.answer.findings, finding] } };
  }
}

/** A size chosen while no length is known could be opened and found too short: the catheter's own length is asked about. */
function lengthWith(
  measured: ExpectedLength | undefined,
  lengthCm: Centimetre | undefined,
): ExpectedLength | undefined {
  if (!measured || lengthCm === undefined || measured.ways.length > 0) return measured;
  const finding: Finding = {
    code: "catheter-length-unchecked",
    verdict: "not known",
    level: "ask",
    values: { lengthCm },
    policy: [],
    path: "length",
  };
  return { ...measured, findings: [...measured.findings, finding] };
}

/** Even where the lengths disagree, the line cannot be shorter than the shortest of them and the needle track. */
function leastInside(plan: Pick<BedsidePlan, "answer" | "length">): number | undefined {
  const ways = plan.length?.ways.filter(({ use }) => use === "length") ?? [];
  if (ways.length === 0 || !plan.answer.chosen) return undefined;
  const { trackMm, tunnel } = plan.answer.chosen;
  return Math.min(...ways.map((way) => way.fromVeinEntryCm)) + (trackMm + (tunnel?.lengthMm ?? 0)) / 10;
}

function planOnce(input: PlanInput, policy: PlanPolicy): Omit<BedsidePlan, "planned"> {
  const answer = planLine(input, policy);
  const group = ageGroupOf(input.patient, policy);
  const { age, weightKg, heightCm } = input.patient;
  const ageDays = isMissing(age) ? age : day(correctedDays(input.patient) ?? ageInDays(age));
  const ceiling = lidocaineCeiling({ group, ageDays, weightKg, ...input.anaesthetic }, policy.lidocaine);
  const { chosen } = answer;
  const measured = chosen
    ? expectedLength(
        input.length,
        chosen,
        { group, heightCm: isMissing(heightCm) ? undefined : heightCm },
        {
          agreeWithinCm: group === "adult" ? policy.lengthsAgreeWithinCm.adult : policy.lengthsAgreeWithinCm.child,
          carinaToJunctionCm: policy.carinaToJunctionCm,
        },
      )
    : undefined;
  const outside = input.length.outsideCm;
  const trim =
    chosen && measured?.fromVeinEntryCm !== undefined && !isMissing(outside)
      ? trimOf({
          fromVeinEntryCm: measured.fromVeinEntryCm,
          trackMm: chosen.trackMm,
          tunnelMm: chosen.tunnel?.lengthMm ?? millimetre(0),
          outsideCm: outside,
        })
      : undefined;
  const length = lengthWith(measured, chosen && input.shelf.find(({ id }) => id === chosen.catheterId)?.lengthCm);
  const refused = answer.outcome === "refused" || (length?.findings.some(isStop) ?? false);
  const asks = answer.outcome === "ask" || (length?.findings.some(isAsk) ?? false);
  return { answer, length, trim, ceiling, standing: refused ? 3 : asks ? 2 : 0 };
}
