import { isMissing, type Maybe } from "../missing/index.ts";
import { centimetre, millimetre, type Centimetre, type Millimetre } from "../quantity/index.ts";
import type { Station, Vein, VeinSurvey } from "./survey.ts";

export interface ReadingDoubt {
  /** Standard deviation of the true diameter after one reading. */
  readonly oneReadingSdMm: Millimetre;
  /** What no number of repeats removes: the patient's own day-to-day change. */
  readonly floorSdMm: Millimetre;
  /** Added for each centimetre from the nearer station. */
  readonly perCentimetreSdMm: Millimetre;
}

/** Two stations between which the vein may be read, or one station that answers only where it stands. */
export interface Stretch {
  readonly vein: Vein;
  /** The narrowest place measured further toward the shoulder: the catheter has to pass it. */
  readonly narrowestBeyond: Station | undefined;
  readonly from: Station & { readonly diameterMm: Millimetre; readonly depthMm: Millimetre };
  readonly to: Station & { readonly diameterMm: Millimetre; readonly depthMm: Millimetre };
}

export interface ProfilePoint {
  readonly atCm: Centimetre;
  readonly diameterMm: Millimetre;
  readonly sdMm: Millimetre;
  readonly depthMm: Millimetre;
  /** Deepening toward the shoulder, in millimetres of depth for each millimetre along the arm; 0 at a lone station. */
  readonly slope: number;
  readonly measured: boolean;
  readonly nearestStation: Station;
  /** The less certain of the stations read: artery, nerve, tourniquet and the rest are taken from both. */
  readonly stations: readonly Station[];
}

/** A station is taken as "at" a point nearer than this: half of the tape's finest mark. */
const SAME_PLACE_CM = 0.05;

/**
 * Standard deviation of the true diameter given the mean of n readings.
 *   SD = sqrt(floor^2 + (one^2 - floor^2) / n)
 * Holds: n >= 1, floor <= one. Repeats average the reading, never the patient.
 * Example: one = 0.3, floor = 0.2: n = 1 gives 0.30 mm, n = 20 gives 0.21 mm.
 */
export function diameterSd(doubt: ReadingDoubt, repeats: number): Millimetre {
  const floor = doubt.floorSdMm ** 2;
  return millimetre(Math.sqrt(floor + (doubt.oneReadingSdMm ** 2 - floor) / repeats));
}

/** Nothing is read across an end with no vein, a clot, an artery in front, or a wall that does not compress. */
export function carriesInterpolation(station: Station): boolean {
  return (
    station.veinPresent && station.thrombus !== true && station.artery !== "in front" && station.compressible !== false
  );
}

const measuredHere = (station: Station): station is Stretch["from"] =>
  station.veinPresent && !isMissing(station.diameterMm) && !isMissing(station.depthMm);

function narrowest(stations: readonly Station[]): Station | undefined {
  return stations
    .filter(measuredHere)
    .reduce<Stretch["from"] | undefined>(
      (least, one) => (least && least.diameterMm <= one.diameterMm ? least : one),
      undefined,
    );
}

/** The vein as measured: its stations in order and the stretches between them that may be read. */
export interface VeinProfile {
  readonly survey: VeinSurvey;
  readonly ordered: readonly Station[];
  readonly stretches: readonly Stretch[];
}

export function veinProfile(survey: VeinSurvey): VeinProfile {
  const ordered = [...survey.stations].sort((a, b) => a.atCm - b.atCm);
  const stretches: Stretch[] = [];
  const { vein } = survey;
  const beyond = (atCm: Centimetre) => narrowest(ordered.filter((station) => station.atCm > atCm));
  for (const station of ordered)
    if (measuredHere(station))
      stretches.push({ vein, from: station, to: station, narrowestBeyond: beyond(station.atCm) });
  for (let index = 0; index + 1 < ordered.length; index += 1) {
    const from = ordered[index] as Station;
    const to = ordered[index + 1] as Station;
    if (from.atCm === to.atCm || !carriesInterpolation(from) || !carriesInterpolation(to)) continue;
    if (measuredHere(from) && measuredHere(to)) stretches.push({ vein, from, to, narrowestBeyond: beyond(from.atCm) });
  }
  return { survey, ordered, stretches };
}

/**
 * Diameter, depth and their doubt at one point along the arm, by straight-line interpolation between neighbours.
 * Outside the measured span, and across a stretch that may not be read, there is no answer: undefined.
 * Doubt: the larger of the two neighbours' SD, plus a local step for each centimetre to the nearer one.
 * Holds: between stations a few centimetres apart; a straight line is an assumption, not a measurement.
 * Example: 3.5 mm at 8 cm and 4.1 mm at 11 cm give 3.8 mm at 9.5 cm.
 */
export function profileAt(profile: VeinProfile, atCm: Centimetre, doubt: ReadingDoubt): ProfilePoint | undefined {
  const exact = profile.stretches.find(({ from, to }) => from === to && Math.abs(from.atCm - atCm) < SAME_PLACE_CM);
  const stretch = exact ?? profile.stretches.find(({ from, to }) => from.atCm < atCm && atCm < to.atCm);
  return stretch ? pointIn(stretch, atCm, doubt) : undefined;
}

/** The point at a place inside a stretch that is already found; the planner walks stretches without searching. */
export function pointIn({ from, to }: Stretch, atCm: Centimetre, doubt: ReadingDoubt): ProfilePoint {
  const span = to.atCm - from.atCm;
  const share = span === 0 ? 0 : (atCm - from.atCm) / span;
  const nearest = share <= 0.5 ? from : to;
  const away = span === 0 ? 0 : Math.abs(nearest.atCm - atCm);
  const worse = Math.max(diameterSd(doubt, from.repeats), diameterSd(doubt, to.repeats));
  return {
    atCm: centimetre(atCm),
    diameterMm: millimetre(from.diameterMm + share * (to.diameterMm - from.diameterMm)),
    sdMm: millimetre(worse + away * doubt.perCentimetreSdMm),
    depthMm: millimetre(from.depthMm + share * (to.depthMm - from.depthMm)),
    slope: span === 0 ? 0 : (to.depthMm - from.depthMm) / (span * 10),
    measured: span === 0,
    nearestStation: nearest,
    stations: span === 0 ? [from] : [from, to],
  };
}

/** One flag over the stations a point is read from: any "yes" is yes, else any absence is that absence, else no. */
export function anyStation(stations: readonly Station[], read: (station: Station) => Maybe<boolean>): Maybe<boolean> {
  const values = stations.map(read);
  if (values.includes(true)) return true;
  return values.find((value) => isMissing(value)) ?? false;
}
