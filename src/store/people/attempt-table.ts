import type { SqlConnection } from "../sql/index.ts";

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

  async wrong(nameHash: string, at: string): Promise<void> {
    await this.#connection.run(
      `INSERT INTO sign_in_attempt (name_hash, wrong, last_at) VALUES (?, 1, ?)
       ON CONFLICT (name_hash) DO UPDATE SET wrong = sign_in_attempt.wrong + 1, last_at = excluded.last_at`,
      [nameHash, at],
    );
  }

  async right(nameHash: string): Promise<void> {
    await this.#connection.run("DELETE FROM sign_in_attempt WHERE name_hash = ?", [nameHash]);
  }

  async sweep(before: string): Promise<void> {
    await this.#connection.run("DELETE FROM sign_in_attempt WHERE last_at < ?", [before]);
  }
}
