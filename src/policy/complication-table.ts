import type { Complication, ComplicationTable, Effect, Feature } from "../core/expectation/index.ts";

/**
 * How often lines go wrong, and what moves it: published figures combined, shrunk and widened as
 * docs/explanation/with-and-without.md says. Context for a talk, never a limit: no rule and no ranking reads it.
 */
const effect = (
  clot: readonly [number, number],
  infection: readonly [number, number],
  blocked: readonly [number, number],
  other: readonly [number, number],
): Effect => ({
  mean: { clot: clot[0], "blood infection": infection[0], blocked: blocked[0], "other removal": other[0] },
  sd: { clot: clot[1], "blood infection": infection[1], blocked: blocked[1], "other removal": other[1] },
});

export const complicationTable: ComplicationTable = {
  baselines: {
    clot: { perThousand: [0.73, 0.61, 0.37, 0.18, 0.09], levelSd: 0.6, bandSd: [0.35, 0.35, 0.35, 0.45, 0.7] },
    "blood infection": {
      perThousand: [0.25, 0.42, 0.51, 0.46, 0.38],
      levelSd: 0.7,
      bandSd: [0.4, 0.3, 0.3, 0.4, 0.6],
    },
    blocked: { perThousand: [2.6, 2.6, 2.4, 2.0, 1.6], levelSd: 0.8, bandSd: [0.45, 0.45, 0.45, 0.5, 0.6] },
    "other removal": { perThousand: [2.4, 2.0, 1.6, 1.1, 0.8], levelSd: 0.8, bandSd: [0.45, 0.45, 0.45, 0.5, 0.6] },
  },
  effects: {
    "brachial vein": effect([0.15, 0.35], [0, 0.35], [0.15, 0.35], [0.05, 0.35]),
    "cephalic vein": effect([0.6, 0.5], [0, 0.4], [0.1, 0.45], [0.15, 0.45]),
    "ratio per 10 points over 35": effect([0.35, 0.25], [0, 0.25], [0, 0.25], [0, 0.25]),
    "French over 4": effect([0.35, 0.25], [0, 0.25], [0, 0.3], [0, 0.25]),
    "two lumens": effect([0.25, 0.35], [0.65, 0.36], [0.9, 0.43], [0.15, 0.35]),
    "three lumens": effect([0.4, 0.45], [1.1, 0.55], [1.05, 0.45], [0.2, 0.4]),
    "skin in the lower third": effect([0.7, 0.5], [0, 0.4], [0.6, 0.7], [0.2, 0.5]),
    "earlier clot": effect([0.9, 0.5], [0, 0.4], [0, 0.4], [0, 0.4]),
    cancer: effect([0.75, 0.4], [0.8, 0.5], [0, 0.4], [-0.2, 0.4]),
    "blood cancer": effect([0.75, 0.4], [1.25, 0.47], [0, 0.4], [-0.1, 0.4]),
    "solid cancer on chemotherapy": effect([0.75, 0.4], [0.7, 0.4], [0, 0.4], [-0.2, 0.4]),
    "intensive care": effect([0.4, 0.5], [0.7, 0.42], [0.2, 0.4], [0.2, 0.45]),
    home: effect([-0.3, 0.5], [-0.65, 0.46], [-0.3, 0.5], [-1, 0.5]),
    nutrition: effect([0, 0.4], [0.7, 0.37], [0.3, 0.45], [0.2, 0.4]),
    "another central line": effect([0.3, 0.38], [0.55, 0.37], [0, 0.4], [0, 0.4]),
    tunnelled: effect([-0.65, 0.5], [-0.35, 0.5], [0, 0.4], [-0.65, 0.45]),
  },
};

/** A: randomised. B: many centres, adjusted. C: one centre, adjusted. D: unadjusted, small, or a stand-in. */
export type Quality = "A" | "B" | "C" | "D";

export interface FigureOrigin {
  readonly source: string;
  readonly quality: Quality;
}

export const baselineOrigins: Readonly<Record<Complication, FigureOrigin>> = {
  clot: {
    source: "Chopra V and others 2017, J Thromb Haemost 15:1951, medical inpatients in the United States",
    quality: "B",
  },
  "blood infection": { source: "two reviews and a registry a factor of three apart; the middle taken", quality: "C" },
  blocked: { source: "Chopra V and others 2022; Swaminathan L and others 2022; shape assumed", quality: "C" },
  "other removal": { source: "Grau D and others 2017 and outpatient cohorts; shape assumed", quality: "D" },
};

export const featureOrigins: Readonly<Record<Feature, FigureOrigin>> = {
  "brachial vein": { source: "Campagna S and others, composite outcome, shrunk; nothing for infection", quality: "C" },
  "cephalic vein": { source: "one old series of venograms, from memory, shrunk to a third", quality: "D" },
  "ratio per 10 points over 35": {
    source: "Sharp R and others 2021, BMJ Open 11:e045895, 39 clots, shrunk",
    quality: "C",
  },
  "French over 4": {
    source: "scores and four cohorts pooled, shrunk; used only where no ratio is known",
    quality: "C",
  },
  "two lumens": {
    source:
      "Pongruangporn M and others 2013; Chopra V and others 2014 and 2017; Smith SN and others 2017; pooled, shrunk",
    quality: "B",
  },
  "three lumens": { source: "the same studies, part from memory, shrunk", quality: "C" },
  "skin in the lower third": { source: "one trial of 118 people, counts rebuilt, shrunk by half", quality: "D" },
  "earlier clot": {
    source: "Saber W and others 2011; Bertoglio S and others 2016; Evans RS and others 2010; pooled, shrunk",
    quality: "C",
  },
  cancer: { source: "Chopra V and others 2017; Liem TK and others 2012, from memory; pooled, shrunk", quality: "B" },
  "blood cancer": { source: "Herc E and others 2017 and two cohorts; pooled, shrunk", quality: "B" },
  "solid cancer on chemotherapy": { source: "Herc E and others 2017; shrunk", quality: "C" },
  "intensive care": { source: "direction only for clots; two unadjusted cohorts for infection", quality: "D" },
  home: { source: "Grau D and others 2017, all complications, shrunk heavily", quality: "D" },
  nutrition: { source: "Herc E and others 2017; Advani S and others 2011; two more; pooled, shrunk", quality: "B" },
  "another central line": { source: "scores of 2017, shrunk", quality: "C" },
  tunnelled: { source: "meta-analysis of 12 studies, small and mostly of one country; shrunk by half", quality: "D" },
};
