import type { SqlConnection } from "../sql/index.ts";

/** A try that was counted, with what stood before it. */
export interface Attempt {
  readonly before: { readonly wrong: number; readonly lastAt: string };
}

/** Wrong sign-ins in a row, by the hash of the name that was typed, whether or not there is such an account. */
export class AttemptTable {
  readonly #connection: SqlConnection;

  constructor(connection: SqlConnection) {
    this.#connection = connection;
  }

  async find(nameHash: string): Promise<{ readonly wrong: number; readonly lastAt: string }> {
    const [row] = await this.#connection.all<{ readonly wrong: number; readonly last_at: string }>(
      "SELECT wrong, last_at FROM sign_in_attempt WHERE name_hash = ?",
      [nameHash],
    );
    return row ? { wrong: row.wrong, lastAt: row.last_at } : { wrong: 0, lastAt: "" };
  }

  /** Counts one more, if nothing was counted since it was read; undefined where something was. */
  async count(
    nameHash: string,
    before: { readonly wrong: number; readonly lastAt: string },
    at: string,
  ): Promise<Attempt | undefined> {
    const counted =
      before.wrong === 0
        ? await this.#connection.all<{ readonly wrong: number }>(
            `INSERT INTO sign_in_attempt (name_hash, wrong, last_at) VALUES (?, 1, ?)
             ON CONFLICT (name_hash) DO UPDATE SET wrong = 1, last_at = excluded.last_at
             WHERE sign_in_attempt.wrong = 0 RETURNING wrong`,
            [nameHash, at],
          )
        : await this.#connection.all<{ readonly wrong: number }>(
            `UPDATE sign_in_attempt SET wrong = wrong + 1, last_at = ?
             WHERE name_hash = ? AND wrong = ? AND last_at = ? RETURNING wrong`,
            [at, nameHash, before.wrong, before.lastAt],
          );
    return counted.length === 1 ? { before } : undefined;
  }

  /** Takes a try off again that was not wrong; the wait it added goes only where no other try came since. */
  async giveBack(nameHash: string, { before }: Attempt): Promise<void> {
    await this.#connection.run(
      `UPDATE sign_in_attempt SET last_at = CASE WHEN wrong = ? THEN ? ELSE last_at END, wrong = wrong - 1
       WHERE name_hash = ? AND wrong > 0`,
      [before.wrong + 1, before.lastAt, nameHash],
    );
  }

  async right(nameHash: string): Promise<void> {
    await this.#connection.run("DELETE FROM sign_in_attempt WHERE name_hash = ?", [nameHash]);
  }

  async sweep(before: string): Promise<void> {
    await this.#connection.run("DELETE FROM sign_in_attempt WHERE last_at < ?", [before]);
  }
}
