import type { EventStore } from "../../register/index.ts";
import { sqlEventStore } from "../event-table/index.ts";
import { openPostgresql } from "./open-postgresql.ts";

/** The record in a PostgreSQL database, for several servers at once. */
export async function openPostgresqlStore(url: string): Promise<EventStore> {
  const connection = await openPostgresql(url);
  try {
    return await sqlEventStore(connection);
  } catch (error) {
    await connection.close();
    throw error;
  }
}
