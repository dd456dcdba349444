import type { Answer, EventStore } from "../../register/index.ts";
import { dwellMigrations, sqlDwellStore } from "../dwell-table/index.ts";
import { migrate } from "../migration/index.ts";
import type { SqlConnection } from "../sql/index.ts";
import { readCheckpoints, writeCheckpoint } from "./checkpoint-row.ts";
import { eventMigrations } from "./event-migrations.ts";
import { selectEvents } from "./event-row.ts";
import { groupCommit } from "./group-commit.ts";
import { checkOffer, readHead, takeOffers, type CheckedOffer } from "./take-offers.ts";

/** Offers of one commit at most: long groups keep other processes from the file. */
const GROUP = 500;

/** The record on a connection whose tables are made or brought up to date first. Closing it closes the connection. */
export async function sqlEventStore(connection: SqlConnection): Promise<EventStore> {
  await migrate(connection, "record", eventMigrations);
  await migrate(connection, "dwell table", dwellMigrations);
  const commit = groupCommit<CheckedOffer, Answer>(GROUP, (group) =>
    connection.transaction((inside) => takeOffers(inside, group)),
  );
  return {
    append: async (offer) => {
      const checked = checkOffer(offer);
      return "kind" in checked ? checked : commit(checked);
    },
    readSubject: (subject, afterVersion = 0) =>
      selectEvents(connection, "subject = ? AND version > ? ORDER BY version", [subject, afterVersion]),
    readAfter: (position, limit) =>
      selectEvents(connection, "position > ? ORDER BY position LIMIT ?", [position, limit]),
    head: () => readHead(connection),
    checkpoints: () => readCheckpoints(connection),
    checkpoint: (day) => writeCheckpoint(connection, day),
    dwell: sqlDwellStore(connection),
    close: () => connection.close(),
  };
}
