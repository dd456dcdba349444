import { grayTest, riskTable } from "../../../src/core/survival/index.ts";
import { checkAgainst } from "../../check.ts";
import { generatedLines, uniformFrom } from "../../generated-lines.ts";
import { type AlikeLines, slowGrayGroups } from "./slow-gray.ts";

const groupsOf = (lines: ReturnType<typeof generatedLines>, groups: number) =>
  lines.patient.map((patient, i) => (groups === 3 ? (lines.group[i] as number) : patient % groups));

checkAgainst(
  {
    quantity: "Gray's test of every kind of end in two to four groups",
    unit: "relative",
    source: "what each end does to the scores, summed by definition",
    kind: "by-hand",
    tolerance: 1e-9,
    relative: true,
    comparisons: 2 * 2 * 3 * 3,
  },
  (compare) => {
    for (const seed of [31, 32]) {
      for (const grain of [0, 4]) {
        const lines = generatedLines(seed, 36, { grain });
        for (const groups of [2, 3, 4]) {
          const group = groupsOf(lines, groups);
          const table = riskTable({ exit: lines.exit, end: lines.end, group });
          const alike: AlikeLines[] = lines.exit.map((exit, i) => ({
            exit,
            end: lines.end[i] as number,
            group: group[i] as number,
            lines: 1,
          }));
          for (const kind of [1, 2, 3]) {
            const rho = kind - 1;
            compare(
              `seed ${seed}, grain ${grain}, ${groups} groups, kind ${kind}, rho ${rho}`,
              grayTest([table], kind, rho).statistic,
              slowGrayGroups(alike, kind, rho),
            );
          }
        }
      }
    }
  },
);

checkAgainst(
  {
    quantity: "Gray's test where the groups are dealt at random",
    unit: "mean of the statistic",
    source: "a chi-square has its degrees of freedom as its mean; 2000 deals, whose mean errs by 0.045",
    kind: "by-hand",
    tolerance: 0.18,
    comparisons: 3,
  },
  (compare) => {
    const uniform = uniformFrom(5);
    const lines = generatedLines(41, 250, { grain: 2 });
    const sums = [0, 0, 0];
    for (let deal = 0; deal < 2000; deal += 1) {
      const group = lines.exit.map(() => Math.floor(uniform() * 3));
      const table = riskTable({ exit: lines.exit, end: lines.end, group });
      for (const k of [0, 1, 2]) sums[k] = (sums[k] as number) + grayTest([table], k + 1).statistic;
    }
    for (const [k, sum] of sums.entries()) compare(`kind ${k + 1}`, sum / 2000, 2);
  },
);
