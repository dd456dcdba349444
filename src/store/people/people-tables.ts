import type { Migration } from "../migration/index.ts";
import type { SqlConnection } from "../sql/index.ts";

/** The tables of people, in the order they are made; the same text on both databases but for SQLite's STRICT. */
const TABLES = [
  `CREATE TABLE person (
    account TEXT PRIMARY KEY,
    roles TEXT NOT NULL,
    units TEXT NOT NULL,
    password_hash TEXT NOT NULL,
    password_signs INTEGER NOT NULL,
    change_wanted INTEGER NOT NULL,
    password_until TEXT NOT NULL,
    code_secret TEXT NOT NULL,
    code_on INTEGER NOT NULL,
    code_step INTEGER NOT NULL,
    recovery_hashes TEXT NOT NULL,
    disabled INTEGER NOT NULL,
    openid_issuer TEXT NOT NULL,
    openid_subject TEXT NOT NULL,
    made_at TEXT NOT NULL
  )`,
  `CREATE TABLE person_session (
    token_hash TEXT PRIMARY KEY,
    account TEXT NOT NULL REFERENCES person (account),
    made_at TEXT NOT NULL,
    seen_at TEXT NOT NULL,
    address TEXT NOT NULL
  )`,
  `CREATE TABLE sign_in_attempt (
    name_hash TEXT PRIMARY KEY,
    wrong INTEGER NOT NULL,
    last_at TEXT NOT NULL
  )`,
  `CREATE TABLE broken_glass (
    id TEXT PRIMARY KEY,
    account TEXT NOT NULL REFERENCES person (account),
    patient TEXT NOT NULL,
    reason TEXT NOT NULL,
    opened_at TEXT NOT NULL,
    until_at TEXT NOT NULL,
    reviewed_by TEXT NOT NULL,
    reviewed_at TEXT NOT NULL,
    finding TEXT NOT NULL
  )`,
  `CREATE TABLE trail (
    position INTEGER PRIMARY KEY,
    at TEXT NOT NULL,
    account TEXT NOT NULL,
    what TEXT NOT NULL,
    subject TEXT NOT NULL,
    detail TEXT NOT NULL,
    address TEXT NOT NULL,
    request TEXT NOT NULL,
    chain_hash TEXT NOT NULL
  )`,
] as const;

/** The trail is only ever added to: the database itself refuses to change or take out a row. */
const ONLY_ADDED: Readonly<Record<SqlConnection["dialect"], readonly string[]>> = {
  sqlite: ["UPDATE", "DELETE"].map(
    (verb) => `CREATE TRIGGER trail_no_${verb.toLowerCase()} BEFORE ${verb} ON trail
      BEGIN SELECT RAISE(ABORT, 'the trail is only added to'); END`,
  ),
  postgresql: [
    `CREATE FUNCTION trail_only_added() RETURNS trigger LANGUAGE plpgsql AS
      $$ BEGIN RAISE EXCEPTION 'the trail is only added to'; END $$`,
    `CREATE TRIGGER trail_no_change BEFORE UPDATE OR DELETE OR TRUNCATE ON trail
      FOR EACH STATEMENT EXECUTE FUNCTION trail_only_added()`,
  ],
};

/** The tables of people, step by step; a released step is never edited. */
export const peopleMigrations: readonly Migration[] = [
  {
    name: "accounts, sessions, tries, openings and trail",
    statements: (dialect) => [
      ...TABLES.map((table) => (dialect === "sqlite" ? `${table} STRICT` : table)),
      ...ONLY_ADDED[dialect],
    ],
  },
  {
    name: "one account for an outside identity",
    statements: () => [
      // whose it is, nobody knows any more: two that share one are both without it until an administrator says
      `UPDATE person SET openid_issuer = '', openid_subject = '' WHERE openid_subject <> '' AND EXISTS (
        SELECT 1 FROM person AS other WHERE other.account <> person.account
          AND other.openid_issuer = person.openid_issuer AND other.openid_subject = person.openid_subject)`,
      `CREATE UNIQUE INDEX person_outside ON person (openid_issuer, openid_subject) WHERE openid_subject <> ''`,
    ],
  },
];
