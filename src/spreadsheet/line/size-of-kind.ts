import type { Doubt } from "./doubt-ledger.ts";

interface Values {
  readonly length: number;
  readonly at: (index: number) => number;
}

/** A size seen more often than this of a kind is a size that the kind is made in. */
const RARE_SHARE = 0.1;
const RARE_ROWS = 2;

/**
 * Rows whose size is rare for their kind of catheter: at most two rows, and less than a tenth of a kind of `kindRows` rows
 * or more. A kind that is lawfully made in many sizes has none that is so rare in a year, or is asked about once or twice.
 */
export function* sizesOfNoOther(
  catheter: Values,
  sizes: Values,
  kindRows: number,
  perFrench: number,
): Generator<Doubt> {
  const counts = new Map<number, Map<number, number>>();
  const known = (at: number) => catheter.at(at) !== 0 && sizes.at(at) !== 0;
  for (let at = 0; at < catheter.length; at += 1) {
    if (!known(at)) continue;
    const kind = counts.get(catheter.at(at)) ?? new Map<number, number>();
    kind.set(sizes.at(at), (kind.get(sizes.at(at)) ?? 0) + 1);
    counts.set(catheter.at(at), kind);
  }
  const rows = new Map([...counts].map(([kind, own]) => [kind, [...own.values()].reduce((sum, one) => sum + one, 0)]));
  for (let at = 0; at < catheter.length; at += 1) {
    if (!known(at)) continue;
    const own = counts.get(catheter.at(at)) as Map<number, number>;
    const all = rows.get(catheter.at(at)) as number;
    const mine = own.get(sizes.at(at)) as number;
    if (all < kindRows || mine > RARE_ROWS || mine > RARE_SHARE * all) continue;
    const usual = [...own].filter(([, count]) => count > RARE_ROWS).sort((a, b) => b[1] - a[1]);
    yield {
      at,
      code: "size against kind",
      field: "sizeFr",
      found: `${sizes.at(at) / perFrench} Fr`,
      against: usual
        .slice(0, 3)
        .map(([size]) => `${size / perFrench} Fr`)
        .join(", "),
    };
  }
}
