import {
  CARREAU_BLOOD,
  CARREAU_YASUDA_BLOOD,
  bloodViscosity,
  haematocritViscosity,
  residualFlow,
} from "../../../src/core/flow/index.ts";
import { perSecond } from "../../../src/core/quantity/index.ts";
import { checkAgainst } from "../../check.ts";

checkAgainst(
  {
    quantity: "Friction factor times Reynolds number, concentric annuli",
    unit: "f.Re",
    source: "Shah RK, London AL 1978, Laminar Flow Forced Convection in Ducts, annular ducts (from memory)",
    kind: "published",
    tolerance: 6e-4,
    comparisons: 4,
  },
  (compare) => {
    // f.Re = 16 (1 - k)^2 (1 - k^2) / phi with the hydraulic diameter
    for (const [k, fRe] of [
      [0.1, 22.343],
      [0.2, 23.088],
      [0.5, 23.813],
      [0.8, 23.98],
    ] as const)
      compare(`ratio ${k}`, (16 * (1 - k) ** 2 * (1 - k * k)) / residualFlow(k, 0), fRe);
  },
);

checkAgainst(
  {
    quantity: "Largest loss in the bench study: 6 Fr in 3.35 mm, centred",
    unit: "% lost",
    source: "Nifong TP, McDevitt TJ 2011, Chest 140:48: up to 93 % (which pair is not stated)",
    kind: "published",
    tolerance: 0.3,
    comparisons: 1,
  },
  (compare) => compare("6 Fr in 3.35 mm", 100 - residualFlow(2 / 3.35, 0) * 100, 93),
);

checkAgainst(
  {
    quantity: "Viscosity of blood by shear rate",
    unit: "mPa.s",
    source: "Cho YI, Kensey KR 1991, Biorheology 28:241, laws evaluated by NumPy 2.4 (parameters from memory)",
    kind: "published",
    tolerance: 5.1e-4,
    comparisons: 8,
  },
  (compare) => {
    for (const [rate, yasuda, carreau] of [
      [1, 28.715, 27.098],
      [10, 8.651, 8.979],
      [100, 4.326, 4.708],
      [1000, 3.595, 3.736],
    ] as const) {
      compare(`Carreau-Yasuda, ${rate}/s`, bloodViscosity(perSecond(rate), CARREAU_YASUDA_BLOOD), yasuda);
      compare(`Carreau, ${rate}/s`, bloodViscosity(perSecond(rate), CARREAU_BLOOD), carreau);
    }
  },
);

checkAgainst(
  {
    quantity: "Viscosity of blood relative to plasma by haematocrit",
    unit: "ratio",
    source: "Pries AR, Neuhaus D, Gaehtgens P 1992, Am J Physiol 263:H1770, wide tubes",
    kind: "published",
    tolerance: 5.1e-4,
    comparisons: 4,
  },
  (compare) => {
    for (const [haematocrit, ratio] of [
      [0.2, 1.701],
      [0.4, 2.811],
      [0.45, 3.2],
      [0.6, 4.879],
    ] as const)
      compare(`${haematocrit}`, haematocritViscosity(haematocrit), ratio);
  },
);
