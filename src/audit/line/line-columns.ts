import { TIP_PLACES } from "../../core/tip/index.ts";
import {
  DIAGNOSIS_GROUPS,
  INDICATIONS,
  REFERRAL_OUTCOMES,
  REMOVAL_REASONS,
  ROW_EVENTS,
  ROW_SETTINGS,
  ROW_VEINS,
  SIDES,
  TIME_KNOWN_TO,
} from "./line-row.ts";

/**
 * One column of the line table as a file: its name carries the unit. The reader of the file, its schema, its page in
 * docs/reference and the export all read this one list.
 */
export interface LineColumn {
  readonly name: string;
  readonly kind: "key" | "moment" | "choice" | "number" | "whole" | "yes-no" | "list" | "events" | "text";
  readonly options?: readonly string[];
  readonly least?: number;
  readonly most?: number;
  readonly must?: true;
  readonly what: string;
}

const MOMENT = "YYYY-MM-DD, or with a time and its offset, 2025-03-04T09:30+01:00";

export const LINE_COLUMNS: readonly LineColumn[] = [
  {
    name: "row",
    kind: "choice",
    options: ["line", "referral", "ward month"],
    what: "What the row is; a line when empty",
  },
  { name: "line_key", kind: "key", must: true, what: "The same line, the same key; no number of a person" },
  { name: "patient_key", kind: "key", what: "The same person, the same key; for lines it must be there" },
  {
    name: "placed_at",
    kind: "moment",
    must: true,
    what: `End of the insertion, or when the call came, or first of the month: ${MOMENT}`,
  },
  { name: "known_from", kind: "moment", what: "Of a line that came with the patient: when the service first knew it" },
  {
    name: "end_kind",
    kind: "choice",
    options: ["removed", "handed on", "in place", "unknown"],
    what: "How the row stops",
  },
  { name: "end_at", kind: "moment", what: "When it came out or was handed on, or when it was last known to be in" },
  { name: "end_reason", kind: "choice", options: REMOVAL_REASONS, what: "Why it came out" },
  { name: "side", kind: "choice", options: SIDES, what: "Arm" },
  { name: "vein", kind: "choice", options: ROW_VEINS, what: "Vein entered" },
  { name: "size_fr", kind: "number", least: 1, most: 9, what: "Outside diameter, French" },
  { name: "lumens", kind: "whole", least: 1, most: 4, what: "Number of lumens" },
  { name: "vein_diameter_mm", kind: "number", least: 0.5, most: 15, what: "Vein at entry, mm, without tourniquet" },
  { name: "ratio_percent", kind: "number", least: 1, most: 200, what: "Catheter over vein, %, if it was written down" },
  {
    name: "position_percent",
    kind: "number",
    least: 0,
    most: 100,
    what: "Entry, 0 at the medial epicondyle, 100 at the axillary line",
  },
  { name: "attempts", kind: "whole", least: 1, most: 12, what: "Attempts until it was in" },
  { name: "inserter_key", kind: "key", what: "The same person, the same key" },
  { name: "ward", kind: "text", what: "Ward at insertion" },
  { name: "setting", kind: "choice", options: ROW_SETTINGS, what: "Where it is looked after" },
  { name: "age_years", kind: "whole", least: 0, most: 120, what: "Whole years at insertion" },
  { name: "diagnosis", kind: "choice", options: DIAGNOSIS_GROUPS, what: "Group of diagnoses" },
  { name: "indication", kind: "choice", options: INDICATIONS, what: "What the line was for" },
  {
    name: "tip_method",
    kind: "choice",
    options: ["film", "ECG", "fluoroscopy", "echo", "none yet"],
    what: "How the tip was found",
  },
  { name: "tip_place", kind: "choice", options: TIP_PLACES, what: "Where the tip was read to lie" },
  { name: "lot_key", kind: "key", what: "The same lot, the same key" },
  { name: "catheter_key", kind: "key", what: "The same kind of catheter, the same key" },
  { name: "egfr_ml_min_173", kind: "number", least: 0, most: 200, what: "Filtration at referral, mL/min/1.73 m2" },
  { name: "overdue_care", kind: "list", what: "Care overdue when the table was made, separated by ;" },
  { name: "overrides", kind: "list", what: "Codes of stops that were passed, separated by ;" },
  { name: "idle_days", kind: "whole", least: 0, most: 2000, what: "Days in place after the last use" },
  { name: "owned", kind: "yes-no", what: "Somebody is named to answer for it" },
  {
    name: "events",
    kind: "events",
    options: ROW_EVENTS,
    what: "Kind @ moment, or kind @ not known where only its day is not known, separated by ;  an infection may add clinical=yes surveillance=no paired=not known mucosal=no, an occlusion cleared=MOMENT",
  },
  { name: "inside_cm", kind: "number", least: 2, most: 70, what: "Length inside at insertion, cm" },
  { name: "weight_kg", kind: "number", least: 0.1, most: 500, what: "Weight at insertion, kg" },
  { name: "replaces_key", kind: "key", what: "The line that this one took the place of, by its key" },
  {
    name: "time_known_to",
    kind: "choice",
    options: TIME_KNOWN_TO,
    what: "How exactly its times are known; the first of a month may stand for the month",
  },
  {
    name: "written_after",
    kind: "list",
    what: "Values first written or changed after an event of the line, by their columns' names, separated by ;",
  },
  { name: "referral_outcome", kind: "choice", options: REFERRAL_OUTCOMES, what: "Of a referral: what came of it" },
  { name: "instead", kind: "text", what: "Of a referral declined: what was used instead" },
  { name: "patient_days", kind: "whole", least: 0, most: 100_000, what: "Of a ward month: days of all patients" },
  {
    name: "manual_line_days",
    kind: "whole",
    least: 0,
    most: 100_000,
    what: "Of a ward month: patients with a line, counted by hand each day at one hour and summed",
  },
  {
    name: "sampled_line_days",
    kind: "whole",
    least: 0,
    most: 100_000,
    what: "Of a ward month: patients with a line, counted on one fixed weekday and summed; empty if not sampled",
  },
  {
    name: "sampled_patient_days",
    kind: "whole",
    least: 0,
    most: 100_000,
    what: "Of a ward month: all patients, counted on the same weekday and summed; empty if not sampled",
  },
  { name: "sampled_days", kind: "whole", least: 1, most: 5, what: "Of a ward month: days that weekday was counted on" },
  {
    name: "every_central_line",
    kind: "yes-no",
    what: "Of a ward month: every central line was counted, not the lines of this service alone; empty counts as no",
  },
];
