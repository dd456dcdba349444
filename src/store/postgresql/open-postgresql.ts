import type pg from "pg";
import type { SqlConnection, SqlValue } from "../sql/index.ts";
import { numbered } from "./numbered.ts";

/** Each setting that durability rests on, and what it must be. */
const MUST = { fsync: "on", synchronous_commit: "on", full_page_writes: "on", server_encoding: "UTF8" };

/**
 * Opens a pool of connections to `postgresql://user@host:port/database`.
 * Throws where the server does not promise that what it has committed is on the disk.
 */
export async function openPostgresql(url: string): Promise<SqlConnection> {
  // loaded only by those who have a PostgreSQL: the command line starts without it
  const { default: driver } = await import("pg");
  const types = new driver.TypeOverrides();
  // whole numbers of 8 bytes come as numbers; one that a number cannot hold is refused, not rounded
  types.setTypeParser(driver.types.builtins.INT8, (text) => {
    const number = Number(text);
    if (!Number.isSafeInteger(number)) throw new RangeError(`${text} is too large for a number`);
    return number;
  });
  const pool = new driver.Pool({ connectionString: url, types, max: 10 });
  // a server that goes away while a connection idles is met at the next statement, not here
  pool.on("error", () => undefined);
  try {
    for (const [setting, must] of Object.entries(MUST)) {
      const { rows } = await pool.query<{ setting: string }>("SELECT current_setting($1) AS setting", [setting]);
      const found = rows[0]?.setting;
      const held = found === must || (setting === "synchronous_commit" && found === "remote_apply");
      if (!held) throw new Error(`PostgreSQL has ${setting} = ${found}; ${must} is needed`);
    }
  } catch (error) {
    await pool.end();
    throw error;
  }
  return {
    dialect: "postgresql",
    ...statements(pool),
    transaction: async (work) => {
      const client = await pool.connect();
      let broken: Error | undefined;
      try {
        return await bracket(client, ["BEGIN", "COMMIT", "ROLLBACK"], () => work(insideOf(client, 1)));
      } catch (error) {
        broken = error instanceof BrokenConnection ? error : undefined;
        throw error instanceof BrokenConnection ? error.cause : error;
      } finally {
        client.release(broken);
      }
    },
    close: () => pool.end(),
  };
}

/** The connection could not even roll back: it must not go back to the pool. */
class BrokenConnection extends Error {}

const statements = (runner: pg.Pool | pg.PoolClient): Pick<SqlConnection, "all" | "run"> => ({
  all: async <Row extends object>(statement: string, values: readonly SqlValue[] = []) =>
    (await runner.query<Row & pg.QueryResultRow>(numbered(statement), [...values])).rows,
  run: async (statement, values = []) => {
    await runner.query(numbered(statement), [...values]);
  },
});

function insideOf(client: pg.PoolClient, depth: number): SqlConnection {
  const name = `inside_${depth}`;
  return {
    dialect: "postgresql",
    ...statements(client),
    transaction: (work) =>
      bracket(client, [`SAVEPOINT ${name}`, `RELEASE ${name}`, `ROLLBACK TO ${name}`], () =>
        work(insideOf(client, depth + 1)),
      ),
    close: () => Promise.reject(new Error("a connection inside a transaction is closed by its end")),
  };
}

async function bracket<Result>(
  client: pg.PoolClient,
  [begin, end, undo]: readonly [string, string, string],
  work: () => Promise<Result>,
): Promise<Result> {
  await client.query(begin);
  try {
    const result = await work();
    await client.query(end);
    return result;
  } catch (error) {
    try {
      await client.query(undo);
    } catch {
      throw new BrokenConnection("rollback did not reach the server", { cause: error });
    }
    throw error;
  }
}
