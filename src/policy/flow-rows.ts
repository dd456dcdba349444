import { fromMemory, local, row } from "./row.ts";

/** What the flow model assumes where nobody measured. It teaches and compares; no rule and no ranking reads it. */
export const flowRows = {
  "flow.wall": row(0.25, "mm", "Wall of a catheter whose bore no label tells", local, [0.05, 1]),
  "flow.septum": row(0.2, "mm", "Wall between two lumens", local, [0.05, 1]),
  "flow.share-of-resistance": row(
    0.2,
    "of the path",
    "Share of the stretch in the resistance from the hand to the heart, for the series assumption",
    local,
    [0, 1],
  ),
  "flow.slow-below": row(
    0.1,
    "of the open vein's mean velocity",
    "Blood slower than this counts as slow in the figure",
    local,
    [0.01, 1],
  ),
  "flow.haematocrit": row(0.42, "", "Share of red cells in the blood, for the plasma-only bound", local, [0.1, 0.7]),
  "flow.blood-osmolarity": row(290, "mOsm/L", "Osmolarity of blood", fromMemory("physiology handbooks"), [250, 350]),
  "flow.head": row(100, "cm", "Height of a hanging bag over the tip, where none is typed", local, [10, 300]),
  "flow.vein-pressure": row(8, "mmHg", "Pressure in the vein that a gravity head has to overcome", local, [0, 40]),
} as const;
