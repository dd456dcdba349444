import type { AgeGroup } from "../age/index.ts";
import { isMissing } from "../missing/index.ts";
import { factsOf, pregnancyPossible, type DeviceNeed, type PlannedDays } from "./device-need.ts";
import type { DevicePolicy } from "./device-rule.ts";
import type { Device } from "./device.ts";
import { FACT_NAMES, FACTS, type FactName, type Facts } from "./fact.ts";
import { firstOf, lumensByRule, rankDevices, type RankedDevice } from "./rank-devices.ts";

/** A stretch of the range of days with one device first. */
export interface DaySegment {
  readonly fromDay: number;
  readonly toDay: number;
  readonly first: readonly Device[];
}

/** What would be first if one fact were otherwise. */
export interface DeviceFlip {
  readonly fact: FactName;
  readonly value: string;
  readonly first: readonly Device[];
}

/** The day at which another device comes first, nearest in each direction. */
export interface DayFlip {
  readonly day: number;
  readonly first: readonly Device[];
}

export interface DeviceAnswer {
  /**
   *   instead         something else comes first, with its reasons
   *   not excluded    a PICC comes first and something must still be asked
   *   PICC            a PICC comes first and nothing blocks it
   *   team decides    the best that any rule says is "uncertain", and no team has agreed yet
   *   none offered    no rule of this age group offers anything: a person decides
   */
  readonly outcome: "instead" | "not excluded" | "PICC" | "team decides" | "none offered";
  readonly ranked: readonly RankedDevice[];
  /** One device, or several that stand level; empty where nothing may be offered. */
  readonly first: readonly RankedDevice[];
  readonly picc: RankedDevice | undefined;
  readonly segments: readonly DaySegment[];
  /** Facts that block a PICC until answered. */
  readonly stillToAsk: readonly FactName[];
  /** Facts nobody has answered whose answer would put another device first. */
  readonly wouldMatter: readonly FactName[];
  readonly flips: readonly DeviceFlip[];
  readonly dayFlips: readonly DayFlip[];
  readonly lumens: number | undefined;
}

/** One question stands before any rule: without it no table applies. */
export interface DeviceQuestion {
  readonly outcome: "ask";
  readonly question: "age" | "days" | "infusates" | "days out of order" | "purpose" | "preterm";
}

/** A PICC is not named before these are answered. */
const BLOCKING: readonly FactName[] = ["route", "kidney", "pregnancy", "armBars"];

/** Longer plans differ in nothing a rule reads. */
const MOST_DAYS = 400;

/**
 * Which device, or none: the rules of the patient's age group applied at the likely number of days, what comes first
 * elsewhere in the range of days, what must still be asked, and what would change the answer.
 * Holds: adults, children and newborns by their own rules; a missing age means no rule. Never names a PICC while the
 * infusate, the kidney, the arms or a possible pregnancy has not been answered.
 */
export function chooseDevice(need: DeviceNeed, policy: DevicePolicy): DeviceAnswer | DeviceQuestion {
  const { group, days, infusates } = need;
  if (isMissing(group)) return { outcome: "ask", question: "age" };
  if (isMissing(days)) return { outcome: "ask", question: "days" };
  if (!(days.least <= days.likely && days.likely <= days.most))
    return { outcome: "ask", question: "days out of order" };
  if (isMissing(infusates)) return { outcome: "ask", question: "infusates" };
  // nothing to give is no therapy: then the line is for something else, or for nothing
  if (infusates.length === 0 && (isMissing(need.purpose) || need.purpose === "therapy"))
    return { outcome: "ask", question: "purpose" };
  const at = (day: number) => factsOf(need, day, group, policy.limits);
  const facts = at(days.likely);
  const ranked = rankDevices(facts, group, policy);
  const first = firstOf(ranked);
  const picc = ranked.find(({ device }) => device === "PICC");
  const names = namesOf(first);
  const wouldMatter = openFacts(need, facts, names, group, policy);
  const stillToAsk = BLOCKING.filter((name) => facts[name] === undefined);
  const isPicc = names.includes("PICC") || names.includes("tunnelled PICC");
  const outcome = outcomeOf(first, isPicc, stillToAsk.length > 0, ranked.length === 0, need.teamAgreed === "yes");
  return {
    outcome,
    ranked,
    first,
    picc,
    segments: segmentsOf(days, (day) => namesOf(firstOf(rankDevices(at(day), group, policy)))),
    stillToAsk,
    wouldMatter,
    flips: flipsOf(facts, names, group, policy),
    dayFlips: dayFlipsOf(need, days.likely, names, group, policy),
    lumens: lumensByRule(facts, group, policy),
  };
}

function outcomeOf(
  first: readonly RankedDevice[],
  isPicc: boolean,
  blocked: boolean,
  nothingRated: boolean,
  teamAgreed: boolean,
): DeviceAnswer["outcome"] {
  // while a blocking fact is open that could turn the answer to a PICC, the answer stays the lesser claim
  if (first.length === 0) return blocked && nothingRated ? "not excluded" : "none offered";
  if (first[0]?.rating === "uncertain" && !(teamAgreed && isPicc)) return "team decides";
  if (!isPicc) return "instead";
  return blocked ? "not excluded" : "PICC";
}

function segmentsOf(days: PlannedDays, firstAt: (day: number) => readonly Device[]): readonly DaySegment[] {
  const segments: { fromDay: number; toDay: number; first: readonly Device[] }[] = [];
  for (let day = Math.round(days.least); day <= Math.min(Math.round(days.most), MOST_DAYS); day += 1) {
    const first = firstAt(day);
    const last = segments.at(-1);
    if (last && sameDevices(last.first, first)) last.toDay = day;
    else segments.push({ fromDay: day, toDay: day, first });
  }
  return segments;
}

/** Facts without an answer for which some answer would put another device first. */
function openFacts(
  need: DeviceNeed,
  facts: Facts,
  first: readonly Device[],
  group: AgeGroup,
  policy: DevicePolicy,
): readonly FactName[] {
  return FACT_NAMES.filter((name) => {
    if (facts[name] !== undefined) return false;
    if (name === "pregnancy" && !pregnancyPossible(need, policy.limits)) return false;
    return FACTS[name].some((value) => !sameDevices(firstWith(facts, name, value, group, policy), first));
  });
}

const namesOf = (ranked: readonly RankedDevice[]): readonly Device[] => ranked.map(({ device }) => device);

const sameDevices = (a: readonly Device[], b: readonly Device[]): boolean =>
  a.length === b.length && a.every((device, index) => device === b[index]);

/** A vesicant is a central drug: the two facts never part. */
function implied(name: FactName, value: string): Facts {
  if (name === "vesicant" && value === "yes") return { route: "central" };
  return name === "route" && value === "peripheral" ? { vesicant: "no" } : {};
}

const firstWith = (facts: Facts, name: FactName, value: string, group: AgeGroup, policy: DevicePolicy) =>
  namesOf(firstOf(rankDevices({ ...facts, ...implied(name, value), [name]: value }, group, policy)));

/** Every other answer to every fact but the days, where it puts another device first. */
function flipsOf(facts: Facts, first: readonly Device[], group: AgeGroup, policy: DevicePolicy): readonly DeviceFlip[] {
  const flips: DeviceFlip[] = [];
  for (const fact of FACT_NAMES) {
    if (fact === "band") continue;
    for (const value of FACTS[fact]) {
      if (value === facts[fact]) continue;
      const other = firstWith(facts, fact, value, group, policy);
      if (!sameDevices(other, first)) flips.push({ fact, value, first: other });
    }
  }
  return flips;
}

function dayFlipsOf(
  need: DeviceNeed,
  likely: number,
  first: readonly Device[],
  group: AgeGroup,
  policy: DevicePolicy,
): readonly DayFlip[] {
  const ends = group === "adult" ? policy.limits.adultBandEnds : policy.limits.childBandEnds;
  const firstAt = (day: number) =>
    namesOf(firstOf(rankDevices(factsOf(need, day, group, policy.limits), group, policy)));
  // the answer can only turn where a band ends
  const down = [...ends].reverse().filter((end) => end < likely);
  const up = ends.map((end) => end + 1).filter((day) => day > likely);
  const nearest = (days: readonly number[]): readonly DayFlip[] =>
    days
      .map((day) => ({ day, first: firstAt(day) }))
      .filter((flip) => !sameDevices(flip.first, first))
      .slice(0, 1);
  return [...nearest(down), ...nearest(up)];
}
