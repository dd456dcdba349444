import { instantMs, type Instant } from "../calendar/index.ts";
import { finding, type Finding } from "../reason/index.ts";

/** One bottle as the card and the machine tell it. */
export interface Bottle {
  readonly site: "line" | "peripheral vein" | undefined;
  readonly lumen?: number;
  readonly drawnAt: Instant | undefined;
  /** When it went into the incubator: growth is timed from here, not from the draw. */
  readonly loadedAt: Instant | undefined;
  /** When the machine flagged growth; absent while it has not. */
  readonly flaggedAt: Instant | undefined;
  readonly volumeMl: number | undefined;
  readonly organism: string | undefined;
}

export interface CulturePolicy {
  readonly differenceMin: number;
  readonly drawnWithinMin: number;
  readonly loadedWithinMin: number;
  readonly waitedMostMin: number;
  readonly volumeRatioMost: number;
}

export interface CultureTimes {
  /** Minutes from loading to flagging, bottle by bottle; undefined where either is missing. */
  readonly timeToFlagMin: readonly (number | undefined)[];
  /** Peripheral time less line time, of the earliest bottle of each; undefined where it cannot be formed. */
  readonly differenceMin: number | undefined;
  /** The criterion is met, not met, or cannot be read. It is one criterion among several, never a diagnosis. */
  readonly reading: "met" | "not met" | "indeterminate";
  readonly findings: readonly Finding[];
}

/**
 * Differential time of growth: time to flag = flagged - loaded; difference = peripheral - line, in minutes; the criterion
 * is met from 120 on. It is read only where both bottles grew the same organism, were drawn together, held alike
 * volumes and were loaded soon and together; otherwise it is indeterminate and each reason is told.
 * Source: Mermel 2009, Clin Infect Dis 49:1 (120 min); Raad 2004, Ann Intern Med 140:18; the conditions, from memory.
 * Example: loaded 10:20 flagged 19:05, loaded 13:50 flagged 00:20: 525 and 630, difference 105, loaded 210 apart:
 * indeterminate.
 */
export function cultureTimes(
  bottles: readonly Bottle[],
  antibioticsBefore: boolean | undefined,
  policy: CulturePolicy,
): CultureTimes {
  const timeToFlagMin = bottles.map(timeToFlag);
  const line = earliest(bottles, timeToFlagMin, "line");
  const vein = earliest(bottles, timeToFlagMin, "peripheral vein");
  const findings: Finding[] = [];
  const stop = (code: string, values: Finding["values"] = {}, rows: readonly string[] = []) =>
    findings.push(finding(code, "not met", "ask", values, { policy: rows }));
  for (const [at, bottle] of bottles.entries()) bottleFindings(bottle, at + 1, timeToFlagMin[at], policy, stop);
  if (!line || !vein) {
    stop(
      bottles.some(({ site }) => site === "line") && bottles.some(({ site }) => site === "peripheral vein")
        ? "culture-one-has-not-grown"
        : "culture-pair-missing",
    );
    return { timeToFlagMin, differenceMin: undefined, reading: "indeterminate", findings };
  }
  const differenceMin = vein.minutes - line.minutes;
  pairFindings(line.bottle, vein.bottle, policy, stop);
  if (antibioticsBefore === true) findings.push(finding("culture-antibiotics-before", "not known", "note"));
  const readable = findings.every(({ level }) => level !== "ask");
  return {
    timeToFlagMin,
    differenceMin,
    reading: readable ? (differenceMin >= policy.differenceMin ? "met" : "not met") : "indeterminate",
    findings,
  };
}

type Stop = (code: string, values?: Finding["values"], rows?: readonly string[]) => void;

function bottleFindings(
  bottle: Bottle,
  number: number,
  minutes: number | undefined,
  policy: CulturePolicy,
  stop: Stop,
): void {
  if (bottle.loadedAt === undefined) stop("culture-loading-missing", { bottle: number });
  if (minutes !== undefined && minutes < 0) stop("culture-flagged-before-loaded", { bottle: number });
  if (bottle.drawnAt !== undefined && bottle.loadedAt !== undefined) {
    const waited = between(bottle.drawnAt, bottle.loadedAt);
    if (waited < 0) stop("culture-loaded-before-drawn", { bottle: number });
    else if (waited > policy.waitedMostMin) {
      stop("culture-waited-before-loading", { bottle: number, minutes: waited, most: policy.waitedMostMin }, [
        "culture.waited-most",
      ]);
    }
  }
}

function pairFindings(line: Bottle, vein: Bottle, policy: CulturePolicy, stop: Stop): void {
  if (!line.organism || !vein.organism) stop("culture-organism-missing");
  else if (plain(line.organism) !== plain(vein.organism)) stop("culture-organisms-differ");
  if (line.drawnAt === undefined || vein.drawnAt === undefined) stop("culture-draw-missing");
  else {
    const apart = Math.abs(between(line.drawnAt, vein.drawnAt));
    if (apart > policy.drawnWithinMin) {
      stop("culture-drawn-apart", { minutes: apart, most: policy.drawnWithinMin }, ["culture.drawn-within"]);
    }
  }
  if (line.loadedAt !== undefined && vein.loadedAt !== undefined) {
    const apart = Math.abs(between(line.loadedAt, vein.loadedAt));
    if (apart > policy.loadedWithinMin) {
      stop("culture-loaded-apart", { minutes: apart, most: policy.loadedWithinMin }, ["culture.loaded-within"]);
    }
  }
  if (line.volumeMl === undefined || vein.volumeMl === undefined) stop("culture-volume-missing");
  else {
    const ratio = Math.max(line.volumeMl, vein.volumeMl) / Math.min(line.volumeMl, vein.volumeMl);
    if (ratio > policy.volumeRatioMost) {
      stop("culture-volumes-differ", { ratio, most: policy.volumeRatioMost }, ["culture.volume-ratio-most"]);
    }
  }
}

function timeToFlag({ loadedAt, flaggedAt }: Bottle): number | undefined {
  return loadedAt === undefined || flaggedAt === undefined ? undefined : between(loadedAt, flaggedAt);
}

const between = (from: Instant, to: Instant): number => (instantMs(to) - instantMs(from)) / 60_000;

function earliest(
  bottles: readonly Bottle[],
  minutes: readonly (number | undefined)[],
  site: Bottle["site"],
): { readonly bottle: Bottle; readonly minutes: number } | undefined {
  return bottles
    .flatMap((bottle, at) => {
      const time = minutes[at];
      return bottle.site === site && time !== undefined ? [{ bottle, minutes: time }] : [];
    })
    .sort((a, b) => a.minutes - b.minutes)[0];
}

const plain = (organism: string): string => organism.trim().toLowerCase().replaceAll(/\s+/g, " ");

/** Colonies from the line against those from a vein, each per millilitre: threefold (2009) and fivefold (2001) texts. */
export function pairedCounts(
  lineCfuPerMl: number,
  veinCfuPerMl: number,
): { readonly ratio: number; readonly threefold: boolean; readonly fivefold: boolean } {
  const ratio = lineCfuPerMl / veinCfuPerMl;
  return { ratio, threefold: ratio >= 3, fivefold: ratio > 5 };
}
