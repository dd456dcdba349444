import { SIDES, type Side } from "../core/arm/index.ts";
import { parseCivilDate } from "../core/calendar/index.ts";
import type { Fault } from "./fault.ts";
import { ageFaults } from "./age-fault.ts";
import { hiddenSigns } from "./hidden-sign.ts";
import type { PlanCase } from "./plan-schema.ts";

/** Faults that no single field shows: two units, one place measured twice, one name for two things. */
export function acrossFields(data: PlanCase): readonly Fault[] {
  return [
    ...patientFaults(data),
    ...SIDES.flatMap((side) => armFaults(data, side)),
    ...shelfFaults(data),
    ...hiddenSigns(data, ""),
  ];
}

function patientFaults({ patient }: PlanCase): Fault[] {
  const faults: Fault[] = [];
  if (patient.weightKg !== undefined && patient.weightLb !== undefined) {
    faults.push({
      path: "patient.weightLb",
      code: "both-units",
      found: "kilograms and pounds",
      rule: "weight in one unit only",
    });
  }
  if (typeof patient.bornOn === "string" && parseCivilDate(patient.bornOn) === undefined) {
    faults.push({ path: "patient.bornOn", code: "no-such-date", found: patient.bornOn, rule: "a day of the calendar" });
  }
  faults.push(...ageFaults(patient));
  return faults;
}

/** Nearer than this two readings are of one place: half of the tape's finest mark. */
const SAME_PLACE_CM = 0.05;

/** Two readings of one place could contradict each other, and the kinder one must not win by its order. */
function armFaults(data: PlanCase, side: Side): Fault[] {
  const surveys = data.arms[side]?.surveys ?? [];
  const faults: Fault[] = [];
  for (const [index, { vein, stations }] of surveys.entries()) {
    const path = `arms.${side}.surveys.${index}`;
    if (surveys.findIndex((other) => other.vein === vein) < index) {
      faults.push({ path: `${path}.vein`, code: "twice", found: vein, rule: "one list of readings for a vein" });
    }
    for (const [row, { atCm }] of stations.entries()) {
      if (!stations.slice(0, row).some((other) => Math.abs(other.atCm - atCm) < SAME_PLACE_CM)) continue;
      const rule = "one reading for a place: the worst seen, the mean width, and how often";
      faults.push({ path: `${path}.stations.${row}.atCm`, code: "twice", found: String(atCm), rule });
    }
  }
  return faults;
}

function shelfFaults({ shelf = [] }: PlanCase): Fault[] {
  return shelf.flatMap(({ id }, index): Fault[] =>
    shelf.findIndex((other) => other.id === id) < index
      ? [{ path: `shelf.${index}.id`, code: "twice", found: id, rule: "one id for one catheter" }]
      : [],
  );
}
