import type { Page } from "playwright-core";

/**
 * Waits until the plans' own store on this device holds a row of which `part` is a piece, written as JSON: only then
 * may a test reload, close the tab or open another.
 */
export async function keptHere(page: Page, part: string, store: "events" | "policy" = "events"): Promise<void> {
  await page.waitForFunction(
    async ([name, wanted]) => {
      // opened by a test before the page has made it, the store would stay empty for good
      const known = await indexedDB.databases();
      if (!known.some((one) => one.name === "veinwright")) return false;
      const settled = <Value>(request: IDBRequest<Value>): Promise<Value> =>
        new Promise((resolve, reject) => {
          request.onsuccess = () => resolve(request.result);
          request.onerror = () => reject(request.error ?? new Error("not read"));
        });
      const db = await settled(indexedDB.open("veinwright"));
      const rows = await settled<unknown[]>(db.transaction(name).objectStore(name).getAll());
      db.close();
      return JSON.stringify(rows).includes(wanted);
    },
    [store, part] as const,
    { polling: 20 },
  );
}
