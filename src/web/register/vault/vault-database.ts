import { openDB, type IDBPDatabase } from "idb";
import { USUAL_SETTINGS, deviceName, type DeviceNotes } from "./device-notes.ts";
import type { WrappedKey } from "./secret-key.ts";
import type { LogRow } from "./sealed-row.ts";

const NAME = "veinwright-record";
const FIRST_NOTES = {
  lastContact: undefined,
  account: "",
  roles: [],
  signOutOwed: false,
  unsent: 0,
  wrongTries: 0,
  settings: USUAL_SETTINGS,
};
const STRICT = { durability: "strict" } as const;

/** Another tab set a secret meanwhile: nothing may be kept in the clear any more. */
export class SealedMeanwhile extends Error {}

/**
 * The browser's store under the vault: a log of rows, the wrapped keys, and notes in the clear.
 * A row is kept when its transaction has completed, with strict durability: after a crash it is there whole or not at all.
 */
export class VaultDatabase {
  readonly #db: IDBPDatabase;
  private constructor(db: IDBPDatabase) {
    this.#db = db;
  }

  static async open(): Promise<VaultDatabase> {
    return new VaultDatabase(
      await openDB(NAME, 1, {
        upgrade(db) {
          db.createObjectStore("log", { autoIncrement: true });
          db.createObjectStore("keys", { keyPath: "person" });
          db.createObjectStore("notes");
        },
      }),
    );
  }

  close(): void {
    this.#db.close();
  }

  async keys(): Promise<readonly WrappedKey[]> {
    return (await this.#db.getAll("keys")) as WrappedKey[];
  }

  /** Keeps a wrapped key in place of the one of the same name. */
  async keepKey(key: WrappedKey): Promise<void> {
    const transaction = this.#db.transaction("keys", "readwrite", STRICT);
    await Promise.all([transaction.store.put(key), transaction.done]);
  }

  /** Changes some of the notes in one transaction, so that two tabs do not undo each other; gives what stands after. */
  async note(change: Partial<DeviceNotes>): Promise<DeviceNotes> {
    const transaction = this.#db.transaction("notes", "readwrite");
    const kept = (await transaction.store.get("notes")) as DeviceNotes | undefined;
    const notes = { ...FIRST_NOTES, device: kept?.device ?? deviceName(""), ...kept, ...change };
    await Promise.all([transaction.store.put(notes, "notes"), transaction.done]);
    return notes;
  }

  /** Adds a row; resolves with its key when it is durable. */
  async append(row: LogRow): Promise<number> {
    const transaction = this.#db.transaction(["log", "keys"], "readwrite", STRICT);
    const key = transaction.objectStore("log").add(row) as Promise<number>;
    const sealed = transaction.objectStore("keys").count();
    // asked in the same breath as the row: a tab that does not know of the secret yet keeps nothing in the clear
    const [added] = await Promise.all([
      key,
      sealed.then((count) => {
        if (count > 0 && "clear" in row) {
          transaction.abort();
          throw new SealedMeanwhile("sealed meanwhile");
        }
      }),
      transaction.done.catch((error: unknown) => {
        throw transaction.error ?? error;
      }),
    ]);
    return added;
  }

  async rowsAfter(key: number): Promise<readonly { readonly key: number; readonly row: LogRow }[]> {
    const range = IDBKeyRange.lowerBound(key, true);
    const transaction = this.#db.transaction("log");
    const [keys, rows] = await Promise.all([transaction.store.getAllKeys(range), transaction.store.getAll(range)]);
    return keys.map((at, index) => ({ key: at as number, row: rows[index] as LogRow }));
  }

  /** Puts fewer rows in the place of all rows up to a key, in one transaction; later rows stay where they are. */
  async replaceUpTo(key: number, rows: readonly LogRow[]): Promise<void> {
    const transaction = this.#db.transaction("log", "readwrite", STRICT);
    const done = transaction.done;
    await Promise.all([
      transaction.store.delete(IDBKeyRange.upperBound(key)),
      ...rows.map((row, index) => transaction.store.put(row, key - (rows.length - 1 - index) / rows.length)),
      done,
    ]);
  }

  /** Puts a sealed log in the place of a clear one, with its first keys; false when a row came meanwhile. */
  async sealAll(last: number, rows: readonly LogRow[], keys: readonly WrappedKey[]): Promise<boolean> {
    const transaction = this.#db.transaction(["log", "keys"], "readwrite", STRICT);
    const log = transaction.objectStore("log");
    const came = await log.count(IDBKeyRange.lowerBound(last, true));
    if (came > 0) return false;
    await Promise.all([
      log.clear(),
      ...rows.map((row, index) => log.put(row, last + index + 1)),
      ...keys.map((key) => transaction.objectStore("keys").put(key)),
      transaction.done,
    ]);
    return true;
  }
}
