import { closeSync, existsSync, fsyncSync, mkdirSync, openSync, readSync, renameSync, rmSync, statSync } from "node:fs";
import { dirname, join } from "node:path";
import { verifyStore, type Verification } from "../../register/index.ts";
import { isPostgresql, openStore } from "../open-store.ts";
import { openSqlite, openSqliteStore } from "../sqlite/index.ts";
import { readEventLines, writeEventLines } from "./event-lines.ts";
import { StoreRefused } from "./store-refused.ts";

export interface Backup {
  readonly file: string;
  /** Of the copy, opened again: a backup nobody opened is a hope. */
  readonly verification: Verification;
}

/** Waits until a file, or the list of names in a folder, is on the disk. */
export function syncToDisk(path: string): void {
  const file = openSync(path, "r");
  try {
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

/** Where an address must lead to a record that is there already: opening would make one. */
export function mustBeThere(address: string): void {
  if (isPostgresql(address)) return;
  if (!existsSync(address)) throw new StoreRefused("no-store", address);
  const found = statSync(address);
  if (found.isDirectory()) throw new StoreRefused("is-a-folder", address);
  // an empty or a foreign file would be opened as a new record, and called whole
  if (!found.isFile() || !startsAsSqlite(address)) throw new StoreRefused("not-a-record", address);
}

/** The first 16 bytes of every SQLite file. Source: The SQLite Database File Format, section 1.3.1. */
const MAGIC = Buffer.from("SQLite format 3\0", "latin1");

function startsAsSqlite(address: string): boolean {
  const file = openSync(address, "r");
  try {
    const first = Buffer.alloc(MAGIC.length);
    return readSync(file, first, 0, MAGIC.length, 0) === MAGIC.length && first.equals(MAGIC);
  } finally {
    closeSync(file);
  }
}

/**
 * Copies the record while it is written to: a SQLite file by VACUUM INTO, a PostgreSQL database as lines of JSON. The
 * copy carries its moment in its name, is waited for on the disk, opened and verified, and only then gets its name.
 */
export async function backupStore(address: string, folder: string, stamp: string): Promise<Backup> {
  mustBeThere(address);
  mkdirSync(folder, { recursive: true });
  const lines = isPostgresql(address);
  const file = join(folder, `veinwright-${stamp.replaceAll(":", "-")}.${lines ? "ndjson" : "sqlite"}`);
  const partial = `${file}.partial`;
  for (const place of [file, partial]) if (existsSync(place)) throw new StoreRefused("already-there", place);
  try {
    const verification = lines ? await copyAsLines(address, partial) : await copyFile(address, partial);
    if (verification.kind === "whole") {
      syncToDisk(partial);
      renameSync(partial, file);
      syncToDisk(dirname(file));
    }
    return { file, verification };
  } finally {
    for (const rest of ["", "-wal", "-shm", ".check", ".check-wal", ".check-shm"])
      rmSync(`${partial}${rest}`, { force: true });
  }
}

async function copyFile(address: string, partial: string): Promise<Verification> {
  const connection = await openSqlite(address);
  try {
    await connection.run("VACUUM INTO ?", [partial]);
  } finally {
    await connection.close();
  }
  const copy = await openSqliteStore(partial);
  try {
    return await verifyStore(copy);
  } finally {
    await copy.close();
  }
}

async function copyAsLines(address: string, partial: string): Promise<Verification> {
  const store = await openStore(address);
  try {
    await writeEventLines(store, partial);
  } finally {
    await store.close();
  }
  // read back as a restore would, into a file that goes again
  const copy = await openSqliteStore(`${partial}.check`);
  try {
    await readEventLines(partial, copy);
    return await verifyStore(copy);
  } finally {
    await copy.close();
  }
}
