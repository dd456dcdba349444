import { CHAIN_START, chainHash } from "../../register/index.ts";
import type { SqlConnection } from "../sql/index.ts";

/** One line of the trail: who did what to which subject, when and from where. No clinical text. */
export interface TrailEntry {
  readonly at: string;
  /** "" when nobody was signed in. */
  readonly account: string;
  readonly what: string;
  /** A subject or an account, "" when it is about neither. */
  readonly subject: string;
  /** Codes and counts only. */
  readonly detail: string;
  readonly address: string;
  readonly request: string;
}
export interface TrailRow extends TrailEntry {
  readonly position: number;
  readonly chainHash: string;
}

const COLUMNS = `position, at, account, what, subject, detail, address, request, chain_hash AS "chainHash"`;
const PAGE = 1000;

export class TrailTable {
  readonly #connection: SqlConnection;
  #before: Promise<unknown> = Promise.resolve();

  constructor(connection: SqlConnection) {
    this.#connection = connection;
  }

  /** Adds entries, one after the other; resolves when they are durable. */
  add(entries: readonly TrailEntry[]): Promise<void> {
    const adding = this.#before
      .catch(() => undefined)
      .then(() =>
        this.#connection.transaction(async (inside) => {
          // two servers on one database stand in line here; SQLite's IMMEDIATE has done so already
          if (inside.dialect === "postgresql") await inside.all("SELECT pg_advisory_xact_lock(8105442)");
          const [last] = await inside.all<{ readonly position: number; readonly chainHash: string }>(
            `SELECT position, chain_hash AS "chainHash" FROM trail ORDER BY position DESC LIMIT 1`,
          );
          let position = last?.position ?? 0;
          let chain = last?.chainHash ?? CHAIN_START;
          for (const entry of entries) {
            position += 1;
            chain = chainHash(chain, linked(position, entry));
            const { at, account, what, subject, detail, address, request } = entry;
            await inside.run(
              `INSERT INTO trail (position, at, account, what, subject, detail, address, request, chain_hash)
               VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)`,
              [position, at, account, what, subject, detail, address, request, chain],
            );
          }
        }),
      );
    this.#before = adding;
    return adding;
  }

  after(position: number, limit: number): Promise<readonly TrailRow[]> {
    return this.#connection.all<TrailRow>(
      `SELECT ${COLUMNS} FROM trail WHERE position > ? ORDER BY position LIMIT ${Math.trunc(limit)}`,
      [position],
    );
  }

  /** Follows the chain from its start; the position of the first row that does not fit, undefined when all do. */
  async firstBroken(): Promise<number | undefined> {
    let chain = CHAIN_START;
    let at = 0;
    for (;;) {
      const rows = await this.after(at, PAGE);
      for (const row of rows) {
        chain = chainHash(chain, linked(at + 1, row));
        if (row.position !== at + 1 || row.chainHash !== chain) return at + 1;
        at = row.position;
      }
      if (rows.length < PAGE) return undefined;
    }
  }
}

const linked = (position: number, { at, account, what, subject, detail, address, request }: TrailEntry) => ({
  position,
  at,
  account,
  what,
  subject,
  detail,
  address,
  request,
});
