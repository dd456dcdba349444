/** Several lists, each in order, as one in order: nothing of them is held but the next of each. */
export function* inRowOrder<One>(lists: readonly Iterable<One>[], placeOf: (one: One) => number): Generator<One> {
  const open: { readonly rest: Iterator<One>; next: One; place: number }[] = [];
  for (const list of lists) {
    const rest = list[Symbol.iterator]();
    const first = rest.next();
    if (!first.done) open.push({ rest, next: first.value, place: placeOf(first.value) });
  }
  while (open.length > 0) {
    let least = open[0] as (typeof open)[number];
    for (const one of open) if (one.place < least.place) least = one;
    yield least.next;
    const { done, value } = least.rest.next();
    if (done) open.splice(open.indexOf(least), 1);
    else [least.next, least.place] = [value, placeOf(value)];
  }
}
