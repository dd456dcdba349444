import type { EventStore } from "../../register/index.ts";
import { sqlEventStore } from "../event-table/index.ts";
import { openSqlite } from "./open-sqlite.ts";

/** The record in one SQLite file, made where there is none. */
export async function openSqliteStore(file: string): Promise<EventStore> {
  const connection = await openSqlite(file);
  try {
    return await sqlEventStore(connection);
  } catch (error) {
    await connection.close();
    throw error;
  }
}
