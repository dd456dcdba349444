import { readMeasures, type Figure, type Measure } from "../../../src/audit/index.ts";

const reading = readMeasures();
export const occlusion = (reading.kind === "measures" ? reading.measures : []).find(
  ({ id }) => id === "occlusion",
) as Measure;

/** The figures that an audit would give of wards with so many events in so many days, and nothing else. */
export const wardFigures = (
  wards: readonly { readonly ward: string; readonly events: number; readonly days: number }[],
): readonly Figure[] =>
  wards.map(({ ward, events, days }) => ({
    measure: occlusion.id,
    stratum: { by: "ward", value: ward },
    form: "estimate with interval",
    numerator: events,
    denominator: days,
    value: (1000 * events) / days,
    interval: { name: "exact Poisson", level: 0.95, limits: undefined },
    used: 1,
    given: 1,
    missing: { count: 0, bounds: undefined, outer: undefined },
    provisional: 0,
    lines: [],
  }));
