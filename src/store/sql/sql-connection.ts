export type SqlValue = string | number | null | Uint8Array;

/**
 * The little that every SQL database here must do: the same statement text, with "?" for its values, on SQLite and on
 * PostgreSQL. Statements keep to what both read the same way; numbers come back as numbers and text as text.
 */
export interface SqlConnection {
  readonly dialect: "sqlite" | "postgresql";
  all<Row extends object>(statement: string, values?: readonly SqlValue[]): Promise<readonly Row[]>;
  run(statement: string, values?: readonly SqlValue[]): Promise<void>;
  /**
   * Everything inside is durable together or not at all; the connection handed in is the one to use inside.
   * One inside another is a savepoint. On SQLite the outer connection waits until the transaction has ended.
   */
  transaction<Result>(work: (inside: SqlConnection) => Promise<Result>): Promise<Result>;
  close(): Promise<void>;
}
