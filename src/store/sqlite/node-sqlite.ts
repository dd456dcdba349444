import type { SqlValue } from "../sql/index.ts";
import { keepPrepared, type SqliteEngine } from "./sqlite-engine.ts";

interface NodeStatement {
  all(...values: SqlValue[]): object[];
  run(...values: SqlValue[]): unknown;
}
interface NodeDatabase {
  prepare(statement: string): NodeStatement;
  close(): void;
}
/** The part of node:sqlite that is used; the types of the oldest Node supported do not know the module. */
export interface NodeSqlite {
  readonly DatabaseSync: new (file: string) => NodeDatabase;
}

/** Node's own SQLite, or undefined where this Node has none (before 22.13). */
export async function findNodeSqlite(): Promise<NodeSqlite | undefined> {
  // a name in a variable: bundlers and the type checker must not look for a module that may not be there
  const name = "node:sqlite";
  try {
    return (await import(name)) as NodeSqlite;
  } catch {
    return undefined;
  }
}

/** Opens a file with Node's own SQLite: nothing to compile. */
export function openNodeSqlite({ DatabaseSync }: NodeSqlite, file: string): SqliteEngine {
  const database = new DatabaseSync(file);
  const prepared = keepPrepared((statement) => database.prepare(statement));
  return {
    driver: "node:sqlite",
    all: (statement, values) => prepared(statement).all(...values),
    run: (statement, values) => void prepared(statement).run(...values),
    close: () => database.close(),
  };
}
