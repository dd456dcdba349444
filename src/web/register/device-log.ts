import { changesOf, emptyDevice, evolveDevice, type DeviceChange, type DeviceRecord } from "../../register/index.ts";
import type { Vault } from "./vault/vault.ts";

const LONG = 200; // rows: a longer log is shortened when it is opened

interface Pending {
  readonly changes: readonly DeviceChange[];
  /** It could not be kept; it lives in this tab only until it can. */
  readonly failed: boolean;
}

/**
 * The device's record in this tab: what the kept log tells, and over it what is still being kept or could not be.
 * Every tab folds the same log, so all tabs show the same.
 */
export class DeviceLog {
  #vault: Vault | undefined;
  #kept: DeviceRecord = emptyDevice;
  #last = 0;
  #pending: readonly Pending[] = [];
  #reading: Promise<void> = Promise.resolve();
  readonly #changed: () => void;

  constructor(changed: () => void) {
    this.#changed = changed;
  }

  /** From here on changes are kept; until then, and where a browser keeps nothing, they stay in memory and are told. */
  attach(vault: Vault): void {
    this.#vault = vault;
  }

  get record(): DeviceRecord {
    return this.#pending.flatMap(({ changes }) => changes).reduce(evolveDevice, this.#kept);
  }

  /** Changes that could not be kept on the device. */
  get unkept(): readonly DeviceChange[] {
    return this.#pending.filter(({ failed }) => failed).flatMap(({ changes }) => changes);
  }

  /** Reads what was kept since, here or by another tab. */
  catchUp(): Promise<void> {
    const vault = this.#vault;
    const before = this.#reading.catch(() => undefined);
    this.#reading = before.then(async () => {
      if (vault === undefined || vault.state === "locked") return;
      const entries = await vault.readAfter(this.#last);
      for (const { key, changes } of entries) {
        this.#kept = changes.reduce(evolveDevice, this.#kept);
        this.#last = key;
      }
      if (entries.length > 0) this.#changed();
    });
    return this.#reading;
  }

  /** Reads the log from its start, and shortens it where it has grown long. */
  openAgain(): Promise<void> {
    const vault = this.#vault;
    const before = this.#reading.catch(() => undefined);
    this.#reading = before.then(async () => {
      if (vault === undefined) return;
      const rows = await vault.readAfter(0);
      this.#kept = rows.flatMap(({ changes }) => changes).reduce(evolveDevice, emptyDevice);
      this.#last = rows.at(-1)?.key ?? 0;
      this.#changed();
      const short = changesOf(this.#kept);
      if (rows.length > LONG && short.length < rows.length) await vault.shorten(this.#last, short);
    });
    return this.#reading;
  }

  /** Folds changes at once and keeps them; resolves when they are durable, rejects with them still folded. */
  async take(changes: readonly DeviceChange[]): Promise<void> {
    if (changes.length === 0) return;
    const pending: Pending = { changes, failed: false };
    this.#pending = [...this.#pending, pending];
    this.#changed();
    await this.#keep(pending);
  }

  /** Tries once more to keep what could not be kept. */
  async keepAgain(): Promise<void> {
    for (const pending of this.#pending.filter(({ failed }) => failed)) await this.#keep(pending);
  }

  /** Lets go of everything in memory; what could not be kept stays, for it is nowhere else. */
  forget(): void {
    this.#kept = emptyDevice;
    this.#last = 0;
    this.#changed();
  }

  async #keep(pending: Pending): Promise<void> {
    try {
      if (this.#vault === undefined) throw new Error("this browser keeps nothing");
      await this.#vault.append(pending.changes);
    } catch (error) {
      this.#pending = this.#pending.map((one) => (one === pending ? { ...pending, failed: true } : one));
      this.#changed();
      throw error;
    }
    await this.catchUp();
    this.#pending = this.#pending.filter((one) => one !== pending && one.changes !== pending.changes);
    this.#changed();
  }
}
