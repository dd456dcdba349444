import type { StateStays } from "../../src/core/survival/index.ts";
import { dataset } from "./dataset.ts";

/** Stays in intensive care as stretches: 0 without a ventilator, 1 with one, 2 out; a row goes on where the last ended. */
export function ventilation(): StateStays & Record<"entry" | "exit" | "from" | "to", number[]> {
  const stays = { entry: [] as number[], exit: [] as number[], from: [] as number[], to: [] as number[] };
  const last = new Map<string, number>();
  for (const row of dataset("etm_sir.cont")) {
    const id = row["id"] as string;
    stays.entry.push(last.get(id) ?? 0);
    stays.exit.push(Number(row["time"]));
    stays.from.push(Number(row["from"]));
    stays.to.push(Number(row["to"] === "cens" ? row["from"] : row["to"]));
    last.set(id, Number(row["time"]));
  }
  return stays;
}
