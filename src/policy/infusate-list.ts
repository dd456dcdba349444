import type { Infusate, TissueClass } from "../core/infusate/index.ts";
import { isMissing, missing } from "../core/missing/index.ts";
import { milliosmolePerLitre } from "../core/quantity/index.ts";

/**
 * A small open starter list, each drug as it is usually given. Every value is a hint until a pharmacy has put its own
 * list in place: osmolarity and pH belong to one dilution, and published lists of vesicants disagree.
 */
const EONS = "ESMO and EONS guideline 2012, Ann Oncol 23(suppl 7):vii167, table 1";
const EXFOLIANTS = "review of extravasation 2016, World J Clin Oncol 7:87, the stricter of two lists";
const TASK_FORCE = "Gorski LA and others 2017, J Infus Nurs 40:26";
const PHARMACY = "pharmacy handbooks";

type Known = "published" | "from memory";

/** One line of the list: name, mOsm/L, pH, class, source, how the class is known; 0 where no value is given. */
function drug(
  name: string,
  osmolarity: number,
  ph: number,
  tissueClass: TissueClass,
  source: string,
  howKnown: Known,
  more: Partial<Pick<Infusate, "classDisputed" | "againstCancer" | "nutrition">> = {},
): Infusate {
  return {
    id: name.toLowerCase().replace(/[^a-z0-9]+/g, "-"),
    name,
    osmolarity: osmolarity > 0 ? milliosmolePerLitre(osmolarity) : missing("not known"),
    ph: ph > 0 ? ph : missing("not known"),
    tissueClass,
    classDisputed: false,
    againstCancer: false,
    nutrition: false,
    source,
    howKnown,
    ...more,
  };
}

const cancer = { againstCancer: true } as const;
const disputed = { againstCancer: true, classDisputed: true } as const;

export const starterInfusates: readonly Infusate[] = [
  drug("sodium chloride 0.9 %", 308, 5.5, "neither", PHARMACY, "from memory"),
  drug("glucose 5 %", 252, 5, "neither", PHARMACY, "from memory"),
  drug("glucose 5 % in sodium chloride 0.9 %", 560, 5, "neither", "infusion forum table", "published"),
  drug("glucose 10 %", 505, 5, "irritant", TASK_FORCE, "from memory"),
  drug("glucose 50 %", 2520, 5, "vesicant", TASK_FORCE, "from memory"),
  drug("sodium chloride 3 %", 1026, 5.5, "vesicant", TASK_FORCE, "from memory"),
  drug("sodium bicarbonate 8.4 %", 2000, 8, "vesicant", TASK_FORCE, "from memory"),
  drug("mannitol 20 %", 1100, 6, "irritant", TASK_FORCE, "from memory"),
  drug("parenteral nutrition", 0, 6, "neither", PHARMACY, "from memory", { nutrition: true }),
  drug("ceftriaxone", 360, 6.6, "neither", PHARMACY, "from memory"),
  drug("cefazolin", 340, 5.5, "neither", PHARMACY, "from memory"),
  drug("piperacillin with tazobactam", 460, 5.8, "neither", PHARMACY, "from memory"),
  drug("meropenem", 360, 7.8, "neither", PHARMACY, "from memory"),
  drug("flucloxacillin", 340, 6, "neither", PHARMACY, "from memory"),
  drug("ertapenem", 350, 7.5, "neither", PHARMACY, "from memory"),
  drug("fluconazole", 308, 6, "neither", PHARMACY, "from memory"),
  drug("vancomycin", 300, 4, "irritant", TASK_FORCE, "from memory"),
  drug("aciclovir", 310, 11, "irritant", TASK_FORCE, "from memory"),
  drug("nafcillin", 350, 6.5, "irritant", TASK_FORCE, "from memory"),
  drug("pentamidine", 280, 5, "irritant", TASK_FORCE, "from memory"),
  drug("amiodarone", 280, 4, "irritant", TASK_FORCE, "from memory"),
  drug("potassium chloride 60 mmol/L or more", 430, 5.5, "irritant", TASK_FORCE, "from memory"),
  drug("calcium chloride", 2040, 6, "vesicant", TASK_FORCE, "from memory"),
  drug("calcium gluconate", 680, 6.5, "vesicant", TASK_FORCE, "from memory"),
  drug("noradrenaline", 290, 4, "vesicant", TASK_FORCE, "from memory"),
  drug("adrenaline", 290, 4, "vesicant", TASK_FORCE, "from memory"),
  drug("dopamine", 290, 4, "vesicant", TASK_FORCE, "from memory"),
  drug("vasopressin", 290, 4, "vesicant", TASK_FORCE, "from memory"),
  drug("dobutamine", 290, 4, "vesicant", TASK_FORCE, "from memory"),
  drug("phenytoin", 320, 12, "vesicant", TASK_FORCE, "from memory"),
  drug("promethazine", 290, 5, "vesicant", TASK_FORCE, "from memory"),
  drug("doxorubicin", 300, 3, "vesicant", EONS, "published", cancer),
  drug("daunorubicin", 300, 5, "vesicant", EONS, "published", cancer),
  drug("epirubicin", 300, 3, "vesicant", EONS, "published", cancer),
  drug("idarubicin", 300, 6, "vesicant", EONS, "published", cancer),
  drug("bendamustine", 310, 3.5, "vesicant", EONS, "published", disputed),
  drug("vincristine", 300, 4.5, "vesicant", EONS, "from memory", cancer),
  drug("vinblastine", 300, 4.5, "vesicant", EONS, "from memory", cancer),
  drug("paclitaxel", 320, 6, "vesicant", EXFOLIANTS, "published", disputed),
  drug("docetaxel", 320, 6, "vesicant", EXFOLIANTS, "published", disputed),
  drug("oxaliplatin", 280, 5, "vesicant", EXFOLIANTS, "published", disputed),
  drug("cisplatin", 300, 4, "vesicant", EXFOLIANTS, "published", disputed),
  drug("mitoxantrone", 300, 4, "vesicant", EXFOLIANTS, "published", disputed),
  drug("ifosfamide", 320, 6, "irritant", EONS, "published", cancer),
  drug("melphalan", 310, 6, "irritant", EONS, "published", cancer),
  drug("dacarbazine", 310, 4, "irritant", EONS, "published", cancer),
  drug("etoposide", 310, 4, "irritant", EONS, "from memory", cancer),
  drug("fluorouracil", 310, 9, "irritant", EONS, "from memory", cancer),
  drug("bortezomib", 310, 6, "neither", EONS, "published", cancer),
  drug("cytarabine", 310, 7, "neither", EONS, "published", cancer),
  drug("gemcitabine", 310, 3, "neither", EONS, "published", cancer),
  drug("methotrexate", 310, 8.5, "neither", EONS, "from memory", cancer),
  drug("cyclophosphamide", 310, 5, "neither", EONS, "from memory", cancer),
];

/** The same drug with the class of another list beside it, where the two differ: the local one holds, and it is said. */
export function withListed(held: Infusate, list: readonly Infusate[]): Infusate {
  const wanted = held.name.trim().toLowerCase();
  const other = list.find(
    ({ name, tissueClass }) =>
      name.toLowerCase() === wanted && !isMissing(tissueClass) && tissueClass !== held.tissueClass,
  );
  return other && !isMissing(other.tissueClass) ? { ...held, listedClass: other.tissueClass } : held;
}

/** A drug of a list by its name, however it was capitalised; one that no list holds is unknown in everything but its name. */
export function infusateNamed(name: string, list: readonly Infusate[]): Infusate {
  const wanted = name.trim().toLowerCase();
  const found = list.find((one) => one.name.toLowerCase() === wanted);
  return found
    ? withListed(found, list)
    : {
        id: wanted,
        name: name.trim(),
        osmolarity: missing("not known"),
        ph: missing("not known"),
        tissueClass: missing("not known"),
        classDisputed: false,
        againstCancer: false,
        nutrition: false,
        source: "no source",
        howKnown: "local",
      };
}
