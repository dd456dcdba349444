import { addSquares, mirror } from "../linear/gram.ts";

/**
 * Sums of the rows' scores within each cluster, then their outer products: the middle of a robust variance. Without
 * clusters every row is one.
 */
export function clusterMiddle(scores: Float64Array, size: number, cluster?: ArrayLike<number>): Float64Array {
  if (cluster === undefined) return outerProducts(scores, size);
  const place = new Map<number, number>();
  for (let i = 0; i < cluster.length; i += 1) {
    const code = cluster[i] as number;
    if (!place.has(code)) place.set(code, place.size);
  }
  const sums = new Float64Array(place.size * size);
  for (let i = 0; i < cluster.length; i += 1) {
    const at = (place.get(cluster[i] as number) as number) * size;
    for (let j = 0; j < size; j += 1) sums[at + j] = (sums[at + j] as number) + (scores[i * size + j] as number);
  }
  return outerProducts(sums, size);
}

function outerProducts(sums: Float64Array, size: number): Float64Array {
  const middle = new Float64Array(size * size);
  const rows = size > 0 ? sums.length / size : 0;
  addSquares(middle, sums, size, { from: 0, to: rows, weight: new Float64Array(rows).fill(1) });
  mirror(middle, size);
  return middle;
}
