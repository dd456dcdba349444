import { openDB, type IDBPDatabase } from "idb";
import type { PolicyRow } from "../../core/reason/index.ts";
import { rowFits } from "../../policy/index.ts";
import type { PlanEvent } from "../../register/index.ts";

const NAME = "veinwright";

let opened: Promise<IDBPDatabase> | undefined;

function database(): Promise<IDBPDatabase> {
  opened ??= openDB(NAME, 1, {
    upgrade(db) {
      // the store's own counter is the position: events fold in the order they were kept
      db.createObjectStore("events", { autoIncrement: true }).createIndex("id", "id", { unique: true });
      db.createObjectStore("policy");
    },
  });
  // a database that would not open is tried again at the next call
  opened.catch(() => {
    opened = undefined;
  });
  return opened;
}

export async function readEvents(): Promise<readonly PlanEvent[]> {
  return (await (await database()).getAll("events")) as PlanEvent[];
}

/** Keeps events durably; resolves when the device has them. The same event twice is kept once. */
export async function keepEvents(events: readonly PlanEvent[]): Promise<void> {
  if (events.length === 0) return;
  const transaction = (await database()).transaction("events", "readwrite", { durability: "strict" });
  // asked all at once: a closing tab leaves the shortest possible moment in which an entry is not yet kept
  const known = await Promise.all(events.map(({ id }) => transaction.store.index("id").getKey(id)));
  await Promise.all(
    events.filter((_, index) => known[index] === undefined).map((event) => transaction.store.add(event)),
  );
  await transaction.done;
}

export async function readLocalRows(): Promise<Readonly<Record<string, PolicyRow>>> {
  const db = await database();
  const [keys, values] = await Promise.all([db.getAllKeys("policy"), db.getAll("policy")]);
  // a row kept by another release, or by a hand, is left out rather than trusted
  return Object.fromEntries(
    keys.flatMap((key, index) => (rowFits(key as string, values[index]) ? [[key as string, values[index]]] : [])),
  );
}

export async function keepLocalRow(key: string, row: unknown): Promise<void> {
  await (await database()).put("policy", row, key);
}

/** Where the hospital's own drug list is kept, beside the policy rows; no row has this name. */
const DRUG_LIST = "drug-list.csv";

export async function readDrugList(): Promise<string | undefined> {
  const kept = (await (await database()).get("policy", DRUG_LIST)) as unknown;
  return typeof kept === "string" ? kept : undefined;
}

export async function keepDrugList(csv: string): Promise<void> {
  await (await database()).put("policy", csv, DRUG_LIST);
}

/** Removes everything this page keeps on this device. */
export async function wipeDevice(): Promise<void> {
  const db = await database();
  const transaction = db.transaction(["events", "policy"], "readwrite");
  await Promise.all([
    transaction.objectStore("events").clear(),
    transaction.objectStore("policy").clear(),
    transaction.done,
  ]);
}
