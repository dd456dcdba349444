/** Sums of the rows' scores within each cluster, then their outer products: the middle of a robust variance. */
export function clusterMiddle(scores: Float64Array, size: number, cluster: ArrayLike<number>): Float64Array {
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
  const middle = new Float64Array(size * size);
  for (let c = 0; c < place.size; c += 1) {
    for (let j = 0; j < size; j += 1) {
      for (let k = 0; k < size; k += 1) {
        middle[j * size + k] =
          (middle[j * size + k] as number) + (sums[c * size + j] as number) * (sums[c * size + k] as number);
      }
    }
  }
  return middle;
}
