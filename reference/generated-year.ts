import { civilDateFromDayNumber, dayNumber, instantAtMinute, type CivilDate } from "../src/core/calendar/index.ts";
import { uniformFrom } from "./generated-lines.ts";

const FIRST_DAY = dayNumber("2024-07-01" as CivilDate);
const DAYS = 549;
const AS_OF_MINUTE = dayNumber("2026-01-01" as CivilDate) * 1440;
/** The invented hospital keeps one clock all year, so that R can read the wall clock as it stands. */
const OFFSET = 60;

const pick = <Value>(u: number, options: readonly (readonly [Value, number])[]): Value => {
  let left = u;
  for (const [value, share] of options) {
    if (left < share) return value;
    left -= share;
  }
  return (options.at(-1) as readonly [Value, number])[0];
};

const HEAD =
  "line_key,patient_key,placed_at,end_kind,end_at,end_reason,side,vein,size_fr,lumens,vein_diameter_mm,position_percent,attempts,inserter_key,ward,setting,age_years,diagnosis,events";

/**
 * An invented year and a half of a service as its own line table: the same seed gives the same text everywhere.
 * Hazards rise with lumens, with a full vein and towards the elbow; some values and some ends are not known.
 */
export function generatedYear(seed: number, lines: number): string {
  const u = uniformFrom(seed);
  const rows: string[][] = [];
  for (let line = 1; line <= lines; line += 1) {
    const placed = (FIRST_DAY + Math.floor((DAYS * (line - 1)) / lines)) * 1440 + 480 + Math.floor(u() * 540);
    const ward = pick(u(), [
      ["A", 0.3],
      ["B", 0.25],
      ["C", 0.2],
      ["D", 0.15],
      ["E", 0.1],
    ] as const);
    const lumens = pick(u(), [
      [1, 0.6],
      [2, 0.3],
      [3, 0.1],
    ] as const);
    const size = lumens === 1 ? 4 : lumens === 2 ? 5 : 6;
    const diameter = Math.round((3 + u() * 2.5) * 10) / 10;
    const ratio = size / 3 / diameter;
    const position = Math.round(15 + u() * 75);
    const attempts = pick(u(), [
      [1, 0.78],
      [2, 0.15],
      [3, 0.07],
    ] as const);
    const hazard = (base: number, effect: number) => base * Math.exp(effect);
    const infection = hazard(0.0018, 0.4 * (lumens - 1));
    const thrombosis = hazard(0.0016, 5 * (ratio - 0.35));
    const occlusion = hazard(0.005, 0.35 * (lumens - 1) - 0.01 * (position - 50));
    const wait = (rate: number) => Math.ceil((-Math.log(1 - u()) / rate) * 1440);
    const stay = wait(1 / 24);
    const [atInfection, atClot, atBlock] = [wait(infection), wait(thrombosis), wait(occlusion)];
    const died = u() < 0.06;
    const cleared = u() < 0.6;
    let out = placed + stay;
    let reason = died ? "died" : "treatment ended";
    const events: string[] = [];
    const at = (minute: number) => instantAtMinute(minute, OFFSET);
    if (atInfection < out - placed) {
      out = placed + atInfection;
      reason = "infection";
    }
    if (atClot < out - placed) {
      out = placed + atClot;
      reason = "clot";
    }
    if (atBlock < out - placed) {
      if (out > AS_OF_MINUTE - 60 || placed + atBlock <= AS_OF_MINUTE) events.push(`occlusion@${at(placed + atBlock)}`);
      if (!cleared) {
        out = placed + atBlock;
        reason = "blocked";
      }
    }
    if (reason === "infection" && out <= AS_OF_MINUTE)
      events.push(`infection@${at(out)} clinical=yes surveillance=${u() < 0.6 ? "yes" : "no"}`);
    if (reason === "clot" && out <= AS_OF_MINUTE) events.push(`thrombosis@${at(out)}`);
    const lost = u() < 0.03;
    const dateOnly = u() < 0.05;
    const still = out > AS_OF_MINUTE;
    const shown = (minute: number) =>
      dateOnly ? civilDateFromDayNumber(Math.floor((minute + OFFSET) / 1440)) : at(minute);
    const lastSeen = placed + Math.floor(Math.min(out, AS_OF_MINUTE) - placed) * 0.5;
    const kept = events.filter((event) => !lost || !event.includes(`@${at(out)}`));
    const gone = lost && !kept.some((event) => (event.split("@")[1] as string) > at(Math.floor(lastSeen)));
    const end = gone
      ? ["unknown", at(Math.floor(lastSeen)), ""]
      : still
        ? ["in place", at(AS_OF_MINUTE), ""]
        : ["removed", shown(out), u() < 0.04 ? "" : reason];
    rows.push(
      [
        `L${line}`,
        `P${Math.floor(u() * lines * 0.85)}`,
        shown(placed),
        ...end,
        u() < 0.6 ? "right arm" : "left arm",
        pick(u(), [
          ["basilic", 0.75],
          ["brachial", 0.2],
          ["cephalic", 0.05],
        ] as const),
        size,
        lumens,
        u() < 0.06 ? "not measured" : diameter.toFixed(1),
        u() < 0.08 ? "" : position,
        u() < 0.03 ? "" : attempts,
        `S${1 + Math.floor(u() * 6)}`,
        ward,
        u() < 0.3 ? "home" : "ward",
        18 + Math.floor(u() * 74),
        pick(u(), [
          ["infection", 0.4],
          ["solid cancer", 0.3],
          ["blood cancer", 0.15],
          ["other", 0.15],
        ] as const),
        (gone ? kept : events).join("; "),
      ].map(String),
    );
  }
  for (const row of rows) if (diedTooEarly(row, rows)) row[END_REASON] = "treatment ended";
  return `${[HEAD, ...rows.map((row) => row.join(","))].join("\n")}\n`;
}

const [PATIENT, PLACED, END_AT, END_REASON] = [1, 2, 4, 5] as const;

/** Nobody has a line, or is seen with one, after the day of their death. */
const diedTooEarly = (row: readonly string[], rows: readonly (readonly string[])[]): boolean =>
  row[END_REASON] === "died" &&
  rows.some(
    (other) =>
      other !== row &&
      other[PATIENT] === row[PATIENT] &&
      [PLACED, END_AT].some((at) => (other[at] as string).slice(0, 10) > (row[END_AT] as string).slice(0, 10)),
  );
