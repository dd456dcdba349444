/** The slow obvious twins of src/core/control-chart: walk the sum line by line, add the terms, count the letters. */

/** A CUSUM without reset is how far the plain sum stands above its lowest point so far. */
export function slowCusum(steps: readonly number[]): number[] {
  return steps.map((_, last) => {
    const plain = steps.slice(0, last + 1).map((_, at) => steps.slice(0, at + 1).reduce((sum, step) => sum + step, 0));
    return (plain.at(-1) as number) - Math.min(0, ...plain);
  });
}

/** Weighted average and its variance written out as sums over the past, not step by step. */
export function slowEwma(
  points: readonly { readonly events: number; readonly exposure: number }[],
  base: number,
  weight: number,
): { value: number; variance: number }[] {
  return points.map((_, last) => {
    const past = points.slice(0, last + 1);
    const share = (at: number) => weight * (1 - weight) ** (last - at);
    return {
      value:
        past.reduce((sum, { events, exposure }, at) => sum + (share(at) * events) / exposure, 0) +
        (1 - weight) ** (last + 1) * base,
      variance: past.reduce((sum, { exposure }, at) => sum + (share(at) ** 2 * base) / exposure, 0),
    };
  });
}

/** Mean steps to a signal, by playing it many times. */
export function playedRunLength(runs: number, decision: number, step: () => number): number {
  let steps = 0;
  for (let run = 0; run < runs; run += 1) {
    let sum = 0;
    while (sum < decision) {
      sum = Math.max(0, sum + step());
      steps += 1;
    }
  }
  return steps / runs;
}

/** Poisson count by multiplying shares until they fall below e^-m. */
export function playedCount(mean: number, share: () => number): number {
  const floor = Math.exp(-mean);
  let count = 0;
  for (let product = share(); product > floor; product *= share()) count += 1;
  return count;
}

/** Events to a signal by a chain on cells, for the sum watched at each event: moves by counting the exponential's cells. */
export function chainEventsToSignal(ratio: number, decision: number, trueRatio: number, cells: number): number {
  const width = decision / cells;
  const scale = (ratio - 1) / trueRatio;
  const rise = Math.log(ratio);
  // value iteration from the middle of every cell, and from zero before the first event
  const lengths = new Float64Array(cells).fill(1);
  // between the middles of two cells the length is drawn straight
  const after = (value: number) => {
    if (value >= decision) return 0;
    const place = Math.min(cells - 2, Math.max(0, Math.floor(value / width - 0.5)));
    const along = value / width - 0.5 - place;
    return (lengths[place] as number) * (1 - along) + (lengths[place + 1] as number) * along;
  };
  const from = (s: number) => {
    let sum = 1 + Math.exp(-s / scale) * after(rise);
    for (let top = s; top > 0; top -= width) {
      const bottom = Math.max(0, top - width);
      const chance = Math.exp((top - s) / scale) - Math.exp((bottom - s) / scale);
      sum += chance * after((top + bottom) / 2 + rise);
    }
    return sum;
  };
  for (let turn = 0; turn < 4000; turn += 1) {
    let moved = 0;
    for (let cell = cells - 1; cell >= 0; cell -= 1) {
      const next = from((cell + 0.5) * width);
      moved = Math.max(moved, Math.abs(next - (lengths[cell] as number)) / next);
      lengths[cell] = next;
    }
    if (moved < 1e-9) break;
  }
  return from(0);
}
