/** Index of the last time at or before a moment, or -1 before the first: a curve's value holds from its own time on. */
export function lastAtOrBefore(time: ArrayLike<number>, moment: number): number {
  let low = 0;
  let high = time.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((time[middle] as number) <= moment) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}
