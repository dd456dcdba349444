import type { SqlConnection } from "../sql/index.ts";

export interface Session {
  /** SHA-256 of the token; the token itself is only in the browser. */
  readonly tokenHash: string;
  readonly account: string;
  readonly madeAt: string;
  readonly seenAt: string;
  readonly address: string;
}

interface SessionRow {
  readonly token_hash: string;
  readonly account: string;
  readonly made_at: string;
  readonly seen_at: string;
  readonly address: string;
}

export class SessionTable {
  readonly #connection: SqlConnection;

  constructor(connection: SqlConnection) {
    this.#connection = connection;
  }

  async find(tokenHash: string): Promise<Session | undefined> {
    const [row] = await this.#connection.all<SessionRow>("SELECT * FROM person_session WHERE token_hash = ?", [
      tokenHash,
    ]);
    return (
      row && {
        tokenHash: row.token_hash,
        account: row.account,
        madeAt: row.made_at,
        seenAt: row.seen_at,
        address: row.address,
      }
    );
  }

  async add({ tokenHash, account, madeAt, seenAt, address }: Session): Promise<void> {
    await this.#connection.run(
      "INSERT INTO person_session (token_hash, account, made_at, seen_at, address) VALUES (?, ?, ?, ?, ?)",
      [tokenHash, account, madeAt, seenAt, address],
    );
  }

  async seen(tokenHash: string, at: string): Promise<void> {
    await this.#connection.run("UPDATE person_session SET seen_at = ? WHERE token_hash = ?", [at, tokenHash]);
  }

  async end(tokenHash: string): Promise<void> {
    await this.#connection.run("DELETE FROM person_session WHERE token_hash = ?", [tokenHash]);
  }

  /** Ends every session of an account but the one named. */
  async endAll(account: string, but = ""): Promise<void> {
    await this.#connection.run("DELETE FROM person_session WHERE account = ? AND token_hash <> ?", [account, but]);
  }

  /** Takes out sessions made before a moment: they have ended whatever was done in them. */
  async sweep(before: string): Promise<void> {
    await this.#connection.run("DELETE FROM person_session WHERE made_at < ?", [before]);
  }
}
