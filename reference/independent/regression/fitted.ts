import { column, indicator, type Row } from "../../data/dataset.ts";

/** A fit that has to be one: any other answer is thrown, whole. */
export function fitted<F extends { readonly kind: string }>(fit: F): Extract<F, { readonly kind: "fitted" }> {
  if (fit.kind !== "fitted") throw new Error(`no fit: ${JSON.stringify(fit)}`);
  return fit as Extract<F, { readonly kind: "fitted" }>;
}

/** Columns of a dataset as they stand. */
export const covariates = (rows: readonly Row[], names: readonly string[]) =>
  names.map((name) => ({ name, values: column(rows, name) }));

/** One column of noughts and ones for each value of a class. */
export const flags = (rows: readonly Row[], name: string, values: readonly string[]) =>
  values.map((value) => ({ name: `${name} ${value}`, values: indicator(rows, name, value) }));

/** Freireich's trial of 6-MP: MASS, gehan. */
export const freireich = (gehan: readonly Row[]) => ({
  exit: column(gehan, "time"),
  event: column(gehan, "cens"),
  covariates: [{ name: "control", values: indicator(gehan, "treat", "control") }],
});

/** Days absent from school: MASS, quine. */
export const daysAbsent = (quine: readonly Row[]) => ({
  count: column(quine, "Days"),
  covariates: [
    ...flags(quine, "Eth", ["N"]),
    ...flags(quine, "Sex", ["M"]),
    ...flags(quine, "Age", ["F1", "F2", "F3"]),
    ...flags(quine, "Lrn", ["SL"]),
  ],
});
