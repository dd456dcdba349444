const KEY = "veinwright-openings-seen";
const MOST = 500;

/** Numbers of the openings a lead has had before them on this device; the number says nothing of whose record it was. */
export function seenOpenings(): ReadonlySet<string> {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEY) ?? "[]");
    return new Set(Array.isArray(kept) ? kept.map(String) : []);
  } catch {
    return new Set(); // told again is better than not told
  }
}

export function keepSeenOpenings(ids: readonly string[]): void {
  try {
    localStorage.setItem(KEY, JSON.stringify([...new Set([...ids, ...seenOpenings()])].slice(0, MOST)));
  } catch {
    // where nothing can be kept it is told again
  }
}
