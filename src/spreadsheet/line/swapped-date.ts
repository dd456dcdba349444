import { civilDateFromDayNumber, dayNumber, parseCivilDate } from "../../core/calendar/index.ts";
import type { Doubt } from "./doubt-ledger.ts";
import { GrowingList } from "./grown.ts";

/** What these rules read of a list of days. */
interface Days {
  readonly length: number;
  readonly at: (index: number) => number;
}

/** The day with its day and month changed places, where that is another day that exists. */
function swappedDay(day: number): number | undefined {
  const [year, month, date] = civilDateFromDayNumber(day).split("-");
  const swapped = parseCivilDate(`${year}-${date}-${month}`);
  return swapped && month !== date ? dayNumber(swapped) : undefined;
}

/** Neighbours looked at on each side of a row, and how many rows make an order. */
const BESIDE = 5;
const FEWEST = 20;
/** A table typed in time order has this share of rows that follow the one above, a week's disorder allowed. */
const ORDERED_SHARE = 0.8;
const WEEK = 7;
/** The day that fits must lie within the neighbours' own span, so many days allowed. */
const FITS_WITHIN = 3;

/**
 * Rows of a table in time order whose placing lies far from its neighbours and would lie among them with day and month
 * changed places.
 *   lo, hi: second least and second most placing of five rows on each side; far: beyond them by more than `farDays`
 * Units: day numbers. Holds: 20 rows or more in order, upwards or downwards, else nothing is doubted. Source: common
 * practice, no source. Example: 06/05 between rows of 4 to 8 June is 5 June or 6 May.
 */
export function* placingsOutOfOrder(placed: Days, farDays: number): Generator<Doubt> {
  if (placed.length < FEWEST) return;
  let up = 0;
  let down = 0;
  for (let at = 1; at < placed.length; at += 1) {
    const step = placed.at(at) - placed.at(at - 1);
    if (step >= -WEEK) up += 1;
    if (step <= WEEK) down += 1;
  }
  if (Math.max(up, down) < ORDERED_SHARE * (placed.length - 1)) return;
  for (let at = 0; at < placed.length; at += 1) {
    const beside: number[] = [];
    for (let other = Math.max(0, at - BESIDE); other <= Math.min(placed.length - 1, at + BESIDE); other += 1)
      if (other !== at) beside.push(placed.at(other));
    beside.sort((a, b) => a - b);
    const [low, high] = [beside[1] as number, beside.at(-2) as number];
    const written = placed.at(at);
    if (written >= low - farDays && written <= high + farDays) continue;
    const swapped = swappedDay(written);
    if (swapped === undefined || swapped < low - FITS_WITHIN || swapped > high + FITS_WITHIN) continue;
    const found = civilDateFromDayNumber(written);
    yield { at, code: "day and month", field: "placedOn", found, against: civilDateFromDayNumber(swapped) };
  }
}

const FAR_OUT = 3;
const INSIDE = 1.5;

/**
 * Stays far longer than the table's others that would be in keeping with day and month of the removal changed places.
 *   far: above Q3 + 3 (Q3 - Q1); in keeping: from 0 to Q3 + 1.5 (Q3 - Q1)
 * Units: day numbers. Holds: 20 removed lines or more. Source: Tukey 1977, Exploratory Data Analysis, ch. 2 (from memory).
 */
export function* staysOutOfKeeping(placed: Days, removed: Days, noDay: number): Generator<Doubt> {
  const stays = new GrowingList(new Float64Array(1024));
  for (let at = 0; at < placed.length; at += 1) if (removed.at(at) !== noDay) stays.add(removed.at(at) - placed.at(at));
  if (stays.length < FEWEST) return;
  const sorted = stays.values().sort();
  const quarter = (share: number) => sorted[Math.floor(share * (sorted.length - 1))] as number;
  const [low, high] = [quarter(0.25), quarter(0.75)];
  for (let at = 0; at < placed.length; at += 1) {
    const out = removed.at(at);
    if (out === noDay || out - placed.at(at) <= high + FAR_OUT * (high - low)) continue;
    const swapped = swappedDay(out);
    const stay = swapped === undefined ? -1 : swapped - placed.at(at);
    if (swapped === undefined || stay < 0 || stay > high + INSIDE * (high - low)) continue;
    const found = civilDateFromDayNumber(out);
    yield { at, code: "day and month", field: "removedOn", found, against: civilDateFromDayNumber(swapped) };
  }
}
