import { join } from "node:path";
import type { EventStore } from "../register/index.ts";
import { openPostgresqlStore } from "./postgresql/index.ts";
import { openSqliteStore } from "./sqlite/index.ts";

/** Whether an address names a PostgreSQL database; every other address is the path of a SQLite file. */
export const isPostgresql = (address: string): boolean => /^postgres(ql)?:\/\//.test(address);

/** Where the record is when nobody says: in the folder named by VEINWRIGHT_DATA (or at that database), else in data/. */
export const storeAddress = (setting: string | undefined): string =>
  setting !== undefined && isPostgresql(setting) ? setting : join(setting || "data", "veinwright.sqlite");

/** Opens the record at an address; a SQLite file that is not there is made. */
export const openStore = (address: string): Promise<EventStore> =>
  isPostgresql(address) ? openPostgresqlStore(address) : openSqliteStore(address);
