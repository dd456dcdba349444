import type { BedsidePlan, PlanInput } from "../core/line-plan/index.ts";
import { isMissing } from "../core/missing/index.ts";
import type { Finding } from "../core/reason/index.ts";
import { armStripFromPlan, bodyOutline, GREY_INK, paperStrip, veinSection } from "../figure/index.ts";
import {
  answerSentence,
  ceilingSentence,
  cutSentence,
  armWords,
  flipSentence,
  needleSentence,
  notConsideredSentence,
  offerSentence,
  safetyStatement,
  sayFinding,
  timeOutLines,
  whatIfItFails,
} from "../language/index.ts";
import { planPolicyFrom, type LocalPolicy } from "../policy/index.ts";
import type { Flip } from "../core/line-plan/index.ts";

/** What stands on the bedside plan, in the order it stands there. Plain words and drawings: the printer adds only type. */
export interface PlanSheet {
  readonly who: string;
  readonly arm: string;
  readonly headline: string;
  readonly under: string;
  readonly strip: Drawing | undefined;
  readonly section: Drawing | undefined;
  readonly body: Drawing | undefined;
  readonly stops: readonly string[];
  readonly asks: readonly string[];
  readonly why: readonly string[];
  readonly notes: readonly string[];
  readonly changes: readonly string[];
  readonly offers: readonly string[];
  readonly notConsidered: readonly string[];
  readonly timeOut: readonly string[];
  readonly ifItFails: readonly string[];
  readonly paperStrips: readonly Drawing[];
  readonly paperStripNote: string;
  readonly foot: string;
}

export interface Drawing {
  readonly svg: string;
  readonly alt: string;
}

/** Grey, in the one face the printer brings with it. */
const PAPER_INK = { ...GREY_INK, serif: "Libertinus Serif", plain: "Libertinus Serif" };

export function planSheet(
  input: PlanInput,
  plan: BedsidePlan,
  flips: readonly Flip[],
  context: { readonly policy: LocalPolicy; readonly printedAt: string; readonly practice: boolean },
): PlanSheet {
  const { answer, trim, ceiling } = plan;
  const { chosen } = answer;
  const { name, identifier } = input.patient;
  const findings = [
    ...answer.findings,
    ...(chosen?.findings ?? []),
    ...(plan.length?.findings ?? []),
    ...ceiling.findings,
  ];
  const said = (keep: (finding: Finding) => boolean) => [...new Set(findings.filter(keep).map(sayFinding))];
  const length = chosen ? input.arms[chosen.side].armLengthCm : undefined;
  const armLengthCm = length === undefined || isMissing(length) ? undefined : length;
  const catheter = input.shelf.find(({ id }) => id === chosen?.catheterId)?.name ?? "";
  const strip = chosen
    ? armStripFromPlan(input, answer, planPolicyFrom(context.policy.table), {
        id: "sheet",
        width: 620,
        ink: PAPER_INK,
        depthRoom: 110,
      })
    : undefined;
  const section = chosen
    ? veinSection({
        id: "cut",
        diameterMm: chosen.diameterMm,
        sdMm: chosen.diameterSdMm,
        chosenId: chosen.catheterId,
        shelf: answer.shelf,
        catheters: input.shelf,
        atCm: chosen.veinEntryCm,
      })
    : undefined;
  const body = chosen ? bodyOutline(chosen.side, armWords(chosen.side)) : undefined;
  const paper =
    chosen && armLengthCm !== undefined
      ? paperStrip({ id: "paper", armLengthCm, armWords: armWords(chosen.side), chosen })
      : undefined;
  const stopped = plan.standing === 3;
  const parts = chosen
    ? [needleSentence(chosen), stopped ? "" : cutSentence(trim), ceilingSentence(ceiling, input.anaesthetic) ?? ""]
    : [];
  return {
    who: `${isMissing(name) ? "name missing" : name}, no. ${isMissing(identifier) ? "missing" : identifier}`,
    arm: chosen ? armWords(chosen.side) : "NO ARM CHOSEN",
    headline: answerSentence(answer, input.shelf, stopped),
    under: parts.filter((part) => part !== "").join(" "),
    strip: strip && { svg: strip.svg, alt: strip.sentence },
    section: section && { svg: section.svg, alt: section.sentence },
    body: body && { svg: body.svg, alt: body.sentence },
    stops: said(({ level }) => level === "stop"),
    asks: said(({ level }) => level === "ask"),
    why: said(({ level, verdict }) => level === undefined && verdict === "met"),
    notes: said(({ level }) => level === "note"),
    changes: flips.map((flip) => flipSentence(flip, input)).filter((line): line is string => line !== undefined),
    offers: answer.offers.map(offerSentence),
    notConsidered: answer.notConsidered.map(notConsideredSentence),
    timeOut:
      chosen && !isMissing(name) && !isMissing(identifier) ? timeOutLines(chosen, { name, identifier }, catheter) : [],
    ifItFails: chosen ? whatIfItFails : [],
    paperStrips: paper
      ? (paper.svg.match(/<svg[\s\S]*?<\/svg>/g) ?? []).map((svg) => ({ svg, alt: paper.sentence }))
      : [],
    paperStripNote: paper?.sentence ?? "",
    foot: `${context.practice ? "PRACTICE PATIENT, INVENTED. " : ""}Policy ${context.policy.version}. Printed ${context.printedAt}. Copy: check the screen for a newer one. ${safetyStatement}`,
  };
}
