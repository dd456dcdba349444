import type { DeviceChange } from "../../../register/index.ts";
import type { DeviceNotes } from "./device-notes.ts";
import { makeRecoveryKey, readRecoveryKey } from "./recovery-key.ts";
import { importDataKey, newDataKey, unwrapDataKey, wrapDataKey } from "./secret-key.ts";
import { openRow, sealRow } from "./sealed-row.ts";
import { VaultDatabase } from "./vault-database.ts";

const RECOVERY = "";

export interface LogEntry {
  readonly key: number;
  readonly changes: readonly DeviceChange[];
}

/**
 * The device's log under lock. Without a secret it is in the clear, for practice; with one it opens to a person's secret
 * or to the recovery key. The data key lives in memory as a key the browser does not give out, until it is forgotten.
 */
export class Vault {
  readonly #db: VaultDatabase;
  #dataKey: CryptoKey | undefined;
  #people: readonly string[] = [];
  #hasKeys = false;

  private constructor(db: VaultDatabase) {
    this.#db = db;
  }

  static async open(): Promise<Vault> {
    const vault = new Vault(await VaultDatabase.open());
    await vault.readPeople();
    return vault;
  }

  /** Asks again who has a secret here, after another tab changed it. */
  async readPeople(): Promise<void> {
    const keys = await this.#db.keys();
    this.#hasKeys = keys.length > 0;
    this.#people = keys.map(({ person }) => person).filter((person) => person !== RECOVERY);
  }

  get state(): "clear" | "locked" | "open" {
    if (!this.#hasKeys) return "clear";
    return this.#dataKey === undefined ? "locked" : "open";
  }

  get people(): readonly string[] {
    return this.#people;
  }

  note(change: Partial<DeviceNotes> = {}): Promise<DeviceNotes> {
    return this.#db.note(change);
  }

  /** Seals what is here in the clear under a new data key; gives the recovery key, which is shown once. */
  async setUp(person: string, secret: string): Promise<string> {
    if (this.#hasKeys) throw new Error("a secret is set already");
    const raw = newDataKey();
    const dataKey = await importDataKey(raw);
    const recovery = await makeRecoveryKey();
    const keys = await Promise.all([wrapDataKey(raw, person, secret), wrapDataKey(raw, RECOVERY, recovery)]);
    for (;;) {
      const clear = await this.#db.rowsAfter(0);
      const rows = await Promise.all(clear.map(async ({ row }) => sealRow(dataKey, await openRow(undefined, row))));
      if (await this.#db.sealAll(clear.at(-1)?.key ?? 0, rows, keys)) break;
    }
    this.#dataKey = dataKey;
    await this.readPeople();
    return recovery;
  }

  /** Whether the secret is the person's; if it is, the vault is open after it. */
  async unlock(person: string, secret: string): Promise<boolean> {
    const raw = await this.#rawKey(person, secret);
    if (raw) this.#dataKey = await importDataKey(raw);
    return raw !== undefined;
  }

  /** Opens with the recovery key and gives a person a new secret: "typed wrong" tells a slip from another key. */
  async recover(typed: string, person: string, secret: string): Promise<"open" | "typed wrong" | "another key"> {
    const recovery = await readRecoveryKey(typed);
    if (recovery === undefined) return "typed wrong";
    const raw = await this.#rawKey(RECOVERY, recovery);
    if (!raw) return "another key";
    await this.#give(raw, person, secret);
    return "open";
  }

  /** Gives a name a secret of its own, on the word of someone who has one: a new person, or one's own secret anew. */
  async giveSecret(own: { readonly person: string; readonly secret: string }, person: string, secret: string) {
    const raw = await this.#rawKey(own.person, own.secret);
    if (raw) await this.#give(raw, person, secret);
    return raw !== undefined;
  }

  /** Forgets the key: what is kept stays kept and cannot be read until a secret is given. */
  forget(): void {
    this.#dataKey = undefined;
  }

  /** Keeps changes as one row, whole or not at all; resolves with its place in the log when it is durable. */
  async append(changes: readonly DeviceChange[]): Promise<number> {
    if (this.state === "locked") throw new Error("locked");
    return this.#db.append(await sealRow(this.#dataKey, changes));
  }

  async readAfter(key: number): Promise<readonly LogEntry[]> {
    const rows = await this.#db.rowsAfter(key);
    return Promise.all(rows.map(async (one) => ({ key: one.key, changes: await openRow(this.#dataKey, one.row) })));
  }

  /** Puts fewer entries in the place of all up to a key. */
  async shorten(upTo: number, changes: readonly DeviceChange[]): Promise<void> {
    if (this.state === "locked") return;
    await this.#db.replaceUpTo(upTo, await Promise.all(changes.map((change) => sealRow(this.#dataKey, [change]))));
  }

  close(): void {
    this.forget();
    this.#db.close();
  }

  async #rawKey(person: string, secret: string): Promise<Uint8Array<ArrayBuffer> | undefined> {
    const key = (await this.#db.keys()).find((one) => one.person === person);
    return key && unwrapDataKey(key, secret);
  }

  async #give(raw: Uint8Array<ArrayBuffer>, person: string, secret: string): Promise<void> {
    await this.#db.keepKey(await wrapDataKey(raw, person, secret));
    this.#dataKey = await importDataKey(raw);
    await this.readPeople();
  }
}
