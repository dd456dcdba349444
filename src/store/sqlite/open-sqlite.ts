import { mkdirSync } from "node:fs";
import { dirname } from "node:path";
import type { SqlConnection } from "../sql/index.ts";
import { findNodeSqlite, openNodeSqlite } from "./node-sqlite.ts";
import { sqliteConnection } from "./sqlite-connection.ts";
import type { SqliteEngine } from "./sqlite-engine.ts";

/** How long a writer waits for another process that holds the file. */
const BUSY_MS = 5000;

/** Each setting and what it must read back as: a pragma that is not understood is silently ignored. */
const SETTINGS: readonly (readonly [set: string, readBack: string, must: string | number])[] = [
  ["PRAGMA journal_mode = WAL", "PRAGMA journal_mode", "wal"],
  // FULL waits for the disk at every commit; NORMAL may lose the last ones when the power fails
  ["PRAGMA synchronous = FULL", "PRAGMA synchronous", 2],
  ["PRAGMA foreign_keys = ON", "PRAGMA foreign_keys", 1],
  [`PRAGMA busy_timeout = ${BUSY_MS}`, "PRAGMA busy_timeout", BUSY_MS],
];

/** Opens (or makes) a SQLite file, with Node's own SQLite where Node has it, with better-sqlite3 where it has not. */
export async function openSqlite(file: string): Promise<SqlConnection> {
  return sqliteConnection(await openEngine(file));
}

/**
 * Opens the file and puts it in the one state that is allowed: WAL, synchronous FULL, foreign keys on, each read back.
 * Throws where a setting did not take or where a quick check finds the file damaged.
 */
export async function openEngine(file: string, driver?: SqliteEngine["driver"]): Promise<SqliteEngine> {
  if (file !== ":memory:") mkdirSync(dirname(file), { recursive: true });
  const node = driver === "better-sqlite3" ? undefined : await findNodeSqlite();
  if (driver === "node:sqlite" && node === undefined) throw new Error("this Node has no SQLite of its own");
  // imported only where it is needed: it is compiled for one Node and may be absent on another
  const engine = node ? openNodeSqlite(node, file) : (await import("./better-sqlite.ts")).openBetterSqlite(file);
  try {
    engine.run(`PRAGMA busy_timeout = ${BUSY_MS}`, []);
    for (const [set, readBack, must] of SETTINGS) {
      engine.all(set, []);
      const [row] = engine.all(readBack, []);
      const found: unknown = row === undefined ? undefined : Object.values(row)[0];
      const expected = file === ":memory:" && must === "wal" ? "memory" : must;
      if (found !== expected)
        throw new Error(`SQLite answers ${String(found)} to "${readBack}"; ${String(expected)} is needed for ${file}`);
    }
    const check = engine.all("PRAGMA quick_check(1)", []);
    const said: unknown = check[0] === undefined ? undefined : Object.values(check[0])[0];
    if (said !== "ok") throw new Error(`SQLite finds ${file} damaged: ${String(said)}`);
    return engine;
  } catch (error) {
    engine.close();
    throw error;
  }
}
