import type { Migration } from "../migration/index.ts";

const NEVER = "an event is never changed and never taken out";
const KEPT = "a checkpoint is never taken out";

/** The tables of the record. The text is the canonical JSON that was sealed; the columns beside it are for finding. */
export const eventMigrations: readonly Migration[] = [
  {
    name: "events and checkpoints",
    statements: (dialect) => {
      const [whole, strict] = dialect === "sqlite" ? ["INTEGER", " STRICT"] : ["BIGINT", ""];
      return [
        `CREATE TABLE event (
          position ${whole} PRIMARY KEY,
          id TEXT NOT NULL UNIQUE,
          subject TEXT NOT NULL,
          version ${whole} NOT NULL,
          content_hash TEXT NOT NULL,
          chain_hash TEXT NOT NULL,
          body TEXT NOT NULL,
          UNIQUE (subject, version)
        )${strict}`,
        `CREATE TABLE checkpoint (
          day TEXT PRIMARY KEY NOT NULL,
          position ${whole} NOT NULL,
          chain_hash TEXT NOT NULL,
          tree_root TEXT NOT NULL,
          peaks TEXT NOT NULL
        )${strict}`,
        ...(dialect === "sqlite" ? sqliteGuards : postgresqlGuards),
      ];
    },
  },
];

const sqliteGuards = [
  `CREATE TRIGGER event_unchanged BEFORE UPDATE ON event BEGIN SELECT RAISE(ABORT, '${NEVER}'); END`,
  `CREATE TRIGGER event_kept BEFORE DELETE ON event BEGIN SELECT RAISE(ABORT, '${NEVER}'); END`,
  `CREATE TRIGGER checkpoint_kept BEFORE DELETE ON checkpoint BEGIN SELECT RAISE(ABORT, '${KEPT}'); END`,
];

const postgresqlGuards = [
  `CREATE FUNCTION event_never() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN RAISE EXCEPTION '${NEVER}'; END $$`,
  "CREATE TRIGGER event_unchanged BEFORE UPDATE OR DELETE ON event FOR EACH ROW EXECUTE FUNCTION event_never()",
  "CREATE TRIGGER event_kept BEFORE TRUNCATE ON event FOR EACH STATEMENT EXECUTE FUNCTION event_never()",
  `CREATE FUNCTION checkpoint_never() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN RAISE EXCEPTION '${KEPT}'; END $$`,
  "CREATE TRIGGER checkpoint_kept BEFORE DELETE ON checkpoint FOR EACH ROW EXECUTE FUNCTION checkpoint_never()",
];
