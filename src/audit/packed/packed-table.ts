import type { AuditTable, LineRow } from "../line/index.ts";
import { packRows } from "./pack-rows.ts";
import type { PackedLines } from "./packed-lines.ts";
import { referralAt } from "./packed-referrals.ts";
import { rowAt } from "./packed-row.ts";

const PACKED = new WeakMap<AuditTable, PackedLines>();

/** The columns of a table; packed once, for a table never changes. */
export function packedOf(table: AuditTable): PackedLines {
  const packed = PACKED.get(table) ?? packRows(table);
  PACKED.set(table, packed);
  return packed;
}

/** How many lines a table has, without making its rows. */
export const lineCount = (table: AuditTable): number => packedOf(table).count;

const PLACES = new WeakMap<AuditTable, ReadonlyMap<string, number>>();

/** The line of a key, its row made when it is asked for; of two lines with one key the later, undefined without one. */
export function lineOfKey(table: AuditTable, key: string): LineRow | undefined {
  const packed = packedOf(table);
  const places = PLACES.get(table) ?? new Map(Array.from({ length: packed.count }, (_, at) => [packed.keyAt(at), at]));
  PLACES.set(table, places);
  const at = places.get(key);
  return at === undefined ? undefined : rowAt(packed, at);
}

/** Columns as a table: its rows are made when somebody asks for rows, which the figures never do. */
export function tableOf(packed: PackedLines): AuditTable {
  let lines: AuditTable["lines"] | undefined;
  let referrals: AuditTable["referrals"] | undefined;
  const table: AuditTable = {
    asOf: packed.asOf,
    get lines() {
      lines ??= Array.from({ length: packed.count }, (_, at) => rowAt(packed, at));
      return lines;
    },
    get referrals() {
      referrals ??= Array.from({ length: packed.referrals.count }, (_, at) => referralAt(packed.referrals, at));
      return referrals;
    },
    ...(packed.wardMonths === undefined ? {} : { wardMonths: packed.wardMonths }),
  };
  PACKED.set(table, packed);
  return table;
}
