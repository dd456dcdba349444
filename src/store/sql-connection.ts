/** What a value in a statement may be. */
export type SqlValue = string | number | null;

/** A database as the tables see it: one text serves both dialects, places for values are question marks. */
export interface SqlConnection {
  readonly dialect: "sqlite" | "postgresql";
  all<Row>(statement: string, values?: readonly SqlValue[]): Promise<readonly Row[]>;
  run(statement: string, values?: readonly SqlValue[]): Promise<void>;
  transaction<Result>(work: (inside: SqlConnection) => Promise<Result>): Promise<Result>;
  close(): Promise<void>;
}
