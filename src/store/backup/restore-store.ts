import { constants, copyFileSync, existsSync, mkdirSync, renameSync, rmSync, statSync } from "node:fs";
import { dirname } from "node:path";
import { verifyStore, type Verification } from "../../register/index.ts";
import { isPostgresql, openStore } from "../open-store.ts";
import { openSqliteStore } from "../sqlite/index.ts";
import { syncToDisk } from "./backup-store.ts";
import { readEventLines } from "./event-lines.ts";
import { StoreRefused } from "./store-refused.ts";

/** Brings a backup to a new place and verifies it there. A place that holds anything is refused: nothing is overwritten. */
export async function restoreStore(backup: string, address: string): Promise<Verification> {
  if (!existsSync(backup)) throw new StoreRefused("no-backup", backup);
  // an empty file opens as an empty record, and would be called whole
  if (statSync(backup).size === 0) throw new StoreRefused("not-a-backup", backup);
  if (isPostgresql(address)) {
    // read once into memory first: what a database has taken cannot be taken out again
    await restoreLines(backup, ":memory:", ":memory:");
    return restoreLines(backup, address, address);
  }
  if (existsSync(address)) throw new StoreRefused("already-there", address);
  const partial = `${address}.partial`;
  if (existsSync(partial)) throw new StoreRefused("already-there", partial);
  mkdirSync(dirname(address), { recursive: true });
  try {
    const verification = backup.endsWith(".ndjson")
      ? await restoreLines(backup, partial, address)
      : await restoreFile(backup, partial);
    if (verification.kind === "whole") {
      syncToDisk(partial);
      renameSync(partial, address);
      syncToDisk(dirname(address));
    }
    return verification;
  } finally {
    for (const rest of ["", "-wal", "-shm"]) rmSync(`${partial}${rest}`, { force: true });
  }
}

async function restoreFile(backup: string, partial: string): Promise<Verification> {
  copyFileSync(backup, partial, constants.COPYFILE_EXCL);
  let store;
  try {
    store = await openSqliteStore(partial);
  } catch (error) {
    throw new StoreRefused("not-a-backup", backup, error);
  }
  try {
    return await verifyStore(store);
  } finally {
    await store.close();
  }
}

async function restoreLines(backup: string, place: string, address: string): Promise<Verification> {
  const store = await openStore(place);
  try {
    if ((await store.head()).position > 0) throw new StoreRefused("already-there", address);
    await readEventLines(backup, store);
    return await verifyStore(store);
  } finally {
    await store.close();
  }
}
