import { addDays, dayNumber, type CivilDate } from "../../../src/core/calendar/index.ts";
import { uniformFrom } from "../../generated-lines.ts";

const HEAD =
  "line_key,patient_key,placed_at,end_kind,end_at,end_reason,side,vein,size_fr,position_percent,inserter_key,ward,setting,lot_key,catheter_key,diagnosis,events";
const FIRST = "2022-01-01" as CivilDate;
const YEARS = 4;
export const AS_OF = "2026-01-15" as CivilDate;

/**
 * Four invented years of a service, the same for the same seed: stays by dates, by minutes and mixed; unknown ends, lines
 * out on the day they went in, events after removal inside and outside what is allowed, flags nobody set, rows whose end
 * stands before their start. From July 2025 one lot clots more often, so that there is something to signal.
 */
export function monitorYears(seed: number, linesAYear: number): string {
  const u = uniformFrom(seed);
  const rows: string[][] = [];
  const of = <Value>(values: readonly Value[]): Value => values[Math.floor(u() * values.length)] as Value;
  const wait = (mean: number) => -Math.log(1 - u()) * mean;
  const last = dayNumber(AS_OF);
  const lines = linesAYear * YEARS;
  for (let at = 0; at < lines; at += 1) {
    const on = dayNumber(FIRST) + Math.floor((at * (365.25 * YEARS - 1)) / lines);
    const shown = (day: number, timed: boolean): string => {
      const date = addDays(FIRST, day - dayNumber(FIRST));
      const [hour, minute] = [8 + Math.floor(u() * 10), Math.floor(u() * 60)];
      const clock = [hour, minute].map((part) => String(part).padStart(2, "0")).join(":");
      return timed ? `${date}T${clock}+00:00` : date;
    };
    const lot = `LOT${Math.floor(at / Math.max(8, linesAYear / 9))}`;
    const bad = on >= dayNumber("2025-07-01" as CivilDate) && at % 3 === 0;
    const stay = u() < 0.08 ? 0 : Math.floor(wait(24));
    const [infection, clot, block] = [wait(260), wait(bad ? 60 : 700), wait(260)].map(
      (days) => on + 1 + Math.floor(days),
    );
    const out = on + stay;
    const events: string[] = [];
    const date = (day: number) => addDays(FIRST, day - dayNumber(FIRST));
    // up to nine days after removal: seven are allowed for a clot, one for an infection
    if ((clot as number) <= out + 9 && (clot as number) <= last) events.push(`thrombosis@${date(clot as number)}`);
    if ((infection as number) <= out + 2 && (infection as number) <= last)
      events.push(
        `infection@${date(infection as number)}${of([" clinical=yes", " clinical=yes", " clinical=no", ""])}`,
      );
    if ((block as number) <= out && (block as number) <= last)
      events.push(`occlusion@${shown(block as number, u() < 0.3)}`);
    if ((block as number) + 3 <= out && u() < 0.2 && (block as number) + 3 <= last)
      events.push(`occlusion@${date((block as number) + 3)}`);
    const kind = out > last ? "in place" : u() < 0.03 ? "unknown" : u() < 0.05 ? "handed on" : "removed";
    const wrong = u() < 0.004;
    const timed = u() < 0.4;
    rows.push(
      [
        `L${at + 1}`,
        `P${Math.floor(u() * lines * 0.85)}`,
        shown(on, timed && stay > 0),
        kind,
        wrong ? date(on - 5) : shown(Math.min(out, last), stay > 0 && (timed ? u() < 0.9 : u() < 0.1)),
        kind === "removed" ? of(["treatment ended", "treatment ended", "died", "blocked", ""]) : "",
        of(["left arm", "right arm"]),
        of(["basilic", "basilic", "brachial", "cephalic", ""]),
        of([3, 4, 4, 5, 6, ""]),
        u() < 0.1 ? "" : 20 + Math.floor(u() * 70),
        of(["S1", "S2", "S3", "S4"]),
        of(["A", "A", "B", "C", "D", ""]),
        of(["ward", "ward", "home"]),
        bad ? "LOTBAD" : u() < 0.1 ? "" : lot,
        of(["c1", "c2"]),
        of(["infection", "solid cancer", "blood cancer", "other"]),
        events.join("; "),
      ].map(String),
    );
  }
  // few people are written as dead and seen again: those rows stop, here and in R
  for (const [at, row] of rows.entries())
    if (row[END_REASON] === "died" && at % 25 !== 0 && rows.some((other) => isLater(other, row)))
      row[END_REASON] = "treatment ended";
  return `${[HEAD, ...rows.map((row) => row.join(","))].join("\n")}\n`;
}

const [PATIENT, PLACED, END_AT, END_REASON] = [1, 2, 4, 5] as const;
const isLater = (other: readonly string[], row: readonly string[]): boolean =>
  other !== row &&
  other[PATIENT] === row[PATIENT] &&
  [PLACED, END_AT].some((at) => (other[at] as string).slice(0, 10) > (row[END_AT] as string).slice(0, 10));
