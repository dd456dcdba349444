import { checkAgainst, type Compare } from "../../check.ts";

/** What is promised: 1e-13 of the value, or 8 units in the last place times the condition number where that is larger. */
const allowed = (condition: number) => Math.max(1e-13, 8 * Number.EPSILON * condition);

/** Every comparison is the error as a share of what is allowed at that place, so the worst share and its place are reported. */
export function checkShares(
  quantity: string,
  comparisons: number,
  run: (share: (place: string, ours: number, theirs: number, condition: number) => void) => void,
): void {
  checkAgainst(
    {
      quantity,
      unit: "error / (1e-13, or 8 eps x condition)",
      source: "mpmath 1.3.0, 380 digits",
      kind: "independent",
      tolerance: 1,
      comparisons,
    },
    (compare: Compare) => {
      run((place, ours, theirs, condition) =>
        compare(place, ours === theirs ? 0 : Math.abs(ours / theirs - 1) / allowed(condition), 0),
      );
    },
  );
}
