import { createHash } from "node:crypto";
import type { SqlConnection } from "../sql/index.ts";

/** One step of a database's shape. Once released it is never edited: a later step changes what an earlier one made. */
export interface Migration {
  readonly name: string;
  readonly statements: (dialect: SqlConnection["dialect"]) => readonly string[];
}

/**
 * Brings a family of tables ("record", "people") to the shape this program knows, each step once, all or nothing.
 * Throws where a step that was already taken reads differently now, or where the database knows steps this program
 * does not: an older program must not write into a newer shape.
 */
export async function migrate(
  connection: SqlConnection,
  family: string,
  migrations: readonly Migration[],
): Promise<void> {
  const { dialect } = connection;
  await connection.transaction(async (inside) => {
    // two servers that start together stand in line here; SQLite's IMMEDIATE has done so already
    if (dialect === "postgresql") await inside.all("SELECT pg_advisory_xact_lock(8105441)");
    await inside.run(
      dialect === "sqlite"
        ? "CREATE TABLE IF NOT EXISTS migration (family TEXT NOT NULL, place INTEGER NOT NULL, name TEXT NOT NULL, checksum TEXT NOT NULL, PRIMARY KEY (family, place)) STRICT"
        : "CREATE TABLE IF NOT EXISTS migration (family TEXT NOT NULL, place BIGINT NOT NULL, name TEXT NOT NULL, checksum TEXT NOT NULL, PRIMARY KEY (family, place))",
    );
    const taken = await inside.all<{ name: string; checksum: string }>(
      "SELECT name, checksum FROM migration WHERE family = ? ORDER BY place",
      [family],
    );
    if (taken.length > migrations.length)
      throw new Error(
        `the ${family} tables were made by a newer release (step "${taken[migrations.length]?.name}"); use that release`,
      );
    for (const [place, { name, statements }] of migrations.entries()) {
      const steps = statements(dialect);
      const checksum = createHash("sha256").update(steps.join(";\n")).digest("hex");
      const known = taken[place];
      if (known !== undefined) {
        if (known.name === name && known.checksum === checksum) continue;
        throw new Error(`step "${known.name}" of the ${family} tables differs from "${name}" of this release`);
      }
      for (const step of steps) await inside.run(step);
      await inside.run("INSERT INTO migration (family, place, name, checksum) VALUES (?, ?, ?, ?)", [
        family,
        place,
        name,
        checksum,
      ]);
    }
  });
}
