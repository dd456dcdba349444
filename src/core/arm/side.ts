/** The patient's own side. Never the left or right of a picture. */
export const SIDES = ["right", "left"] as const;
export type Side = (typeof SIDES)[number];

export const otherSide = (side: Side): Side => (side === "right" ? "left" : "right");
