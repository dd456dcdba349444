import { UnreadableEvent, type RegisterEvent, type StoredEvent, type Subject } from "../../register/index.ts";
import type { SqlConnection, SqlValue } from "../sql/index.ts";

interface EventRow {
  readonly position: number;
  readonly id: string;
  readonly subject: string;
  readonly version: number;
  readonly content_hash: string;
  readonly chain_hash: string;
  readonly body: string;
}

const COLUMNS = "position, id, subject, version, content_hash, chain_hash, body";
/** Rows of one INSERT; both databases take far more values, the statement text stays short. */
const ROWS_AT_ONCE = 50;

/** Events by a condition, in store order. */
export async function selectEvents(
  connection: SqlConnection,
  where: string,
  values: readonly SqlValue[],
): Promise<readonly StoredEvent[]> {
  const rows = await connection.all<EventRow>(`SELECT ${COLUMNS} FROM event WHERE ${where}`, values);
  return rows.map(storedFrom);
}

/** A new event with the text that was sealed. */
export interface NewRow {
  readonly event: StoredEvent;
  readonly text: string;
}

export async function insertEvents(connection: SqlConnection, rows: readonly NewRow[]): Promise<void> {
  for (let from = 0; from < rows.length; from += ROWS_AT_ONCE) {
    const part = rows.slice(from, from + ROWS_AT_ONCE);
    await connection.run(
      `INSERT INTO event (${COLUMNS}) VALUES ${part.map(() => "(?, ?, ?, ?, ?, ?, ?)").join(", ")}`,
      part.flatMap(({ event, text }) => [
        event.position,
        event.id,
        event.subject,
        event.version,
        event.contentHash,
        event.chainHash,
        text,
      ]),
    );
  }
}

/** The columns speak where text and columns differ: the seal then fails, and verifying names the event. */
function storedFrom(row: EventRow): StoredEvent {
  let said: RegisterEvent;
  try {
    said = JSON.parse(row.body) as RegisterEvent;
  } catch {
    throw new UnreadableEvent(`the event at position ${row.position} cannot be read; restore a backup`);
  }
  return {
    ...said,
    id: row.id,
    subject: row.subject as Subject,
    contentHash: row.content_hash,
    position: row.position,
    version: row.version,
    chainHash: row.chain_hash,
  };
}
