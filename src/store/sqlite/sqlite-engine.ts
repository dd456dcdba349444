import type { SqlValue } from "../sql/index.ts";

/** One open SQLite file, as each driver offers it: synchronous, statements kept once prepared. */
export interface SqliteEngine {
  readonly driver: "node:sqlite" | "better-sqlite3";
  all(statement: string, values: readonly SqlValue[]): readonly object[];
  run(statement: string, values: readonly SqlValue[]): void;
  close(): void;
}

interface Prepared {
  all(...values: SqlValue[]): unknown;
  run(...values: SqlValue[]): unknown;
}

/** Statements are few and come again and again: each is prepared once; past 200 kept ones the oldest goes. */
export function keepPrepared<Statement extends Prepared>(prepare: (statement: string) => Statement) {
  const kept = new Map<string, Statement>();
  return (statement: string): Statement => {
    const known = kept.get(statement);
    if (known !== undefined) return known;
    const fresh = prepare(statement);
    if (kept.size >= 200) kept.delete(kept.keys().next().value as string);
    kept.set(statement, fresh);
    return fresh;
  };
}
