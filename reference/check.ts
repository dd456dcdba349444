/**
 * One comparison with something that is not us. `compare` asserts it and keeps it for docs/validation.md, which lists
 * every outside check with its tolerance and the worst error seen in the run.
 */
import { mkdirSync, writeFileSync } from "node:fs";
import { afterAll, describe, expect, test } from "vitest";

/** published: printed by someone else; by-hand: algebra a reader can redo; independent: other software; trade: common practice, no source. */
export type CheckKind = "published" | "by-hand" | "independent" | "trade";

export interface CheckSet {
  readonly quantity: string;
  readonly unit: string;
  readonly source: string;
  readonly kind: CheckKind;
  /** Largest |ours - theirs|, or with `relative`, largest |ours - theirs| / |theirs|. */
  readonly tolerance: number;
  readonly relative?: boolean;
  /** How many comparisons the set must make; fewer means one was skipped, and the set fails. */
  readonly comparisons: number;
}

export interface CheckResult extends CheckSet {
  readonly made: number;
  readonly worst: number;
  readonly worstAt: string;
}

export type Compare = (place: string, ours: number, theirs: number) => void;

/** Declares a set of comparisons as one test named for the quantity, and stores its live worst error. */
export function checkAgainst(set: CheckSet, run: (compare: Compare) => void): void {
  describe(set.quantity, () => {
    let made = 0;
    let worst = 0;
    let worstAt = "-";
    test(`agrees with ${set.source}`, () => {
      run((place, ours, theirs) => {
        made += 1;
        // nought beside nought, and no limit beside no limit, are the same
        const apart = ours === theirs ? 0 : Math.abs(ours - theirs);
        const error = set.relative && apart > 0 ? apart / Math.abs(theirs) : apart;
        if (!(error <= worst)) {
          worst = error;
          worstAt = place;
        }
        expect(error, `${place}: ours ${ours}, theirs ${theirs}`).toBeLessThanOrEqual(set.tolerance);
      });
      expect(made, "comparisons made").toBe(set.comparisons);
    });
    afterAll(() => {
      const result: CheckResult = { ...set, made, worst, worstAt };
      mkdirSync(".cache/validation", { recursive: true });
      const name = `${set.quantity}--${set.source}`.replace(/[^a-z0-9]+/gi, "-").slice(0, 150);
      writeFileSync(`.cache/validation/${name}.json`, JSON.stringify(result));
    });
  });
}

/** One number of ours beside the same number of somebody else. */
export type Pair = readonly [place: string, ours: number, theirs: number];

/** Declares a set of comparisons that is a list of pairs; the unit "relative" makes the tolerance a relative one. */
export function checkPairs(
  set: Pick<CheckSet, "quantity" | "source" | "kind" | "tolerance" | "unit">,
  pairs: readonly Pair[],
): void {
  checkAgainst({ ...set, relative: set.unit === "relative", comparisons: pairs.length }, (compare) => {
    for (const [place, ours, theirs] of pairs) compare(place, ours, theirs);
  });
}
