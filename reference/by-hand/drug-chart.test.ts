import { fewestLumens, type DrugChart, type FewestLumens, type Infusion } from "../../src/core/drug-chart/index.ts";
import { missing } from "../../src/core/missing/index.ts";
import { minute } from "../../src/core/quantity/index.ts";
import { checkAgainst } from "../check.ts";
import { generatedChart, plain, seeded, smallChart } from "../drug-chart-generator.ts";
import { slowIsIrreducible, slowLumens } from "./slow-lumens.ts";

const answerTo = (chart: DrugChart): FewestLumens => {
  const answer = fewestLumens(chart, { mayGoOn: () => true, shortRunMin: minute(60) });
  if (answer.kind === "refused") throw new Error(answer.faults.map(({ code }) => code).join());
  return answer;
};

const apart = (infusions: readonly Infusion[]): DrugChart => ({
  horizonDays: 1,
  infusions,
  compatibility: [],
  stepMin: minute(15),
  lumenFlowMlPerHour: missing("not known"),
});

const at = (id: string, startMin: number, runMin: number): Infusion =>
  plain(id, id, { kind: "at clock times", startsMin: [minute(startMin)], runMin: minute(runMin) });

checkAgainst(
  {
    quantity: "Fewest lumens when nothing wraps, moves or mixes",
    unit: "lumens",
    source:
      "interval graphs are perfect (Golumbic 1980, from memory): the answer is the peak overlap, counted by minute",
    kind: "by-hand",
    tolerance: 0,
    comparisons: 60,
  },
  (compare) => {
    for (let seed = 1; seed <= 60; seed += 1) {
      const random = seeded(seed);
      const infusions = Array.from({ length: 2 + (seed % 15) }, (_, index) => {
        const start = Math.floor(random() * 1200);
        return at(`drug ${index}`, start, 1 + Math.floor(random() * (1440 - start - 1)));
      });
      const running = (now: number) =>
        infusions.filter(
          ({ timing }) =>
            timing.kind === "at clock times" &&
            (timing.startsMin[0] as number) <= now &&
            now < (timing.startsMin[0] as number) + timing.runMin,
        ).length;
      const peak = Math.max(...Array.from({ length: 1440 }, (_, now) => running(now)));
      compare(`seed ${seed}`, answerTo(apart(infusions)).asCharted.lumens, peak);
    }
  },
);

checkAgainst(
  {
    quantity: "Fewest lumens round the clock: three doses that overlap in pairs",
    unit: "lumens",
    source: "circular-arc colouring, by hand: peak overlap 2, every pair meets, so 3",
    kind: "by-hand",
    tolerance: 0,
    comparisons: 2,
  },
  (compare) => {
    const three = [at("night", 22 * 60, 10 * 60), at("morning", 7 * 60, 9 * 60), at("evening", 15 * 60, 8 * 60)];
    const answer = answerTo(apart(three));
    compare("lumens", answer.asCharted.lumens, 3);
    compare("infusions of the proof", answer.asCharted.proof?.infusionIds.length ?? 0, 3);
  },
);

checkAgainst(
  {
    quantity: "Fewest lumens, moves and minutes moved, small charts",
    unit: "lumens, doses, minutes",
    source: "every move and every lumen tried, minute by minute (reference/by-hand/slow-lumens.ts)",
    kind: "by-hand",
    tolerance: 0,
    comparisons: 400,
  },
  (compare) => {
    for (let seed = 1; seed <= 100; seed += 1) {
      const chart = smallChart(seed);
      const answer = answerTo(chart);
      const slow = slowLumens(chart, true);
      compare(`seed ${seed}, as charted`, answer.asCharted.lumens, slowLumens(chart, false).lumens);
      compare(`seed ${seed}, re-timed`, answer.retimed.lumens, slow.lumens);
      compare(`seed ${seed}, doses moved`, answer.retimed.dosesMoved, slow.moves);
      compare(`seed ${seed}, minutes moved`, answer.retimed.totalMovedMin, slow.movedMin);
    }
  },
);

checkAgainst(
  {
    quantity: "Irreducible sets of infusions, small charts",
    unit: "1 where every infusion of the set is needed",
    source: "each left out in turn, every move and lumen tried (reference/by-hand/slow-lumens.ts)",
    kind: "by-hand",
    tolerance: 0,
    comparisons: 120,
  },
  (compare) => {
    for (let seed = 101; seed <= 160; seed += 1) {
      const chart = smallChart(seed);
      const { asCharted, retimed } = answerTo(chart);
      for (const [name, answer, moves] of [
        ["as charted", asCharted, false],
        ["re-timed", retimed, true],
      ] as const) {
        const needed = slowIsIrreducible(chart, answer.proof?.infusionIds ?? [], moves, answer.lumens - 1);
        compare(`seed ${seed}, ${name}`, Number(needed && answer.proof?.irreducible), 1);
      }
    }
  },
);

checkAgainst(
  {
    quantity: "Fewest lumens, charts a ward would know",
    unit: "lumens",
    source: "by hand, see the words beside each",
    kind: "by-hand",
    tolerance: 0,
    comparisons: 9,
  },
  (compare) => {
    const hour = (id: string, startMin: number, toleranceMin: number) => ({
      ...at(id, startMin, 60),
      toleranceMin: minute(toleranceMin),
    });
    const trio = (tolerance: number) => answerTo(apart(["a", "b", "c"].map((id) => hour(id, 8 * 60, tolerance))));
    compare("three hours at 08:00, fixed", trio(0).retimed.lumens, 3);
    compare("three hours at 08:00, 15 minutes either way", trio(15).retimed.lumens, 3);
    // 30 minutes either way: one at 07:30 and one at 08:30 fit on one lumen, the third needs its own
    compare("three hours at 08:00, 30 minutes either way", trio(30).retimed.lumens, 2);
    compare("three hours at 08:00, an hour either way", trio(60).retimed.lumens, 1);
    compare("moves then", trio(60).retimed.dosesMoved, 2);
    compare("minutes then", trio(60).retimed.totalMovedMin, 120);
    // nutrition 18:00 to 08:00 keeps its lumen all day, so a noon dose needs another; used in the gap, one would do
    const bag: Infusion = { ...at("bag", 18 * 60, 14 * 60), content: "nutrition", dedicated: true };
    const withNoon = answerTo(apart([bag, at("noon", 12 * 60, 60)]));
    compare("dedicated bag and a noon dose", withNoon.retimed.lumens, 2);
    compare(
      "the same, the gap used",
      withNoon.offers.find(({ kind }) => kind === "gap in a cyclic bag")?.lumens ?? 0,
      1,
    );
    // a bag that cycles every 24 h and runs 14 h blocks any drug given every 8 h from its lumen, whatever the tolerance
    const eightHourly: Infusion = {
      ...plain("8-hourly", "8-hourly", {
        kind: "at an interval",
        firstMin: minute(0),
        everyMin: minute(480),
        runMin: minute(30),
      }),
      toleranceMin: minute(120),
    };
    compare(
      "14 h bag, not dedicated, and an 8-hourly drug",
      answerTo(apart([{ ...bag, dedicated: false }, eightHourly])).retimed.lumens,
      2,
    );
  },
);

checkAgainst(
  {
    quantity: "Offers to take one infusion elsewhere",
    unit: "lumens",
    source: "the chart without it, answered anew",
    kind: "by-hand",
    tolerance: 0,
    comparisons: 30,
  },
  (compare) => {
    let made = 0;
    for (let seed = 1; made < 30; seed += 1) {
      const chart = generatedChart("dedicated", 6, seed, 60);
      for (const offer of answerTo(chart).offers) {
        if (offer.kind === "gap in a cyclic bag" || made === 30) continue;
        made += 1;
        const { id } = chart.infusions.find((infusion) => infusion.id === offer.infusionId) as Infusion;
        const without = {
          ...chart,
          infusions: chart.infusions.filter((infusion) => infusion.id !== id),
          compatibility: chart.compatibility.filter(({ first, second }) => first !== id && second !== id),
        };
        compare(`seed ${seed}, ${offer.kind} for ${id}`, offer.lumens, answerTo(without).retimed.lumens);
      }
    }
  },
);
