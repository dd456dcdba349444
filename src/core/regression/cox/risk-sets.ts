import { ascendingOrder } from "../../survival/index.ts";

/** One row per line, or per stretch of a line with its own entry. At equal times events come before censoring. */
export interface EventTimes {
  /** Time at which the row came under observation; absent means from the start. A row is at risk after its entry. */
  readonly entry?: ArrayLike<number>;
  readonly exit: ArrayLike<number>;
  /** 1 for the event, 0 for censored. */
  readonly event: ArrayLike<number>;
  /** Rows are compared only within their stratum: wards, or the number of the event in PWP. */
  readonly stratum?: ArrayLike<number>;
}

/** Rows laid out by stratum and falling exit, events first among equals, so that a risk set is what was met so far. */
export interface RiskSets {
  readonly rows: number;
  /** Row in the layout -> row as given. */
  readonly source: Uint32Array;
  /** Exit, entry where there is one, and event, in the layout. */
  readonly exit: Float64Array;
  readonly entry: Float64Array | undefined;
  readonly event: Uint8Array;
  /** Rows of the layout by stratum and falling entry. */
  readonly leaving: Uint32Array;
  /** One for every stratum and time with an event. */
  readonly places: number;
  readonly time: Float64Array;
  readonly stratum: Float64Array;
  /** First row of the stratum; rows from there up to `joined` have exit >= time. */
  readonly first: Uint32Array;
  readonly joined: Uint32Array;
  /** Rows of `leaving` from `first` up to here have entry >= time. */
  readonly left: Uint32Array;
  /** Rows from here up to `deathsEnd` have the event at this time. */
  readonly deaths: Uint32Array;
  readonly deathsEnd: Uint32Array;
}

/** RangeError, with the row, for times or codes that cannot be used. */
export function riskSets(times: EventTimes): RiskSets {
  const rows = times.exit.length;
  checkTimes(times, rows);
  const byExit = ascendingOrder(times.exit).reverse();
  const source = eventsFirst(byStratum(byExit, times.stratum), times);
  const exit = new Float64Array(rows);
  const entry = times.entry === undefined ? undefined : new Float64Array(rows);
  const event = new Uint8Array(rows);
  const stratum = new Float64Array(rows);
  for (let i = 0; i < rows; i += 1) {
    const row = source[i] as number;
    exit[i] = times.exit[row] as number;
    event[i] = times.event[row] as number;
    if (entry !== undefined) entry[i] = times.entry?.[row] as number;
    if (times.stratum !== undefined) stratum[i] = times.stratum[row] as number;
  }
  const leaving = entry === undefined ? new Uint32Array(0) : byStratum(ascendingOrder(entry).reverse(), stratum);
  const most = countPlaces(exit, event, stratum);
  const found = {
    time: new Float64Array(most),
    stratum: new Float64Array(most),
    first: new Uint32Array(most),
    joined: new Uint32Array(most),
    left: new Uint32Array(most),
    deaths: new Uint32Array(most),
    deathsEnd: new Uint32Array(most),
  };
  let places = 0;
  let first = 0;
  let left = 0;
  for (let i = 0; i < rows;) {
    if (i > 0 && stratum[i] !== stratum[i - 1]) {
      first = i;
      left = i;
    }
    const now = exit[i] as number;
    const deaths = i;
    while (i < rows && exit[i] === now && event[i] === 1 && stratum[i] === stratum[deaths]) i += 1;
    const deathsEnd = i;
    while (i < rows && exit[i] === now && stratum[i] === stratum[deaths]) i += 1;
    if (deathsEnd === deaths) continue;
    if (entry !== undefined) {
      while (
        left < rows &&
        stratum[leaving[left] as number] === stratum[deaths] &&
        (entry[leaving[left] as number] as number) >= now
      ) {
        left += 1;
      }
    }
    found.time[places] = now;
    found.stratum[places] = stratum[deaths] as number;
    found.first[places] = first;
    found.joined[places] = i;
    found.left[places] = left;
    found.deaths[places] = deaths;
    found.deathsEnd[places] = deathsEnd;
    places += 1;
  }
  return {
    rows,
    source,
    exit,
    entry,
    event,
    leaving,
    places,
    ...found,
  };
}

/** Strata and times with an event, in rows laid out with the events first among equals. */
function countPlaces(exit: Float64Array, event: Uint8Array, stratum: Float64Array): number {
  let places = 0;
  for (let i = 0; i < exit.length; i += 1) {
    const again = i > 0 && event[i - 1] === 1 && exit[i] === exit[i - 1] && stratum[i] === stratum[i - 1];
    if (event[i] === 1 && !again) places += 1;
  }
  return places;
}

function checkTimes(times: EventTimes, rows: number): void {
  const { entry, event, stratum } = times;
  for (const [name, values] of Object.entries({ entry, event, stratum })) {
    if (values !== undefined && values.length !== rows) {
      throw new RangeError(`There are ${rows} exits and ${values.length} of ${name}; give one of each for every row.`);
    }
  }
  for (let i = 0; i < rows; i += 1) {
    const exit = times.exit[i] as number;
    const happened = event[i];
    if (!Number.isFinite(exit)) throw new RangeError(`Row ${i + 1} leaves at ${exit}; an exit is a finite time.`);
    if (happened !== 0 && happened !== 1) {
      throw new RangeError(`Row ${i + 1} has event ${happened}; it is 0 or 1.`);
    }
    if (entry !== undefined && !((entry[i] as number) < exit)) {
      throw new RangeError(`Row ${i + 1} enters at ${entry[i]} and leaves at ${exit}; entry comes first.`);
    }
    if (stratum !== undefined && !Number.isFinite(stratum[i])) {
      throw new RangeError(`Row ${i + 1} has stratum ${stratum[i]}; a stratum is a finite code.`);
    }
  }
}

/** The same order within each stratum, strata ascending. */
function byStratum(order: Uint32Array<ArrayBuffer>, stratum?: ArrayLike<number>): Uint32Array<ArrayBuffer> {
  if (stratum === undefined) return order;
  const codes = Float64Array.from(order, (row) => stratum[row] as number);
  return ascendingOrder(codes).map((place) => order[place] as number);
}

/** Among equal times of a stratum, rows with the event come first. */
function eventsFirst(order: Uint32Array<ArrayBuffer>, times: EventTimes): Uint32Array<ArrayBuffer> {
  const rows = order.length;
  const same = (a: number, b: number) =>
    times.exit[a] === times.exit[b] && (times.stratum === undefined || times.stratum[a] === times.stratum[b]);
  const result = new Uint32Array(rows);
  let filled = 0;
  for (let i = 0; i < rows;) {
    let end = i;
    while (end < rows && same(order[i] as number, order[end] as number)) end += 1;
    for (const wanted of [1, 0]) {
      for (let k = i; k < end; k += 1) {
        if (times.event[order[k] as number] !== wanted) continue;
        result[filled] = order[k] as number;
        filled += 1;
      }
    }
    i = end;
  }
  return result;
}
