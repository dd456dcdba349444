import { civilDateOf, dayNumber, type CivilDate } from "../../core/calendar/index.ts";
import { valueIn } from "../field/index.ts";
import { standing, type Happening } from "../fold/index.ts";
import { concludes, type LineView } from "../line/index.ts";
import type { ReferralView } from "../referral/index.ts";

/** A line and the entry that puts it on a list. */
export interface ReviewRow {
  readonly line: LineView;
  readonly happening: Happening;
}

export interface Reviews {
  /** An infection was suspected and nobody has written how it ended: whom to ask for the bottles and the verdict. */
  readonly openInfections: readonly ReviewRow[];
  /** A stop was passed by two people, or a side settled by two, in the days looked at: read together each month. */
  readonly passedStops: readonly ReviewRow[];
  /** Referrals of people whose kidneys are known to be failing: their arm veins are to be kept. */
  readonly kidneys: readonly ReferralView[];
}

/** What is read together rather than done alone; the limit under which a kidney counts comes from the local policy. */
export function reviews(
  lines: readonly LineView[],
  referrals: readonly ReferralView[],
  today: CivilDate,
  { backDays, keepVeinsBelow }: { readonly backDays: number; readonly keepVeinsBelow: number },
): Reviews {
  const first = dayNumber(today) - backDays;
  return {
    openInfections: lines.flatMap((line) => {
      const open = openInfection(standing(line.happenings));
      return open ? [{ line, happening: open }] : [];
    }),
    passedStops: lines.flatMap((line) =>
      standing(line.happenings)
        .filter(({ event }) => event.type === "StopOverridden" || event.type === "SideSettled")
        .filter(({ event }) => dayNumber(civilDateOf(event.happenedAt)) >= first)
        .map((happening) => ({ line, happening })),
    ),
    kidneys: referrals.filter(({ said }) => {
      const eGfr = valueIn(said.eGfr);
      const failing = eGfr !== undefined && eGfr < keepVeinsBelow;
      return valueIn(said.onDialysis) === true || valueIn(said.diagnosisGroup) === "kidney disease" || failing;
    }),
  };
}

/** The last suspicion that no later conclusion closed. */
function openInfection(happenings: readonly Happening[]): Happening | undefined {
  let open: Happening | undefined;
  for (const happening of happenings) {
    if (happening.event.type === "InfectionSuspected") open = happening;
    if (concludes(happening)) open = undefined;
  }
  return open;
}
