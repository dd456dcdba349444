import Database from "better-sqlite3";
import { keepPrepared, type SqliteEngine } from "./sqlite-engine.ts";

/** Opens a file with the compiled driver, for a Node that has no SQLite of its own. */
export function openBetterSqlite(file: string): SqliteEngine {
  const database = new Database(file);
  const prepared = keepPrepared((statement) => database.prepare(statement));
  return {
    driver: "better-sqlite3",
    all: (statement, values) => {
      const query = prepared(statement);
      if (query.reader) return query.all(...values) as object[];
      query.run(...values);
      return [];
    },
    run: (statement, values) => {
      const query = prepared(statement);
      if (query.reader) query.all(...values);
      else query.run(...values);
    },
    close: () => database.close(),
  };
}
