import { expect, test } from "vitest";
import {
  coxRegression,
  designEffect,
  eventsPerParameter,
  fineGray,
  firthPoisson,
  logFCox,
  logFLogistic,
  logFPoisson,
  logisticRegression,
  logRelativeHazard,
  negativeBinomialRegression,
  poissonRegression,
  sharedFrailty,
} from "./index.ts";

const ward = { name: "ward", values: [0, 0, 0, 1, 1, 1] };
const twice = { name: "twice the ward", values: [0, 0, 0, 2, 2, 2] };
const line = { exit: [3, 5, 8, 2, 4, 9], event: [1, 0, 1, 1, 1, 0] };

test("a column that another tells comes back by name", () => {
  const collinear = { kind: "collinear", covariates: ["twice the ward"] };
  expect(coxRegression({ ...line, covariates: [ward, twice] })).toEqual(collinear);
  expect(poissonRegression({ count: line.event, exposure: line.exit, covariates: [ward, twice] })).toEqual(collinear);
  expect(firthPoisson({ count: line.event, covariates: [ward, twice] })).toEqual(collinear);
  const constant = { name: "one", values: [1, 1, 1, 1, 1, 1] };
  expect(coxRegression({ ...line, covariates: [ward, constant] })).toEqual({ kind: "collinear", covariates: ["one"] });
});

test("a likelihood that rises for ever names what it rises along, and only that", () => {
  const other = { name: "age", values: [61, 40, 55, 72, 33, 48, 58, 66] };
  const covariates = [{ name: "icu", values: [1, 1, 1, 1, 0, 0, 0, 0] }, other];
  const rare = { count: [1, 0, 1, 0, 0, 0, 0, 0], covariates };
  expect(logisticRegression(rare)).toMatchObject({ kind: "separated", covariates: ["icu"] });
  expect(poissonRegression(rare)).toMatchObject({ kind: "separated", covariates: ["icu"] });
  const exit = [2, 7, 3, 8, 5, 6, 9, 4];
  expect(coxRegression({ exit, event: rare.count, covariates })).toMatchObject({
    kind: "separated",
    covariates: ["icu"],
  });
  const end = [1, 2, 1, 0, 2, 0, 0, 2];
  expect(fineGray({ exit, end, covariates }, 1)).toMatchObject({ kind: "separated", covariates: ["icu"] });
});

test("no events is an answer", () => {
  const none = [0, 0, 0, 0, 0, 0];
  expect(coxRegression({ exit: line.exit, event: none, covariates: [ward] })).toEqual({ kind: "no events" });
  expect(poissonRegression({ count: none, covariates: [ward] })).toEqual({ kind: "no events" });
  expect(fineGray({ exit: line.exit, end: none, covariates: [ward] }, 1)).toEqual({ kind: "no events" });
});

test("counts that spread no more than Poisson's keep the Poisson fit", () => {
  const even = negativeBinomialRegression({ count: [2, 3, 2, 3, 2, 3], covariates: [] });
  expect(even).toMatchObject({ kind: "no excess spread", poisson: { kind: "fitted" } });
});

test("a change of unit changes the coefficient and nothing else", () => {
  const big = { name: "year", values: [2020, 2021, 2023, 2020, 2022, 2024] };
  const far = { name: "year", values: big.values.map((year) => (year - 2020) * 1000) };
  const a = coxRegression({ ...line, covariates: [big] });
  const b = coxRegression({ ...line, covariates: [far] });
  if (a.kind !== "fitted" || b.kind !== "fitted") throw new Error("no fit");
  expect(a.coefficients[0]?.value).toBeCloseTo((b.coefficients[0]?.value as number) * 1000, 9);
  expect(a.logLikelihood).toBeCloseTo(b.logLikelihood, 10);
  expect(logRelativeHazard(b, [1000]).value).toBeCloseTo(a.coefficients[0]?.value as number, 9);
});

test("what cannot be used is refused with its row", () => {
  expect(() => coxRegression({ ...line, event: [1, 2, 0, 0, 0, 0], covariates: [ward] })).toThrow("Row 2 has event 2");
  expect(() => coxRegression({ ...line, entry: [0, 5, 0, 0, 0, 0], covariates: [] })).toThrow("Row 2 enters at 5");
  expect(() => coxRegression({ ...line, covariates: [{ name: "age", values: [1] }] })).toThrow("age has 1 values");
  const gap = { name: "age", values: [1, 2, Number.NaN, 4, 5, 6] };
  expect(() => poissonRegression({ count: line.event, covariates: [gap] })).toThrow("age is NaN in row 3");
  expect(() => poissonRegression({ count: [1.5], covariates: [] })).toThrow("Row 1 has count 1.5");
  expect(() => poissonRegression({ count: [1], exposure: [0], covariates: [] })).toThrow("Row 1 has exposure 0");
  expect(() => logisticRegression({ count: [0, 2], covariates: [] })).toThrow("Row 2 has outcome 2");
  const fit = coxRegression({ ...line, covariates: [ward] });
  expect(() => (fit.kind === "fitted" ? fit.profile("age", 0.95) : undefined)).toThrow("no covariate age");
});

test("few events for the parameters are told apart by the caller's limits", () => {
  const limits = { refuseBelow: 5, penaliseBelow: 10, cautionBelow: 20 };
  const verdicts = [19, 24, 60, 80].map((events) => eventsPerParameter(events, 4, limits).verdict);
  expect(verdicts).toEqual(["refuse", "penalise", "caution", "enough"]);
  expect(() => eventsPerParameter(3, 0, limits)).toThrow("0 parameters");
});

test("a log-F prior fits what separates, and more degrees pull further to no difference", () => {
  const icu = { name: "icu", values: [1, 1, 1, 1, 0, 0, 0, 0] };
  const rare = { count: [1, 0, 1, 0, 0, 0, 0, 0], covariates: [icu] };
  const size = (fit: ReturnType<typeof logFLogistic>) =>
    fit.kind === "fitted" ? (fit.coefficients[1]?.value as number) : Number.NaN;
  for (const method of [logFLogistic, logFPoisson]) {
    expect(size(method(rare, 1))).toBeGreaterThan(size(method(rare, 2)));
    expect(size(method(rare, 50))).toBeGreaterThan(0);
    expect(size(method(rare, 50))).toBeLessThan(0.2);
  }
  const cox = logFCox({ exit: [2, 7, 3, 8, 5, 6, 9, 4], event: rare.count, covariates: [icu] }, 1);
  if (cox.kind !== "fitted") throw new Error(cox.kind);
  const { low, high } = cox.profile("icu", 0.95);
  expect(low).toBeLessThan(cox.coefficients[0]?.value as number);
  expect(high).toBeLessThan(Infinity);
  expect(() => logFPoisson(rare, 0)).toThrow("0 degrees");
});

test("patients alike share nothing; patients unlike share a variance; what cannot share is refused", () => {
  const patient = [0, 0, 0, 1, 1, 1, 2, 2, 2, 3, 3, 3];
  const alike = { exit: [1, 8, 12, 2, 7, 11, 3, 6, 10, 4, 5, 9], event: patient.map(() => 1) };
  const unlike = { exit: [1, 2, 3, 4, 5, 6, 20, 21, 22, 30, 31, 32], event: patient.map((each) => Number(each < 2)) };
  expect(sharedFrailty({ ...alike, cluster: patient, covariates: [] })).toMatchObject({
    frailtyVariance: 0,
    statistic: 0,
    clusters: 4,
  });
  const fit = sharedFrailty({ ...unlike, cluster: patient, covariates: [] });
  if (fit.kind !== "fitted") throw new Error(fit.kind);
  expect(fit.frailtyVariance).toBeGreaterThan(0.5);
  expect(fit.frailties.reduce((sum, each) => sum + each, 0) / 4).toBeCloseTo(1, 9);
  expect(fit.frailties[0]).toBeGreaterThan(1);
  expect(fit.frailties[3]).toBeLessThan(1);
  const late = { ...unlike, entry: patient.map(() => 0), cluster: patient, covariates: [] };
  expect(() => sharedFrailty(late)).toThrow("enter late");
  expect(() => sharedFrailty({ ...unlike, cluster: [1], covariates: [] })).toThrow("1 clusters");
});

test("a model that guesses is right half of the time", () => {
  const fit = coxRegression({ ...line, covariates: [] });
  if (fit.kind !== "fitted") throw new Error(fit.kind);
  expect(fit.concordance()).toMatchObject({ concordance: 0.5, concordant: 0, discordant: 0 });
  expect(fit.unoConcordance()?.concordance).toBe(0.5);
  const late = coxRegression({ ...line, entry: line.exit.map(() => 0), covariates: [] });
  expect(late.kind === "fitted" && late.unoConcordance()).toBeUndefined();
  // nobody differs: the hazard is that of Nelson and Aalen
  expect([...fit.hazard().hazard].at(0)).toBeCloseTo(1 / 6, 12);
  expect(() => designEffect(0.5, 0, 0.1)).toThrow("0.5 lines each");
});
