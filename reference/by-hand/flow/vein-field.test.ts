import { expect, test } from "vitest";
import {
  CARREAU_YASUDA_BLOOD,
  flowByAssumption,
  meanWallShear,
  openVeinSlowShare,
  residualFlow,
  shearThinningFlow,
  slowShare,
  veinField,
  velocityGrid,
} from "../../../src/core/flow/index.ts";
import { millilitrePerMinute, millimetre } from "../../../src/core/quantity/index.ts";
import { checkAgainst } from "../../check.ts";

checkAgainst(
  {
    quantity: "Mean wall shear of vein and catheter",
    unit: "open vein",
    source: "force balance by hand: vein + k catheter = 1 - k^2; touching 1 - k on both",
    kind: "by-hand",
    tolerance: 1e-6,
    comparisons: 5,
  },
  (compare) => {
    const touching = meanWallShear(0.45, 1);
    compare("ratio 0.45, touching, vein", touching.vein, 0.55);
    compare("ratio 0.45, touching, catheter", touching.catheter, 0.55);
    const half = meanWallShear(0.45, 0.5);
    compare("ratio 0.45, offset 0.5, vein", half.vein, 0.512788);
    compare("ratio 0.45, offset 0.5, catheter", half.catheter, 0.632694);
    compare("ratio 0.45, offset 0.5, balance", half.vein + 0.45 * half.catheter, 1 - 0.45 ** 2);
  },
);

checkAgainst(
  {
    quantity: "Slow share of an open vein and of a centred catheter",
    unit: "share",
    source: "Poiseuille's parabola by hand; the centred profile's two roots by hand",
    kind: "by-hand",
    tolerance: 1e-6,
    comparisons: 3,
  },
  (compare) => {
    compare("open vein, below a tenth", openVeinSlowShare(0.1), 0.05);
    const [k, below] = [0.45, 0.1];
    // roots of 2 [1 - x^2 + (1 - k^2) ln x / ln(1/k)] = 0.1 in x, by halving on both sides of the peak
    const profile = (x: number) => 2 * (1 - x * x + ((1 - k * k) * Math.log(x)) / Math.log(1 / k)) - below;
    const top = Math.sqrt((1 - k * k) / (2 * Math.log(1 / k)));
    const halve = (slow: number, fast: number) => {
      let [s, f] = [slow, fast];
      for (let step = 0; step < 60; step += 1) {
        const middle = (s + f) / 2;
        if (profile(middle) < 0) s = middle;
        else f = middle;
      }
      return s;
    };
    const slow = 1 - k * k - (halve(1, top) ** 2 - halve(k, top) ** 2);
    compare("ratio 0.45 centred, of the blood", slowShare(veinField(k, 0), below).ofBlood, slow / (1 - k * k));
    compare("ratio 0.45 centred, of the vein", slowShare(veinField(k, 0), below).ofVein, slow);
  },
);

checkAgainst(
  {
    quantity: "Flow under the three assumptions",
    unit: "share",
    source: "resistances in series by hand",
    kind: "by-hand",
    tolerance: 5.1e-4,
    comparisons: 12,
  },
  (compare) => {
    for (const [phi, ...row] of [
      [0.5722, 0.964, 0.87, 0.728],
      [0.2685, 0.88, 0.647, 0.423],
      [0.1625, 0.795, 0.492, 0.28],
    ] as const)
      for (const [column, value] of row.entries()) {
        const share = [0.05, 0.2, 0.5][column] as number;
        compare(`flow ${phi}, share ${share}`, flowByAssumption(phi, share).seriesResistance, value);
      }
    compare("share 0", flowByAssumption(0.1625, 0).seriesResistance, 1);
    compare("share 1", flowByAssumption(0.1625, 1).seriesResistance, 0.1625);
    compare("equal flow, gradient", 0.1 * flowByAssumption(0.1625, 1).gradientAtEqualFlow, 0.1 / 0.1625);
  },
);

checkAgainst(
  {
    quantity: "Integral of the drawn field over the vein, 200 by 200 points",
    unit: "relative",
    source: "the printed flow; the sum over the grid is what a drawing shows",
    kind: "by-hand",
    tolerance: 1e-3,
    relative: true,
    comparisons: 6,
  },
  (compare) => {
    for (const ratio of [0.2, 0.45])
      for (const offset of [0, 0.5, 1]) {
        const grid = velocityGrid(veinField(ratio, offset), 200);
        const flow = (grid.reduce((sum, velocity) => sum + velocity) * 4) / 200 ** 2 / Math.PI;
        compare(`ratio ${ratio}, offset ${offset}`, flow, residualFlow(ratio, offset));
      }
  },
);

test("a Newtonian law gives the Newtonian flow", () => {
  const even = { ...CARREAU_YASUDA_BLOOD, atRest: CARREAU_YASUDA_BLOOD.atHighShear };
  const vein = { ratio: 0.45, diameterMm: millimetre(4), openFlow: millilitrePerMinute(60) };
  const flow = shearThinningFlow(vein, even);
  expect(flow.shearThinning).toBeCloseTo(residualFlow(0.45, 0), 10);
  expect(flow.newtonian).toBe(residualFlow(0.45, 0));
});
