import type { Ink } from "./ink.ts";

/** The two textures that tell the outer thirds apart in any ink: diagonal hatch below, stipple above. */
export function textures(id: string, ink: Ink, scale = 1): string {
  return `<defs><pattern id="${id}-hatch" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45) scale(${scale})"><line x1="1" y1="0" x2="1" y2="6" stroke="${ink.ink}" stroke-width="0.85"/></pattern><pattern id="${id}-stipple" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="scale(${scale})"><circle cx="1.75" cy="1.75" r="0.85" fill="${ink.ink}"/><circle cx="5.25" cy="5.25" r="0.85" fill="${ink.ink}"/></pattern></defs>`;
}
