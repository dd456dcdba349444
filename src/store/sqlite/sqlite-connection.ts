import type { SqlConnection, SqlValue } from "../sql/index.ts";
import type { SqliteEngine } from "./sqlite-engine.ts";

/**
 * The port over one synchronous engine. A transaction may wait between its statements, so everything asked of the outer
 * connection meanwhile stands in line: no stranger's statement falls into a transaction that may be rolled back.
 */
export function sqliteConnection(engine: SqliteEngine): SqlConnection {
  let last: Promise<unknown> = Promise.resolve();
  const inLine = <Result>(work: () => Result | Promise<Result>): Promise<Result> => {
    const mine = last.then(work);
    last = mine.then(
      () => undefined,
      () => undefined,
    );
    return mine;
  };
  return {
    dialect: "sqlite",
    all: <Row extends object>(statement: string, values: readonly SqlValue[] = []) =>
      inLine(() => engine.all(statement, values) as readonly Row[]),
    run: (statement, values = []) => inLine(() => engine.run(statement, values)),
    transaction: (work) =>
      inLine(() =>
        // IMMEDIATE takes the write lock at once: two that read first and write later cannot both go on
        bracket(engine, ["BEGIN IMMEDIATE", "COMMIT", ["ROLLBACK"]], () => work(insideOf(engine, 1))),
      ),
    close: () => inLine(() => engine.close()),
  };
}

function insideOf(engine: SqliteEngine, depth: number): SqlConnection {
  const name = `inside_${depth}`;
  return {
    dialect: "sqlite",
    all: async <Row extends object>(statement: string, values: readonly SqlValue[] = []) =>
      engine.all(statement, values) as readonly Row[],
    run: async (statement, values = []) => engine.run(statement, values),
    transaction: (work) =>
      bracket(engine, [`SAVEPOINT ${name}`, `RELEASE ${name}`, [`ROLLBACK TO ${name}`, `RELEASE ${name}`]], () =>
        work(insideOf(engine, depth + 1)),
      ),
    close: () => Promise.reject(new Error("a connection inside a transaction is closed by its end")),
  };
}

async function bracket<Result>(
  engine: SqliteEngine,
  [begin, end, undo]: readonly [string, string, readonly string[]],
  work: () => Promise<Result>,
): Promise<Result> {
  engine.run(begin, []);
  try {
    const result = await work();
    engine.run(end, []);
    return result;
  } catch (error) {
    try {
      for (const statement of undo) engine.run(statement, []);
    } catch {
      // a full disk makes SQLite roll back by itself; then there is nothing left to undo
    }
    throw error;
  }
}
