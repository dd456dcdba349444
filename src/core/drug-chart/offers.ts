import { isMissing, type Maybe } from "../missing/index.ts";
import type { Minute } from "../quantity/index.ts";
import type { DrugChart, Infusion } from "./chart.ts";
import type { LumenOffer, LumenProof } from "./lumen-answer.ts";
import { MINUTES_IN_DAY } from "./search/circle.ts";
import { searchLumens } from "./search/lumen-search.ts";
import { problemOf } from "./search/problem.ts";

/** An offer is a hint beside the answer, so a hard one is left open. */
const ROUNDS = 2;

/**
 * What would save a lumen without touching the rest of the chart: the infusion elsewhere (a short drug by a peripheral cannula,
 * or by mouth), or another drug in the gap of a cyclic bag. Each is computed on the whole chart, re-timed.
 *   N without one infusion is lumens - 1 or lumens, since its doses fit on one lumen of their own; and it is lumens for an
 *   infusion outside the set that proves the number
 * What the chart does not say is offered only where it would save a lumen, and then as something to ask.
 */
export function lumenOffers(
  chart: DrugChart,
  retimed: { readonly lumens: number; readonly proof?: LumenProof },
  effort: { readonly mayGoOn: () => boolean; readonly shortRunMin: Minute },
): readonly LumenOffer[] {
  const { lumens, proof } = retimed;
  return chart.infusions.flatMap((infusion, index) => {
    const mayHelp = !proof || proof.infusionIds.includes(infusion.id);
    const without = () => ({ ...chart, ...leftOut(chart, index) });
    const offers: LumenOffer[] = [];
    const offer = (kind: LumenOffer["kind"], known: boolean, then: DrugChart) => {
      const search = mayHelp
        ? searchLumens(problemOf(then, true), lumens - 1, { best: false, rounds: ROUNDS }, effort.mayGoOn)
        : { proven: true };
      const saves = "found" in search;
      if (!known && !saves) return;
      offers.push({
        kind,
        infusionId: infusion.id,
        known,
        lumens: lumens - Number(saves),
        settled: saves || search.proven,
      });
    };
    if (mayBe(infusion.peripheral) && isShort(infusion, effort.shortRunMin))
      offer("peripheral cannula", infusion.peripheral === true, without());
    if (infusion.content === "nutrition" && infusion.dedicated && hasGap(infusion))
      offer("gap in a cyclic bag", true, gapUsed(chart, index));
    if (infusion.content === "drug" && mayBe(infusion.oralForm))
      offer("oral switch", infusion.oralForm === true, without());
    return offers;
  });
}

const mayBe = (value: Maybe<boolean>): boolean => isMissing(value) || value;

const isShort = ({ timing }: Infusion, shortRunMin: Minute): boolean =>
  timing.kind !== "continuous" && timing.runMin <= shortRunMin;

const hasGap = ({ timing, flushBeforeMin, flushAfterMin }: Infusion): boolean =>
  timing.kind === "at clock times" &&
  timing.startsMin.length === 1 &&
  timing.runMin + flushBeforeMin + flushAfterMin < MINUTES_IN_DAY;

function leftOut(chart: DrugChart, index: number): Pick<DrugChart, "infusions" | "compatibility"> {
  const id = chart.infusions[index]?.id;
  return {
    infusions: chart.infusions.filter((_, at) => at !== index),
    compatibility: chart.compatibility.filter(({ first, second }) => first !== id && second !== id),
  };
}

/** The bag keeps its own time to itself, but its lumen is free in the gap. */
function gapUsed(chart: DrugChart, index: number): DrugChart {
  return {
    ...chart,
    infusions: chart.infusions.map((infusion, at) => (at === index ? { ...infusion, dedicated: false } : infusion)),
    compatibility: leftOut(chart, index).compatibility,
  };
}
