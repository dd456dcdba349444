/** One to three lumens inside a catheter's outline, as the flow model divides its bore; radius in the figure's units. */
export function lumenPaths(lumens: number, radius: number, wall: number, septum: number): readonly string[] {
  const bore = radius - wall;
  if (!(bore > septum)) return [];
  if (lumens <= 1)
    return [`M${n(-bore)} 0 A${n(bore)} ${n(bore)} 0 1 0 ${n(bore)} 0 A${n(bore)} ${n(bore)} 0 1 0 ${n(-bore)} 0 Z`];
  const half = septum / 2;
  const step = (2 * Math.PI) / lumens;
  return Array.from({ length: lumens }, (_, index) => {
    const middle = index * step + Math.PI / 2;
    // each lumen stands off the middle by half a septum, so that the walls between them are even
    const apex = half / Math.sin(step / 2);
    const tip = { x: apex * Math.cos(middle), y: -apex * Math.sin(middle) };
    const reach = Math.asin(half / bore);
    const from = middle - step / 2 + reach;
    const to = middle + step / 2 - reach;
    const a = { x: bore * Math.cos(from), y: -bore * Math.sin(from) };
    const b = { x: bore * Math.cos(to), y: -bore * Math.sin(to) };
    const large = to - from > Math.PI ? 1 : 0;
    return lumens === 2
      ? `M${n(a.x)} ${n(a.y)} A${n(bore)} ${n(bore)} 0 ${large} 0 ${n(b.x)} ${n(b.y)} Z`
      : `M${n(tip.x)} ${n(tip.y)} L${n(a.x)} ${n(a.y)} A${n(bore)} ${n(bore)} 0 ${large} 0 ${n(b.x)} ${n(b.y)} Z`;
  });
}

const n = (value: number): string => String(Math.round(value * 100) / 100);
