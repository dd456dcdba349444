import type { Draft } from "../../contract/index.ts";
import { isMissing } from "../../core/missing/index.ts";
import type { PlanPolicy } from "../../core/line-plan/index.ts";
import { fromPlan, told, type Entry, type EntryOf } from "../../register/index.ts";
import { readPlan } from "../plan/plan-reading.ts";

/** What a plan already says of the line to be placed: every value marked "from the plan" until somebody confirms it. */
export interface PlannedLine {
  readonly agreed: EntryOf<"PlanAgreed">;
  readonly start: Entry;
  readonly name: string;
  readonly number: string;
}

export function plannedLine(draft: Draft, policy: PlanPolicy): PlannedLine {
  const { plan, input } = readPlan(draft, policy);
  const chosen = plan?.answer.chosen;
  const catheter = input?.shelf.find(({ id }) => id === chosen?.catheterId);
  const round = (value: number) => Math.round(value * 10) / 10;
  const inside = plan?.trim ? round(plan.trim.insideCm) : undefined;
  const outside = input && !isMissing(input.length.outsideCm) ? input.length.outsideCm : undefined;
  const arm = chosen && input?.arms[chosen.side].armLengthCm;
  const volumes = catheter && !isMissing(catheter.lumenVolumesMl) ? catheter.lumenVolumesMl : [];
  const volume = volumes[0];
  const known = {
    ...(chosen
      ? {
          arm: fromPlan(chosen.side),
          vein: fromPlan(chosen.vein),
          veinEntryCm: fromPlan(round(chosen.veinEntryCm)),
          skinExitCm: fromPlan(round(chosen.skinExitCm)),
          veinDiameterMm: fromPlan(round(chosen.diameterMm)),
          ...(chosen.tunnel ? { tunnelCm: fromPlan(round(chosen.tunnel.lengthMm / 10)) } : {}),
        }
      : {}),
    ...(arm !== undefined && !isMissing(arm) ? { armLengthCm: fromPlan(arm as number) } : {}),
    ...(catheter
      ? {
          catheter: fromPlan(catheter.name),
          french: fromPlan(catheter.nominalFrench as number),
          lumens: fromPlan(catheter.lumens),
        }
      : {}),
    ...(inside === undefined ? {} : { insideCm: fromPlan(inside) }),
    ...(outside === undefined ? {} : { outsideCm: fromPlan(outside as number) }),
  };
  return {
    agreed: known as EntryOf<"PlanAgreed">,
    start: {
      ...known,
      ...(volume === undefined ? {} : { lumenVolumeMl: told(volume as number) }),
    },
    name: draft["patient.name"]?.trim() ?? "",
    number: draft["patient.identifier"]?.trim() ?? "",
  };
}
