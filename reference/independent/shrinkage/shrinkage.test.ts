import {
  binomialFunnel,
  overdispersion,
  poissonFunnel,
  posterior,
  shrinkRates,
} from "../../../src/core/shrinkage/index.ts";
import { checkAgainst } from "../../check.ts";
import { column, dataset } from "../../data/dataset.ts";

const PUMPS = {
  count: [5, 1, 5, 14, 3, 19, 1, 1, 4, 22],
  exposure: [94.32, 15.72, 62.88, 125.76, 5.24, 31.44, 1.048, 1.048, 2.096, 10.48],
};

checkAgainst(
  {
    quantity: "Rates drawn towards their mean: ten pumps and lip cancer",
    unit: "relative",
    source: "R 4.2.2, MASS 7.3-58.2 glm.nb on Gaver and O'Muircheartaigh 1987; Clayton and Kaldor 1987",
    kind: "independent",
    tolerance: 1e-5,
    relative: true,
    comparisons: 19,
  },
  (compare) => {
    const pumps = shrinkRates(PUMPS);
    if (pumps.kind !== "shrunk") return; // then the count of comparisons fails
    compare("shape", pumps.shape, 0.822268413);
    compare("rate", pumps.rate, 1.25895417);
    compare("log likelihood", pumps.logLikelihood, -32.263067);
    const means = [
      0.0609157996, 0.107325127, 0.0907758552, 0.116693359, 0.588135924, 0.606204966, 0.789902305, 0.789902305,
      1.43735746, 1.94414835,
    ];
    for (const [k, mean] of means.entries()) compare(`pump ${k + 1}`, pumps.units[k]?.mean as number, mean);
    const lip = dataset("epiR_epi.SClip");
    const count = column(lip, "cases");
    const people = column(lip, "population");
    const share = count.reduce((a, b) => a + b, 0) / people.reduce((a, b) => a + b, 0);
    const districts = shrinkRates({ count, exposure: people.map((number) => number * share) });
    if (districts.kind !== "shrunk") return;
    compare("districts, shape", districts.shape, 1.50206266);
    compare("districts, rate", districts.rate, 0.981639897);
    const skye = lip.findIndex((row) => row["district"]?.startsWith("Skye"));
    compare("Skye-Lochalsh, raw", (count[skye] as number) / (people[skye] as number) / share, 8.88038663);
    compare("Skye-Lochalsh", districts.units[skye]?.mean as number, 5.26390346);
    compare("prior of four events", 1000 * posterior(4, 4000, 7, 4321.5).mean, 1.32187707);
    compare("Jeffreys", 1000 * posterior(0.5, 0, 7, 4321.5).mean, 1.7355085);
  },
);

const SHARES = [0.001, 0.025, 0.975, 0.999];

checkAgainst(
  {
    quantity: "Funnel limits, Poisson and binomial",
    unit: "ratio, proportion or rate",
    source: "Spiegelhalter 2005, formula evaluated with qpois, ppois, qbinom, pbinom of R 4.2.2",
    kind: "independent",
    tolerance: 1e-8,
    comparisons: 36,
  },
  (compare) => {
    const binomial = [
      [100, 0, 0.00612293144, 0.091907344, 0.124638495],
      [250, 0.0108831602, 0.0226043393, 0.0766983174, 0.0954416934],
      [1000, 0.0295033474, 0.0364043477, 0.0634464932, 0.0720166796],
    ] as const;
    for (const [size, ...limits] of binomial) {
      const ours = binomialFunnel(size, 0.05, SHARES);
      for (const [k, limit] of limits.entries())
        compare(`${size} at 0.05, ${SHARES[k]}`, (ours[k] as number) / size, limit);
    }
    const poisson = [
      [5, 0, 0.108413159, 1.87531172, 2.55427076],
      [10, 0.122052932, 0.377518795, 1.61599507, 2.06620008],
      [25, 0.4199413, 0.607006261, 1.39106869, 1.65386094],
      [100, 0.700652843, 0.803663371, 1.19580895, 1.3180475],
    ] as const;
    for (const [expected, ...limits] of poisson) {
      const ours = poissonFunnel(expected, SHARES);
      for (const [k, limit] of limits.entries())
        compare(`expected ${expected}, ${SHARES[k]}`, (ours[k] as number) / expected, limit);
    }
    const rate = (days: number) => poissonFunnel((1.2 * days) / 1000, SHARES).map((count) => (1000 * count) / days);
    for (const [k, limit] of [0.136297693, 0.433274283, 1.95812436, 2.49756744].entries()) {
      compare(`8000 days, ${SHARES[k]}`, rate(8000)[k] as number, limit);
    }
    compare("2000 days, 0.975", rate(2000)[2] as number, 2.72161973);
    compare("2000 days, 0.999", rate(2000)[3] as number, 3.97213527);
    compare(
      "threshold of twelve units",
      overdispersion(Array(12).fill(1), Array(12).fill(1), { winsorise: 0, fewest: 10 }).threshold,
      1.81649658,
    );
    // at large means the limits come near mean + z sqrt(mean)
    compare(
      "expected 1,000,000, 0.975, in errors",
      (poissonFunnel(1e6, [0.975])[0] as number) / 1e6,
      1 + 1.9599639845e-3 + (1.9599639845 ** 2 - 1) / 6e6 - 0.5e-6,
    );
  },
);

checkAgainst(
  {
    quantity: "Overdispersion of a funnel",
    unit: "relative",
    source: "Spiegelhalter 2005, worked by hand on four and five units",
    kind: "by-hand",
    tolerance: 1e-12,
    relative: true,
    comparisons: 6,
  },
  (compare) => {
    const four = overdispersion([-3, 3, -1, 1], [1, 1, 0.5, 0.5], { winsorise: 0, fewest: 4 });
    compare("mean square", four.dispersion, 5);
    compare("threshold", four.threshold, 1 + 2 * Math.sqrt(0.5));
    // w = 1, 1, 4, 4: (4 x 5 - 3) / (10 - 34 / 10)
    compare("between", four.between, 17 / 6.6);
    compare("widened", four.widen ? 1 : 0, 1);
    const five = overdispersion([-9, -1, 1, 2, 7], [1, 1, 1, 1, 1], { winsorise: 0.2, fewest: 10 });
    compare("extremes set to the next", five.dispersion, (1 + 1 + 1 + 4 + 4) / 5);
    compare("too few to widen", five.widen ? 2 : 1, 1);
  },
);
