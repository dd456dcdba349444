import type { BedsidePlan } from "../../core/line-plan/index.ts";
import { amount, inHundred } from "./number.ts";

/** One number of the answer with the sum that made it, so that anyone can redo it with a pencil. */
export interface Sum {
  readonly name: string;
  readonly sum: string;
}

/** The sums behind the answer's numbers, in the order they are read. */
export function sumsOf(plan: BedsidePlan, limit: number): readonly Sum[] {
  const { chosen } = plan.answer;
  if (!chosen) return [];
  const depthCm = chosen.depthMm / 10;
  const angle = `${chosen.angleDegree}°`;
  const sums: Sum[] = [
    {
      name: "Needle through the skin",
      sum: `vein entry ${chosen.veinEntryCm.toFixed(1)} − depth ${depthCm.toFixed(2)} / tan ${angle} = ${amount(chosen.needleSkinCm, "cm", 2)}`,
    },
    {
      name: "Needle track",
      sum: `depth ${chosen.depthMm.toFixed(1)} / sin ${angle} = ${amount(chosen.trackMm, "mm")}`,
    },
    {
      name: "Ratio",
      sum: `${chosen.outsideDiameterMm.toFixed(2)} / ${chosen.diameterMm.toFixed(2)} = ${(100 * chosen.ratio.ratio).toFixed(1)}\u202f%, by diameter`,
    },
    {
      name: "Its chance",
      sum: `true vein at least ${chosen.outsideDiameterMm.toFixed(2)} / ${limit.toFixed(2)} = ${amount(chosen.outsideDiameterMm / limit, "mm", 2)}, measured ${chosen.diameterMm.toFixed(2)} ± ${chosen.diameterSdMm.toFixed(2)}: ${inHundred(100 * chosen.ratio.chance)}`,
    },
  ];
  if (chosen.tunnel) {
    sums.push({
      name: "Tunnel",
      sum: `needle ${chosen.needleSkinCm.toFixed(1)} − exit ${chosen.skinExitCm.toFixed(1)} = ${amount(chosen.tunnel.lengthMm / 10, "cm")}`,
    });
  }
  const { length, trim } = plan;
  if (length && length.ways.length > 0) {
    const ways = length.ways.map((way) => `${way.way} ${way.fromVeinEntryCm.toFixed(1)} (${way.target})`).join(", ");
    const mean = length.fromVeinEntryCm === undefined ? "no length" : `length ${amount(length.fromVeinEntryCm, "cm")}`;
    sums.push({ name: "Vein entry to tip", sum: `${ways}: ${mean}` });
  }
  if (trim && length?.fromVeinEntryCm !== undefined) {
    const tunnel = chosen.tunnel ? ` + tunnel ${(chosen.tunnel.lengthMm / 10).toFixed(1)}` : "";
    sums.push({
      name: "Cut at",
      sum: `vein ${length.fromVeinEntryCm.toFixed(1)} + track ${(chosen.trackMm / 10).toFixed(1)}${tunnel} + outside ${trim.outsideCm.toFixed(1)} = ${amount(trim.totalCm, "cm")}`,
    });
  }
  return sums;
}
