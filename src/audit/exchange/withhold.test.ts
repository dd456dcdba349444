import { describe, expect, test } from "vitest";
import { withholdStrata, type CountedStratum } from "./withhold.ts";
import type { PoolStratum } from "./pool-file.ts";

// A reader who has an audit of the same table beside the pool file tries every count that fits both. A count from one to
// four is withheld (common practice, no source); it is kept where some fitting count is five or more.

const SMALLEST = 5;
const sum = (counts: readonly number[]): number => counts.reduce((total, count) => total + count, 0);

/** Ends and risk sets of one group that agree with each other, from a fixed order of chance. */
function stratumOf(next: (most: number) => number, intervals: number): CountedStratum {
  const lines = 5 + next(9);
  const ends: number[][] = [];
  const atRisk: number[][] = [];
  let left = lines;
  for (let k = 0; k < intervals; k += 1) {
    const end = next(3) === 0 ? next(left) : next(Math.min(left, 2));
    atRisk.push([left]);
    ends.push([end]);
    left -= end + (next(2) === 0 ? next(left - end) : 0);
  }
  return { stratum: "all", lineDays: [lines * 20], events: [sum(ends.flat())], lines: [lines], atRisk, ends };
}

/** The most each withheld cell can be, for all that the file, the lines and the events of an audit say. */
function mostOf(file: PoolStratum, counted: CountedStratum) {
  const shownEnds = file.ends.map(([end]) => end as number | null);
  const shownRisk = file.atRisk.map(([risk]) => risk as number | null);
  const least = Number(shownEnds.some((end) => end !== null));
  const [lines] = counted.lines as readonly [number];
  const [events] = counted.events as readonly [number];
  const most = { ends: shownEnds.map(() => 0), atRisk: shownEnds.map(() => 0) };
  const seek = (k: number, ends: readonly number[], risks: readonly number[]): void => {
    if (k === shownEnds.length) {
      // an audit withholds a small total itself
      if (events >= SMALLEST && sum(ends) !== events) return;
      for (const [at, end] of ends.entries()) most.ends[at] = Math.max(most.ends[at] as number, end);
      for (const [at, risk] of risks.entries()) most.atRisk[at] = Math.max(most.atRisk[at] as number, risk);
      return;
    }
    const room = k === 0 ? lines : (risks[k - 1] as number) - (ends[k - 1] as number);
    // nobody enters late here, so whoever was placed is at risk in the first interval; noughts may be withheld later
    const riskFrom = shownRisk[k] ?? (k === 0 ? lines : 0);
    for (let risk = riskFrom; risk <= (shownRisk[k] ?? room) && risk <= room; risk += 1)
      for (let end = shownEnds[k] ?? least; end <= (shownEnds[k] ?? risk) && end <= risk; end += 1)
        seek(k + 1, [...ends, end], [...risks, risk]);
  };
  seek(0, [], []);
  return most;
}

describe("given a pool file and an audit of the same table", () => {
  test("no withheld end and no few at risk can be told to be few", () => {
    // Lehmer's generator, 48271 modulo 2^31 - 1 (Park and Miller 1993, from memory)
    let seed = 20251127;
    const next = (most: number) => {
      seed = (seed * 48_271) % 2_147_483_647;
      return most <= 0 ? 0 : seed % (most + 1);
    };
    let withheld = 0;
    const bad: string[] = [];
    for (let turn = 0; turn < 400; turn += 1) {
      const counted = stratumOf(next, 1 + (turn % 4));
      const [file] = withholdStrata([counted], SMALLEST) as readonly [PoolStratum];
      const most = mostOf(file, counted);
      for (const part of ["ends", "atRisk"] as const)
        for (const [k, [count]] of counted[part].entries()) {
          if (!(count !== undefined && count > 0 && count < SMALLEST)) continue;
          withheld += 1;
          expect(file[part][k]).toEqual([null]);
          if ((most[part][k] as number) < SMALLEST)
            bad.push(
              JSON.stringify([
                counted.lines,
                counted.ends.flat(),
                counted.atRisk.flat(),
                file.events,
                file.ends.flat(),
                file.atRisk.flat(),
                part,
                k,
                most[part],
              ]),
            );
        }
    }
    expect(bad).toEqual([]);
    expect(withheld).toBeGreaterThan(300);
  });

  const plain = (events: readonly number[], stratum = "all"): CountedStratum => ({
    stratum,
    lineDays: events.map(() => 400),
    events,
    lines: events.map(() => 40),
    atRisk: [events.map(() => 40)],
    ends: [events],
  });
  const eventsOf = (...strata: readonly (readonly number[])[]) =>
    withholdStrata(
      strata.map((events, at) => plain(events, `s${at}`)),
      SMALLEST,
    ).map(({ events }) => events);

  test("a small count of events has a second one withheld beside it, in each direction that an audit sums", () => {
    // 31 - 9 - 20 would give back the 2
    expect(eventsOf([2, 9, 20])).toEqual([[null, null, 20]]);
    expect(eventsOf([2, 20], [30, 9])).toEqual([
      [null, null],
      [null, null],
    ]);
  });

  test("the ends of a group do not add up to the events that are withheld as a cover", () => {
    const [file] = withholdStrata([plain([2, 9, 20])], SMALLEST);
    expect(file?.ends).toEqual([[null, null, 20]]);
  });

  test("five single ends, whose sum an audit prints, are withheld with the noughts among them", () => {
    // five withheld that are each no nought and add up to five are five ones
    const ends = [[1], [1], [0], [1], [1], [1]];
    const counted = { ...plain([5]), atRisk: ends.map(() => [40]), ends };
    expect(withholdStrata([counted], SMALLEST)[0]?.ends).toEqual(ends.map(() => [null]));
  });

  test("where nothing is small the file is what was counted, so sums over services stay those of the joined lines", () => {
    const counted = [plain([5, 9]), plain([0, 20], "other")];
    expect(withholdStrata(counted, SMALLEST)).toEqual(counted);
  });
});
