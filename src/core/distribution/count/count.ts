export function checkCount(count: number): void {
  if (!Number.isInteger(count)) throw new RangeError(`The count is ${count}; it must be a whole number.`);
}

/** The smallest count from zero at which something has become true, and stays true. */
export function smallestCount(guess: number, bound: number, isReached: (count: number) => boolean): number {
  if (!(bound > 0 && bound < 1)) throw new RangeError(`The bound is ${bound}; it must lie between zero and one.`);
  let high = Math.max(1, Math.ceil(guess));
  while (!isReached(high)) high *= 2;
  let low = -1;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (isReached(middle)) high = middle;
    else low = middle;
  }
  return high;
}
