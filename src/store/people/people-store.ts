import { migrate } from "../migration/index.ts";
import type { SqlConnection } from "../sql/index.ts";
import { AttemptTable } from "./attempt-table.ts";
import { GlassTable } from "./glass-table.ts";
import { peopleMigrations } from "./people-tables.ts";
import { PersonTable } from "./person-table.ts";
import { SessionTable } from "./session-table.ts";
import { TrailTable } from "./trail-table.ts";

/** Everything kept about people: accounts, sessions, wrong tries, records opened in need, and the trail. */
export interface PeopleStore {
  readonly persons: PersonTable;
  readonly sessions: SessionTable;
  readonly attempts: AttemptTable;
  readonly glass: GlassTable;
  readonly trail: TrailTable;
}

/** Opens the tables of people, making those that are not there. */
export async function openPeople(connection: SqlConnection): Promise<PeopleStore> {
  await migrate(connection, "people", peopleMigrations);
  return {
    persons: new PersonTable(connection),
    sessions: new SessionTable(connection),
    attempts: new AttemptTable(connection),
    glass: new GlassTable(connection),
    trail: new TrailTable(connection),
  };
}
