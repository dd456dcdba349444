export type StoreRefusal =
  | "no-store"
  | "is-a-folder"
  | "not-a-record"
  | "no-backup"
  | "already-there"
  | "not-a-backup"
  | "cannot-open";

/** Why a backup or a restore does nothing; the place is the file or address it is about. */
export class StoreRefused extends Error {
  readonly code: StoreRefusal;
  readonly place: string;
  constructor(code: StoreRefusal, place: string, cause?: unknown) {
    super(`${code}: ${place}`, { cause });
    this.code = code;
    this.place = place;
  }
}
