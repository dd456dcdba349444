import type { AuditTable } from "../line/index.ts";
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
