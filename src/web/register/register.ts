import type { Instant } from "../../core/calendar/index.ts";
import type { Author, Entry, History, Json, Subject } from "../../register/index.ts";

/** What a person is about to sign about a subject; the rest of the stamp is the device's. */
export interface Writing {
  readonly subject: Subject;
  readonly type: string;
  readonly data: Entry | Readonly<Record<string, Json>>;
  readonly happenedAt: Instant;
  readonly author: Author;
}

/** How the device stands with the server that shares the record. */
export type Contact =
  | { readonly kind: "alone" } // no server keeps this record: this device is all there is
  | { readonly kind: "in touch"; readonly at: Instant }
  | { readonly kind: "out of touch"; readonly since: Instant | undefined }
  | { readonly kind: "server is older"; readonly told: string } // it came back with an older backup
  | { readonly kind: "sign in again" };

/**
 * The record as this device knows it. Everything written is folded at once, kept on the device before it is said to be
 * kept, and sent when it can be.
 */
export interface Register {
  readonly ready: boolean;
  /** Locked: what is kept here cannot be read until the person gives the secret. */
  readonly locked: boolean;
  readonly histories: ReadonlyMap<Subject, History>;
  /** Events kept here that the server has not taken yet. */
  readonly unsent: number;
  readonly contact: Contact;
  readonly trouble: string | undefined;
  readonly device: string;
  /** Resolves when every event is durable on this device. */
  readonly write: (writings: readonly Writing[]) => Promise<void>;
  readonly newId: () => string;
  readonly now: () => Instant;
}
