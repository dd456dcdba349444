import { parseCivilDate } from "../core/calendar/index.ts";
import type { Referral } from "../core/device-choice/index.ts";
import { bagOsmolarity, type Infusate } from "../core/infusate/index.ts";
import { isMissing, missing } from "../core/missing/index.ts";
import { infusateNamed, withListed } from "../policy/index.ts";
import { ageFaults } from "./age-fault.ts";
import type { Fault } from "./fault.ts";
import { hiddenSigns } from "./hidden-sign.ts";
import { parsedJson, readJson, type Faults } from "./read-json.ts";
import { referralFile, type ReferralFile } from "./referral-schema.ts";

export type ReferralReading = { readonly kind: "referral"; readonly referral: Referral } | Faults;

const notAsked = missing("not asked");

/** Reads the text of a NEED.json; every fault of the file is reported at once. */
export function readReferralText(text: string, list: readonly Infusate[]): ReferralReading {
  const parsed = parsedJson(text);
  return parsed.kind === "faults" ? parsed : readReferral(parsed.json, list);
}

/** Turns a parsed need into a checked referral, its drugs looked up in the list in force. */
export function readReferral(json: unknown, list: readonly Infusate[]): ReferralReading {
  const reading = readJson(json, referralFile, acrossFields);
  return reading.kind === "faults" ? reading : { kind: "referral", referral: referralFrom(reading.data, list) };
}

function acrossFields(data: ReferralFile): readonly Fault[] {
  const faults: Fault[] = [...hiddenSigns(data, ""), ...ageFaults(data.patient), ...contradictions(data)];
  for (const [index, { on }] of (data.kidney?.creatinines ?? []).entries()) {
    if (parseCivilDate(on) === undefined) {
      const path = `kidney.creatinines.${index}.on`;
      faults.push({ path, code: "no-such-date", found: on, rule: "a day of the calendar" });
    }
  }
  const { filtrationOn } = data.kidney ?? {};
  if (typeof filtrationOn === "string" && parseCivilDate(filtrationOn) === undefined)
    faults.push({
      path: "kidney.filtrationOn",
      code: "no-such-date",
      found: filtrationOn,
      rule: "a day of the calendar",
    });
  const { days } = data;
  if (typeof days === "object" && !isMissing(days) && !(days.least <= days.likely && days.likely <= days.most)) {
    const found = `${days.least}, ${days.likely}, ${days.most}`;
    faults.push({ path: "days", code: "out-of-order", found, rule: "least, likely and most days in that order" });
  }
  return faults;
}

/** What two fields say against each other: neither is dropped, both are asked about. */
function contradictions({ patient, pregnancy, kidney, infusates }: ReferralFile): readonly Fault[] {
  const faults: Fault[] = [];
  const say = (path: string, found: string, rule: string) => faults.push({ path, code: "contradicts", found, rule });
  if (patient.sex === "male" && pregnancy === "yes") say("pregnancy", "yes", "no pregnancy beside sex male");
  const creatinines = kidney?.creatinines ?? [];
  if (typeof kidney?.filtration === "number" && creatinines.length > 0)
    say("kidney.filtration", String(kidney.filtration), "either the eGFR or the creatinines");
  for (const [index, { on, value }] of creatinines.entries())
    if (creatinines.findIndex((one) => one.on === on) < index)
      say(`kidney.creatinines.${index}.value`, String(value), "one creatinine for one day");
  for (const [index, one] of (Array.isArray(infusates) ? infusates : []).entries()) {
    if (typeof one === "string" || !one.bag) continue;
    const { volumeMl: _, lipidMosmPerG: __, ...parts } = one.bag;
    if (typeof one.osmolarity === "number")
      say(`infusates.${index}.osmolarity`, String(one.osmolarity), "either the osmolarity or the bag's parts");
    if ((one.bag.lipidG ?? 0) > 0 && one.bag.lipidMosmPerG === undefined) {
      const rule = "mOsm per gram from the emulsion's label";
      faults.push({ path: `infusates.${index}.bag.lipidMosmPerG`, code: "missing-field", found: "nothing", rule });
    }
    if (Object.values(parts).every((amount) => amount === undefined || amount === 0))
      faults.push({ path: `infusates.${index}.bag`, code: "missing-field", found: "", rule: "what the bag holds" });
  }
  return faults;
}

type Described = Exclude<Extract<ReferralFile["infusates"], readonly unknown[]>[number], string>;

/** A drug described in the file stands over the list's of the same name; a bag's osmolarity comes from its parts. */
function described({ bag, ...one }: Described, list: readonly Infusate[]): unknown {
  const known = infusateNamed(one.name, list);
  if (!bag) return withListed({ ...known, ...one } as Infusate, list);
  const { glucoseG = 0, aminoAcidG = 0, monovalentSaltsMmol = 0, otherIonsMmol = 0, lipidG = 0 } = bag;
  const { volumeMl, lipidMosmPerG = 0 } = bag;
  const parts = { volumeMl, glucoseG, aminoAcidG, monovalentSaltsMmol, otherIonsMmol, lipidG, lipidMosmPerG };
  const osmolarity = bagOsmolarity(parts);
  return {
    ...known,
    ...one,
    osmolarity: typeof osmolarity === "number" ? osmolarity : missing("not known"),
    source: "added up from the bag's parts by the rule of pharmacy",
    howKnown: "from memory",
  };
}

function referralFrom(data: ReferralFile, list: readonly Infusate[]): Referral {
  const { days } = data;
  // the schema has checked every value; brands carry no run-time meaning
  return {
    criticallyIll: notAsked,
    setting: notAsked,
    cancer: notAsked,
    urgent: notAsked,
    cycles: notAsked,
    pregnancy: notAsked,
    armBars: notAsked,
    difficultVeins: notAsked,
    carer: notAsked,
    oral: notAsked,
    endOfLife: notAsked,
    purpose: notAsked,
    teamAgreed: notAsked,
    sampleEveryHours: notAsked,
    admissionsAYear: notAsked,
    ...data,
    age: notAsked,
    bornPreterm: notAsked,
    correctedAgeDays: notAsked,
    sex: notAsked,
    ...data.patient,
    days: typeof days === "number" ? { least: days, likely: days, most: days } : (days ?? notAsked),
    infusates:
      data.infusates === undefined || isMissing(data.infusates)
        ? (data.infusates ?? notAsked)
        : data.infusates.map((one) => (typeof one === "string" ? infusateNamed(one, list) : described(one, list))),
    kidney: {
      replacement: notAsked,
      filtration: notAsked,
      filtrationOn: notAsked,
      creatinines: [],
      ...data.kidney,
      heightCm: data.patient.heightCm ?? notAsked,
    },
    bleeding: { inr: notAsked, platelets: notAsked, clopidogrel: notAsked, ...data.bleeding },
    culture: { state: notAsked, hoursSinceNegative: notAsked, ...data.culture },
  } as unknown as Referral;
}
