import type { SqlConnection } from "../sql/index.ts";

/** A record opened in need: one person, one patient, a reason, and an end. */
export interface OpenedInNeed {
  readonly id: string;
  readonly account: string;
  readonly patient: string;
  readonly reason: string;
  readonly openedAt: string;
  readonly untilAt: string;
  /** "" until somebody else has looked at it. */
  readonly reviewedBy: string;
  readonly reviewedAt: string;
  readonly finding: string;
}

const COLUMNS = `id, account, patient, reason, opened_at AS "openedAt", until_at AS "untilAt",
  reviewed_by AS "reviewedBy", reviewed_at AS "reviewedAt", finding`;

export class GlassTable {
  readonly #connection: SqlConnection;

  constructor(connection: SqlConnection) {
    this.#connection = connection;
  }

  async add(opened: OpenedInNeed): Promise<void> {
    const { id, account, patient, reason, openedAt, untilAt } = opened;
    await this.#connection.run(
      `INSERT INTO broken_glass
       (id, account, patient, reason, opened_at, until_at, reviewed_by, reviewed_at, finding)
       VALUES (?, ?, ?, ?, ?, ?, '', '', '')`,
      [id, account, patient, reason, openedAt, untilAt],
    );
  }

  /** What a person has open at a moment. */
  async open(account: string, patient: string, at: string): Promise<OpenedInNeed | undefined> {
    const [row] = await this.#connection.all<OpenedInNeed>(
      `SELECT ${COLUMNS} FROM broken_glass
       WHERE account = ? AND patient = ? AND until_at > ? ORDER BY until_at DESC LIMIT 1`,
      [account, patient, at],
    );
    return row;
  }

  list(): Promise<readonly OpenedInNeed[]> {
    return this.#connection.all<OpenedInNeed>(`SELECT ${COLUMNS} FROM broken_glass ORDER BY opened_at DESC LIMIT 500`);
  }

  /** Reviews one; false when there is none to review, or when the reviewer is the one who opened it. */
  async review(id: string, by: string, at: string, finding: string): Promise<boolean> {
    const done = await this.#connection.all<{ readonly id: string }>(
      `UPDATE broken_glass SET reviewed_by = ?, reviewed_at = ?, finding = ?
       WHERE id = ? AND reviewed_by = '' AND account <> ? RETURNING id`,
      [by, at, finding, id, by],
    );
    return done.length === 1;
  }
}
