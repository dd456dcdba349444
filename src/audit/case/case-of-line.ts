import { civilDateOf, midnightsBetween, minutesBetween, parseInstant } from "../../core/calendar/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import {
  confirmedIn,
  fieldsOf,
  standing,
  valueIn,
  type EntryOf,
  type EventType,
  type Field,
  type Happening,
  type LineView,
  type ReferralView,
} from "../../register/index.ts";
import type { LineRow } from "../line/index.ts";
import { openingOf } from "./case-of-row.ts";
import { peopleLike } from "./people-alike.ts";
import type { CaseFact, CaseStep, CaseStory } from "./story.ts";

/**
 * What an event may tell of itself, field by field; an event that is not here is left out of the case whole. No field of
 * free words, names, numbers of people, dates or places may stand here: a test holds this list against the catalogue.
 */
export const CASE_FIELDS: Readonly<Partial<Record<EventType, readonly string[]>>> = {
  ReferralReceived: ["daysLikely", "onDialysis"],
  ReferralDecided: ["outcome", "instead"],
  PlanAgreed: ["vein", "veinDiameterMm", "french", "lumens", "insideCm"],
  LineInserted: ["veinDiameterMm", "tunnelCm", "insideCm", "outsideCm", "tipMethod", "problems"],
  LineFound: ["insideCm", "outsideCm"],
  TipRead: ["method", "tipPlace", "filmCm", "outsideCm", "insideCm"],
  TipCorrected: ["withdrawnCm", "outsideCm", "insideCm"],
  SideSettled: [],
  LineReleased: ["uses"],
  CareGiven: [
    "outsideCm",
    "bloodReturn",
    "flushes",
    "symptoms",
    "site",
    "dressingState",
    "dressingChanged",
    "stillNeeded",
  ],
  LineUsed: ["what"],
  PatencyStepTaken: ["doseMg", "volumeMl"],
  InfectionSuspected: ["signs", "temperatureC", "otherSource"],
  CulturesTaken: ["antibioticsBefore"],
  InfectionConcluded: ["clinical", "surveillance", "mucosalBarrier", "lineKept"],
  ClotLookedFor: ["ultrasound", "vein", "anticoagulated", "lineKept"],
  LineRemoved: ["reason", "planned", "lengthOutCm", "tipWhole", "resistance"],
  EndUnknown: [],
  LineHandedOn: [],
  StopOverridden: [],
};

/**
 * The case of a line out of its events: every date as days since the placing, ages as a group, and of each event only
 * the fields listed above, each value only if it is one its field allows. Voided events and old values stay out.
 * Units: days, those of the fields. Holds: a line that was placed or found, else undefined. Source: common practice, no
 * source; few alike as the export's warning.
 */
export function caseOfLine(
  {
    line,
    referral,
    row,
  }: { readonly line: LineView; readonly referral: ReferralView | undefined; readonly row: LineRow },
  rows: readonly LineRow[],
  limits: CountLimits,
): CaseStory | undefined {
  if (!line.placed) return undefined;
  const placedOn = civilDateOf(line.placed.event.happenedAt);
  const people = peopleLike(row, rows, limits);
  const of = (kind: "line" | "referral", happenings: readonly Happening[]): readonly CaseStep[] =>
    standing(happenings).flatMap(({ event, entry }): CaseStep[] => {
      const listed = CASE_FIELDS[event.type as EventType];
      const fields = fieldsOf(kind, event.type);
      if (!listed || !fields) return [];
      const facts = listed.flatMap((name) => factOf(name, fields[name], confirmedOrPlanned(event.type, entry, name)));
      const cultures = event.type === "CulturesTaken" ? bottleFacts(entry) : [];
      return [
        {
          day: midnightsBetween(placedOn, civilDateOf(event.happenedAt)),
          what: event.type,
          facts: [...facts, ...cultures],
        },
      ];
    });
  const steps = [...(referral ? of("referral", referral.happenings) : []), ...of("line", line.happenings)];
  return { opening: openingOf(row, limits), steps, peopleAlike: people, rare: people <= limits.rarePeople };
}

/** A plan's own values are what was planned; anywhere else a value that waits from a plan is none. */
const confirmedOrPlanned = (type: string, entry: Happening["entry"], name: string): unknown =>
  type === "PlanAgreed" ? valueIn(entry[name]) : confirmedIn(entry[name]);

/** A fact, if the value is one that its field allows; anything else could be a name in the wrong place. */
function factOf(name: string, field: Field | undefined, value: unknown): readonly CaseFact[] {
  if (field === undefined || value === undefined) return [];
  switch (field.kind) {
    case "number":
    case "count":
      return typeof value === "number" && value >= field.least && value <= field.most
        ? [{ name, value, unit: field.kind === "number" && field.unit !== "times" ? field.unit : "" }]
        : [];
    case "choice":
      return typeof value === "string" && field.options.includes(value) ? [{ name, value, unit: "" }] : [];
    case "choices": {
      const kept = Array.isArray(value)
        ? value.filter((one): one is string => field.options.includes(one as string))
        : [];
      return kept.length > 0 ? [{ name, value: kept, unit: "" }] : [];
    }
    case "yes-no":
      return typeof value === "boolean" ? [{ name, value, unit: "" }] : [];
    case "date":
    case "instant":
    case "name":
    case "text":
    case "reference":
    case "rows":
      return [];
    default:
      return field satisfies never;
  }
}

/** Hours from loading to the flag, bottle by bottle: the times of the clock stay out. */
function bottleFacts(said: EntryOf<"CulturesTaken">): readonly CaseFact[] {
  return (valueIn(said.bottles) ?? []).flatMap(({ site, loadedAt, flaggedAt }): readonly CaseFact[] => {
    const [loaded, flagged] = [parseInstant(loadedAt ?? ""), parseInstant(flaggedAt ?? "")];
    const minutes = loaded && flagged ? minutesBetween(loaded, flagged) : -1;
    const name = site === "line" ? "lineBottleMin" : "veinBottleMin";
    return minutes >= 0 ? [{ name, value: minutes, unit: "min" }] : [];
  });
}
