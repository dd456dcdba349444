import type { Timing } from "../core/drug-chart/index.ts";
import { minute, type Minute } from "../core/quantity/index.ts";

const MINUTES_IN_DAY = 1440;

/**
 * When an infusion runs, as a chart says it: clock times ("06:00 18:00"), an interval ("every 8 h from 06:00", "8-hourly
 * from 06:00"), or "continuous". Undefined for anything else.
 */
export function readTimes(text: string, runMin: Minute): Timing | undefined {
  const words = text.trim().toLowerCase();
  if (words === "continuous") return { kind: "continuous" };
  const [, every, hourly, from] = /^(?:every (\d+(?:[.,]5)?) ?h(?:ours)?|(\d+)-hourly) from (\S+)$/.exec(words) ?? [];
  const first = from === undefined ? undefined : clockMinute(from);
  const hours = every ?? hourly;
  if (hours !== undefined) {
    const everyMin = Number(hours.replace(",", ".")) * 60;
    return first === undefined
      ? undefined
      : { kind: "at an interval", firstMin: first, everyMin: minute(everyMin), runMin };
  }
  const parts = words.split(/[\s,;]+/).filter((part) => part !== "");
  const starts = parts.map(clockMinute);
  if (starts.length === 0 || starts.some((start) => start === undefined)) return undefined;
  return { kind: "at clock times", startsMin: starts as Minute[], runMin };
}

/** "06:00", "6:00", "0600" or "6" as minutes after midnight. */
function clockMinute(text: string): Minute | undefined {
  const [, hours = "", minutes = "0"] = /^(\d{1,2})(?::?(\d{2}))?$/.exec(text) ?? [];
  const value = Number(hours) * 60 + Number(minutes);
  return hours !== "" && Number(minutes) < 60 && value < MINUTES_IN_DAY ? minute(value) : undefined;
}
