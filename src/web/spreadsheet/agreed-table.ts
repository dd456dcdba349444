import type { AuditTable } from "../../audit/index.ts";

/** Lines a person agreed to on this page, as Count reads them. Held in memory only: closing the page forgets them. */
export interface AgreedTable {
  readonly fileName: string;
  /** Initials and date. */
  readonly agreedBy: string;
  readonly table: AuditTable;
  /** The same lines as the CSV that `audit` and Count read. */
  readonly csv: Blob;
}

let kept: AgreedTable | undefined;

/** The last table agreed on this page, if there is one. */
export const agreedTable = (): AgreedTable | undefined => kept;

export const keepAgreedTable = (table: AgreedTable): void => {
  kept = table;
};
