import type { Migration } from "../migration/index.ts";

/** The dwell table: pieces of packed columns, and an index of the lines to find a piece by. No trigger: it may be dropped. */
export const dwellMigrations: readonly Migration[] = [
  {
    name: "dwell table in pieces",
    statements: (dialect) => {
      const [whole, bytes, strict] = dialect === "sqlite" ? ["INTEGER", "BLOB", " STRICT"] : ["BIGINT", "BYTEA", ""];
      return [
        `CREATE TABLE dwell_state (
          one ${whole} PRIMARY KEY,
          version TEXT NOT NULL,
          position ${whole} NOT NULL,
          as_of TEXT NOT NULL,
          lines ${whole} NOT NULL,
          referrals ${whole} NOT NULL,
          people ${whole} NOT NULL
        )${strict}`,
        `CREATE TABLE dwell_line (
          place ${whole} PRIMARY KEY,
          subject TEXT NOT NULL UNIQUE,
          patient TEXT NOT NULL,
          person ${whole} NOT NULL,
          referral TEXT NOT NULL,
          restless ${whole} NOT NULL
        )${strict}`,
        "CREATE INDEX dwell_line_patient ON dwell_line (patient)",
        "CREATE INDEX dwell_line_referral ON dwell_line (referral)",
        "CREATE INDEX dwell_line_restless ON dwell_line (restless) WHERE restless > 0",
        `CREATE TABLE dwell_referral (place ${whole} PRIMARY KEY, subject TEXT NOT NULL UNIQUE)${strict}`,
        `CREATE TABLE dwell_piece (
          kind TEXT NOT NULL,
          place ${whole} NOT NULL,
          data ${bytes} NOT NULL,
          PRIMARY KEY (kind, place)
        )${strict}`,
      ];
    },
  },
];
