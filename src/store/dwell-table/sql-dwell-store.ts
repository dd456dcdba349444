import type {
  DwellChange,
  DwellLine,
  DwellPiece,
  DwellReferral,
  DwellState,
  DwellStore,
} from "../../register/index.ts";
import type { SqlConnection, SqlValue } from "../sql/index.ts";

/** Values of one question at most: SQLite takes some thousands, and a plan is made for each number of them. */
const AT_ONCE = 500;
const ROWS_AT_ONCE = 100;
const TABLES = ["dwell_piece", "dwell_referral", "dwell_line", "dwell_state"];

const marks = (count: number): string => Array.from({ length: count }, () => "?").join(", ");

/** Asks for the values in groups of one size, so that few statements are prepared; the last group repeats its last value. */
async function inGroups<Row extends object>(
  connection: SqlConnection,
  statement: (marks: string) => string,
  values: readonly SqlValue[],
): Promise<readonly Row[]> {
  const found: Row[] = [];
  for (let from = 0; from < values.length; from += AT_ONCE) {
    const part = values.slice(from, from + AT_ONCE);
    const size = part.length === 1 ? 1 : AT_ONCE;
    const padded = Array.from({ length: size }, (_, at) => part[at] ?? (part.at(-1) as SqlValue));
    found.push(...(await connection.all<Row>(statement(marks(size)), padded)));
  }
  return found;
}

const readState = async (connection: SqlConnection): Promise<DwellState | undefined> => {
  const [row] = await connection.all<Omit<DwellState, "asOf"> & { readonly as_of: string }>(
    "SELECT version, position, as_of, lines, referrals, people FROM dwell_state WHERE one = 1",
  );
  if (!row) return undefined;
  const { version, position, as_of: asOf, lines, referrals, people } = row;
  return { version, position, asOf, lines, referrals, people };
};

/** Rows of a table, many to a statement; one that is there already is written over. */
async function put(
  inside: SqlConnection,
  table: string,
  key: string,
  columns: readonly string[],
  rows: readonly (readonly SqlValue[])[],
): Promise<void> {
  const own = key.split(", ");
  const set = columns.filter((column) => !own.includes(column)).map((column) => `${column} = excluded.${column}`);
  const text = (count: number) =>
    `INSERT INTO ${table} (${columns.join(", ")}) VALUES ${Array.from({ length: count }, () => `(${marks(columns.length)})`).join(", ")} ` +
    `ON CONFLICT (${key}) DO UPDATE SET ${set.join(", ")}`;
  let from = 0;
  for (; from + ROWS_AT_ONCE <= rows.length; from += ROWS_AT_ONCE)
    await inside.run(text(ROWS_AT_ONCE), rows.slice(from, from + ROWS_AT_ONCE).flat());
  for (const row of rows.slice(from)) await inside.run(text(1), row);
}

async function writeAll(inside: SqlConnection, { state, lines, referrals, pieces }: DwellChange): Promise<void> {
  await put(
    inside,
    "dwell_line",
    "place",
    ["place", "subject", "patient", "person", "referral", "restless"],
    lines.map(({ place, subject, patient, person, referral, restless }) => [
      place,
      subject,
      patient,
      person,
      referral,
      restless,
    ]),
  );
  await put(
    inside,
    "dwell_referral",
    "place",
    ["place", "subject"],
    referrals.map(({ place, subject }) => [place, subject]),
  );
  for (const { kind, place, data } of pieces)
    await put(inside, "dwell_piece", "kind, place", ["kind", "place", "data"], [[kind, place, data]]);
  await put(
    inside,
    "dwell_state",
    "one",
    ["one", "version", "position", "as_of", "lines", "referrals", "people"],
    [[1, state.version, state.position, state.asOf, state.lines, state.referrals, state.people]],
  );
}

/** The dwell table on a connection whose tables are made. */
export function sqlDwellStore(connection: SqlConnection): DwellStore {
  return {
    state: () => readState(connection),
    pieces: (kind) =>
      connection.all<DwellPiece>("SELECT kind, place, data FROM dwell_piece WHERE kind = ? ORDER BY place", [kind]),
    piece: async (kind, place) => {
      const [row] = await connection.all<DwellPiece>("SELECT data FROM dwell_piece WHERE kind = ? AND place = ?", [
        kind,
        place,
      ]);
      return row?.data;
    },
    linesBy: async (by, values) => {
      const rows = await inGroups<DwellLine>(
        connection,
        (given) =>
          `SELECT place, subject, patient, person, referral, restless FROM dwell_line WHERE ${by} IN (${given})` +
          (by === "restless" ? " AND restless > 0" : ""),
        values,
      );
      return [...new Map(rows.map((row) => [row.place, { ...row }])).values()].sort((a, b) => a.place - b.place);
    },
    referralsBy: async (by, values) => {
      const rows = await inGroups<DwellReferral>(
        connection,
        (given) => `SELECT place, subject FROM dwell_referral WHERE ${by} IN (${given})`,
        values,
      );
      return [...new Map(rows.map((row) => [row.place, { ...row }])).values()].sort((a, b) => a.place - b.place);
    },
    write: (change, after) =>
      connection.transaction(async (inside) => {
        // two servers that fold at once stand in line here; SQLite's IMMEDIATE has done so already
        if (inside.dialect === "postgresql") await inside.all("SELECT pg_advisory_xact_lock(8105442)");
        const now = await readState(inside);
        if (JSON.stringify(now) !== JSON.stringify(after)) return false;
        await writeAll(inside, change);
        return true;
      }),
    drop: () =>
      connection.transaction(async (inside) => {
        for (const table of TABLES) await inside.run(`DELETE FROM ${table}`);
      }),
  };
}
