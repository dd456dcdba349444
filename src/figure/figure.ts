/** A figure is a drawing, one sentence and a table: whoever cannot see it, or prints it in grey, loses nothing. */
export interface Figure {
  readonly svg: string;
  readonly sentence: string;
  readonly table: { readonly columns: readonly string[]; readonly rows: readonly (readonly string[])[] };
}

export const escaped = (text: string): string =>
  text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;").replaceAll('"', "&quot;");

export const px = (value: number): string => Number(value.toFixed(2)).toString();

/** The two textures that tell the outer thirds apart in any ink, and the styles every plate shares. */
export const plateDefs = (id: string, scale = 1): string => `<defs>
<pattern id="${id}-hatch" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45) scale(${scale})"><line x1="0" y1="0" x2="0" y2="7" class="texture"/></pattern>
<pattern id="${id}-stipple" width="8" height="8" patternUnits="userSpaceOnUse" patternTransform="scale(${scale})"><circle cx="2" cy="2" r="1" class="dot"/><circle cx="6" cy="6" r="1" class="dot"/></pattern>
</defs>`;

interface Label {
  readonly anchorX: number;
  readonly anchorY: number;
  readonly text: string;
  readonly strong?: boolean;
}

export interface PlacedLabel extends Label {
  readonly x: number;
  readonly width: number;
}

/**
 * Sets labels on one line from left to right without touching, each as near above or below its anchor as there is room.
 * One pass to the right, then one back from the right edge; undefined when they do not fit the line at all.
 */
export function onOneLine(
  labels: readonly Label[],
  room: { readonly from: number; readonly to: number; readonly gap: number; readonly charWidth: number },
): readonly PlacedLabel[] | undefined {
  const sorted = [...labels]
    .sort((a, b) => a.anchorX - b.anchorX)
    .map((label) => ({ ...label, width: label.text.length * room.charWidth, x: 0 }));
  let edge = room.from;
  for (const label of sorted) {
    label.x = Math.max(edge, label.anchorX - label.width / 2);
    edge = label.x + label.width + room.gap;
  }
  edge = room.to;
  for (const label of sorted.reverse()) {
    label.x = Math.min(label.x, edge - label.width);
    edge = label.x - room.gap;
  }
  return edge + room.gap < room.from - 0.01 ? undefined : sorted.reverse();
}
