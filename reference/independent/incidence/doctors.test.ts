import { mantelHaenszel, rateRatio, standardisedRate, type EventsInDays } from "../../../src/core/incidence/index.ts";
import { chiSquareTail } from "../../../src/core/distribution/index.ts";
import { poissonRegression } from "../../../src/core/regression/index.ts";
import { column, dataset } from "../../data/dataset.ts";
import { both, known, seen, values } from "./program-values.ts";

const doctors = dataset("boot_breslow");
const [deaths, years, smokes] = ["y", "n", "smoke"].map((name) => column(doctors, name)) as [
  number[],
  number[],
  number[],
];
const bands = [0, 1, 2, 3, 4];
const of = (smoke: 0 | 1) =>
  bands.map((band) => seen(deaths[band + 5 * smoke] as number, years[band + 5 * smoke] as number));
const strata = bands.map((band) => ({
  first: of(1)[band] as EventsInDays<"exact">,
  second: of(0)[band] as EventsInDays<"exact">,
}));
const all = (smoke: 0 | 1) =>
  seen(
    of(smoke).reduce((sum, { events }) => sum + events, 0),
    of(smoke).reduce((sum, { days }) => sum + days, 0),
  );
const pooled = known(mantelHaenszel(strata, 0.95));
const model = poissonRegression({
  count: deaths,
  exposure: years,
  covariates: [
    { name: "smoker", values: smokes },
    ...bands.slice(1).map((band) => ({ name: `band ${band}`, values: deaths.map((_, i) => (i % 5 === band ? 1 : 0)) })),
  ],
});
if (model.kind !== "fitted") throw new Error(model.kind);
const weights = bands.map((band) => (years[band] as number) + (years[band + 5] as number));
const standard = (smoke: 0 | 1) =>
  standardisedRate(
    of(smoke).map((one, band) => ({ ...one, weight: weights[band] as number })),
    0.95,
  );
values(
  "British doctors: rates over strata of age",
  "R 4.2.2 on boot 1.3-28.1 breslow; glm, qchisq",
  [
    ["crude", known(rateRatio(all(1), all(0), 0.95, "exact")).ratio, 1.71982259],
    ["pooled", pooled.ratio.ratio, 1.42468202],
    ...both("pooled", pooled.ratio, 1.1547031, 1.75778418),
    ["chi square", pooled.chiSquare, 11.0161947],
    ["difference", pooled.difference.perThousand, 1.14391883],
    ["difference, error", pooled.difference.standardErrorPerThousand, 0.309414432],
    ["Poisson model", Math.exp(model.coefficients[1]?.value as number), 1.42551854],
    ["heterogeneity", model.deviance, 12.1323664],
    ["heterogeneity, chance", chiSquareTail("upper", model.deviance, 4), 0.0163936],
    ["smokers", standard(1).perThousand, 4.26670447],
    ...both("smokers", standard(1), 3.93980985, 4.61425183),
    ["non-smokers", standard(0).perThousand, 3.0055613],
    ...both("non-smokers", standard(0), 2.44431699, 3.66065629),
  ],
  2e-6,
);
