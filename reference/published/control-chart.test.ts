import {
  baseRate,
  bernoulliDesign,
  bernoulliRunLength,
  countChartRunLength,
  countCusumRunLength,
  cusumReference,
  decisionLimit,
  eventsToSignal,
  gChartLimits,
  longExposureGap,
  overdispersion,
  riskWeight,
  runLimits,
  shortExposureGaps,
  shortLineGaps,
  tChartLimits,
  uChart,
} from "../../src/core/control-chart/index.ts";
import { checkAgainst, checkPairs, type CheckKind, type Pair } from "../check.ts";

const values = (quantity: string, source: string, tolerance: number, kind: CheckKind, pairs: readonly Pair[]): void =>
  checkPairs({ quantity, source, tolerance, kind, unit: "relative" }, pairs);

const rule = { sigmas: 3, bound: 0.00135 };

/** Ten rolls of dyed cloth: Montgomery, Introduction to Statistical Quality Control, ch. 7 (from memory). */
const areas = [10, 8, 13, 10, 9.5, 10, 12, 10.5, 12, 12.5];
const rolls = [14, 12, 20, 11, 7, 10, 21, 16, 19, 23].map((events, at) => ({ events, exposure: areas[at] as number }));
const cloth = uChart(rolls, baseRate(rolls), rule);
const shipments = [{ events: 74, exposure: 1000 }];
const weeks = uChart([{ events: 4, exposure: 50 }], baseRate(shipments), rule);

values("u charts in a textbook", "Montgomery, ch. 7 (from memory)", 1e-3, "published", [
  ["shipments, centre", baseRate(shipments), 0.074],
  ["shipments, upper", weeks[0]?.upper ?? 0, 0.1894],
  ["cloth, centre", Math.round(100 * baseRate(rolls)) / 100, 1.42],
]);
values("u chart limits", "R 4.2.2, the formula of Montgomery, ch. 7", 1e-8, "independent", [
  ["shipments, upper", weeks[0]?.upper ?? 0, 0.189412304],
  ["shipments, lower", weeks[0]?.lower ?? 1, 0],
  ["cloth, centre", baseRate(rolls), 1.42325581],
  ["cloth at 8, upper", cloth[1]?.upper ?? 0, 2.68862643],
  ["cloth at 8, lower", cloth[1]?.lower ?? 0, 0.1578852],
  ["cloth at 10, upper", cloth[0]?.upper ?? 0, 2.5550377],
  ["cloth at 12, lower", cloth[6]?.lower ?? 0, 0.390085034],
  ["cloth at 13, upper", cloth[2]?.upper ?? 0, 2.41589419],
  ["cloth, sigma z", overdispersion(rolls).sigmaZ, 0.67856746],
  ["cloth, X2 on df", overdispersion(rolls).chiSquare / overdispersion(rolls).degreesOfFreedom, 0.890233628],
]);

const month = uChart([{ events: 5, exposure: 0.715 }], 1.56678418, rule)[0];
values("A month of five events in 715 days", "R 4.2.2, ppois", 1e-7, "independent", [
  ["classical upper", month?.upper ?? 0, 6.00770287],
  ["the point", month?.rate ?? 0, 6.99300699],
  ["exact tail", month?.asManyOrMore ?? 0, 0.00585759382],
  ["outside the classical limit", Number(month?.outsideClassical), 1],
  ["no exact signal", Number(month?.signal === undefined), 1],
]);

/** Invented gaps, so that a reader can redo the sums. */
const gaps = [25, 62, 14, 38, 91, 7, 120, 55, 33, 48, 72, 19, 81, 10, 45, 66, 28, 52, 97];
const g = gChartLimits(gaps, rule);
values("g chart limits", "R 4.2.2, qgeom and pnbinom", 1e-8, "independent", [
  ["mean", g.mean, 50.6842105],
  ["chance", g.chance, 0.0193482688],
  ["unbiased chance", g.unbiasedChance, 0.0183299389],
  ["classical upper", g.classicalUpper, 204.229515],
  ["median", g.median, 35],
  ["lower", g.lower, 0],
  ["upper", g.upper, 338],
  ["five short gaps", shortLineGaps([3, 12, 8, 6, 15], g.mean), 0.00254811843],
]);

const mean = 521.736842;
const t = tChartLimits([mean, mean], 0.00135);
values("t chart limits", "R 4.2.2, qexp and pgamma", 1e-8, "independent", [
  ["median", t.median, 361.640421],
  ["lower", t.lower, 0.704820598],
  ["upper", t.upper, 3447.4548],
  ["five short gaps", shortExposureGaps([100, 100, 100, 100, 42], mean), 0.00180847889],
  ["2600 days without", longExposureGap(2600, mean), 0.00685103742],
]);

values("Run limits", "Anhoej and Olesen 2014, PLoS One 9:e113825 (from memory)", 0, "published", [
  ["12, longest", runLimits(12).longest, 7],
  ["12, crossings", runLimits(12).fewest, 3],
  ["20, longest", runLimits(20).longest, 7],
  ["20, crossings", runLimits(20).fewest, 6],
  ["24, longest", runLimits(24).longest, 8],
  ["24, crossings", runLimits(24).fewest, 8],
  ["36, longest", runLimits(36).longest, 8],
  ["36, crossings", runLimits(36).fewest, 13],
]);

const count = (mean: number, reference: number, decision: number, gridPerEvent: number, headStart = 0) =>
  countCusumRunLength(mean, { reference, decision, gridPerEvent, headStart });
values("Run length of count CUSUMs", "R packages surveillance 1.20.3 (arlCusum) and spc 0.6.7", 1e-8, "independent", [
  ["1, 1.5, 4", count(1, 1.5, 4, 2), 121.952316],
  ["1, 1.5, 4, head start", count(1, 1.5, 4, 2, 2), 112.186183],
  ["2, 1.5, 4", count(2, 1.5, 4, 2), 7.50550827],
  ["1, 1.5, 5", count(1, 1.5, 5, 2), 273.649972],
  ["2, 1.5, 5", count(2, 1.5, 5, 2), 9.43829287],
  ["4, 5, 10", count(4, 5, 10, 1), 421.650098],
  ["4, 5, 10, head start", count(4, 5, 10, 1, 5), 397.470627],
  ["7, 5, 10", count(7, 5, 10, 1), 5.59434932],
  // a signal only beyond the decision is a decision one grid step higher
  ["1, 1.5, over 4", count(1, 1.5, 4.5, 2), 183.902365],
  ["4, 5, over 10", count(4, 5, 11, 1), 655.475181],
]);

values("Points to a signal of count charts", "R 4.2.2, ppois", 1e-8, "independent", [
  ["0.5", countChartRunLength(2, 0.5), 69.5039187],
  ["0.5 doubled", countChartRunLength(2, 1), 12.4530835],
  ["2", countChartRunLength(6, 2), 220.565261],
  ["8", countChartRunLength(16, 8), 268.960268],
  ["8 doubled", countChartRunLength(16, 16), 2.30394798],
]);

const bernoulli = (chance: number, upStep: number, decision: number) =>
  bernoulliRunLength(chance, { upStep, decision });
const design = bernoulliDesign(0.02, 0.04);
values("Bernoulli CUSUM", "Reynolds and Stoumbos 1999 design; run lengths by R 4.2.2, solve", 1e-8, "independent", [
  ["fall", design.fall, 0.0206192872],
  ["rise", design.rise, 0.713766468],
  ["steps up", design.upStep, 34],
  ["80, in control", bernoulli(0.02, 34, 80), 556.541439],
  ["80, doubled", bernoulli(0.04, 34, 80), 128.748961],
  ["120, in control", bernoulli(0.02, 34, 120), 1667.51536],
  ["160, in control", bernoulli(0.02, 34, 160), 4287.70019],
  ["160, doubled", bernoulli(0.04, 34, 160), 315.259575],
]);
values("Weights and references of CUSUMs", "Steiner and others 2000; Lucas 1985; R 4.2.2", 1e-8, "independent", [
  ["event at 0.02", riskWeight({ event: true, risk: 0.02 }, 2), 0.673344553],
  ["none at 0.02", riskWeight({ event: false, risk: 0.02 }, 2), -0.0198026273],
  ["k(1, 2)", cusumReference(1, 2), 1.44269504],
  ["k(0.5, 1)", cusumReference(0.5, 1), 0.72134752],
]);

/** A thousand lines a year at 3 per cent, odds ratio 2: years between false signals and months to see it. */
const doubled = (2 * 0.03) / (1 - 0.03) / (1 + (2 * 0.03) / (1 - 0.03));
values("Per-line scheme of a thousand lines", "R 4.2.2, chain of 119 states", 1e-6, "independent", [
  ["years between false signals", bernoulli(0.03, 22, 119) / 1000, 5.11393],
  ["months to a signal", (12 * bernoulli(doubled, 22, 119)) / 1000, 3.26266],
]);

/** Events a year, decision limit, months to see a rise of 1.5, 2 and 3 times, at five years between false signals. */
const scheme = [
  [3, 1.80825, 21.98, 12.18, 6.12],
  [6, 2.31682, 16.88, 8.47, 4.01],
  [10, 2.7288, 13.48, 6.29, 2.87],
  [20, 3.33172, 9.55, 4.04, 1.77],
  [30, 3.70051, 7.65, 3.07, 1.32],
  [60, 4.35092, 5.08, 1.87, 0.78],
  [90, 4.73987, 3.93, 1.38, 0.57],
  [240, 5.69718, 2.03, 0.64, 0.26],
] as const;
checkAgainst(
  {
    quantity: "Scheme of decision limits and delays",
    unit: "limit, or months",
    source: "R 4.2.2, Markov chain on a grid of 500 to 1200",
    kind: "independent",
    tolerance: 0.0051,
    comparisons: 32,
  },
  (compare) => {
    for (const [yearly, limit, ...delays] of scheme) {
      compare(`${yearly} a year, decision limit`, decisionLimit(2, 5 * yearly), limit);
      [1.5, 2, 3].forEach((rise, at) => {
        const months = (12 * eventsToSignal(2, limit, rise)) / (rise * yearly);
        compare(`${yearly} a year, ${rise} times`, months, delays[at] as number);
      });
    }
  },
);
values("Events to a signal at decision 3", "R 4.2.2, Markov chain on a grid of 1200", 4.3e-5, "independent", [
  ["in control", eventsToSignal(2, 3, 1), 68.636],
  ["doubled", eventsToSignal(2, 3, 2), 11.82],
]);
