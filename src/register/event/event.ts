import type { Instant } from "../../core/calendar/index.ts";
import type { Json } from "./canonical-json.ts";

/** What a person does in the service; the rights of each are a table in the server. */
export const ROLES = [
  "inserter",
  "scribe",
  "ward nurse",
  "home nurse",
  "infection control",
  "stores",
  "lead",
  "auditor",
  "administrator",
] as const;
/** The service itself, where nobody signs: what its server notes by its own clock. No account holds it and no person. */
export const SERVICE_ROLE = "the service";
export type Role = (typeof ROLES)[number] | typeof SERVICE_ROLE;

/** Who says so: the initials and role given at signing, and the account the device was signed in with ("" for none). */
export interface Author {
  readonly initials: string;
  readonly role: Role;
  readonly account: string;
}

/** Kinds of subject; each subject has its own history. */
export const SUBJECT_KINDS = ["patient", "referral", "plan", "line", "lot", "service"] as const;
export type SubjectKind = (typeof SUBJECT_KINDS)[number];
/** A kind and an identifier, "line:7f0c...". */
export type Subject = `${SubjectKind}:${string}`;

/** When, by whom, where and under which policy an event was written. */
export interface Stamp {
  /** The event's own identifier, made by the writer: sending it twice changes nothing. */
  readonly id: string;
  readonly happenedAt: Instant;
  readonly writtenAt: Instant;
  readonly author: Author;
  /** The device that wrote it, by the name a person gave it. */
  readonly device: string;
  readonly policyVersion: string;
  /** How many events of the subject the writer had seen: what came between was not known to the writer. */
  readonly seen: number;
}

/** Something that happened to a subject, in the past tense; never rewritten. */
export interface RegisterEvent<Type extends string = string, Data = Readonly<Record<string, Json>>> extends Stamp {
  readonly subject: Subject;
  readonly type: Type;
  /** The shape of `data`; older shapes are carried forward when they are read. */
  readonly shape: number;
  readonly data: Data;
}

/** An event with the hash of its own content, set by the writer: nobody after can change a letter unseen. */
export interface SealedEvent<Type extends string = string, Data = Readonly<Record<string, Json>>> extends RegisterEvent<
  Type,
  Data
> {
  readonly contentHash: string;
}

/** An event a store has accepted: its place among all events and among its subject's. */
export interface StoredEvent<Type extends string = string, Data = Readonly<Record<string, Json>>> extends SealedEvent<
  Type,
  Data
> {
  /** 1 for the first event of the store. */
  readonly position: number;
  /** 1 for the first event of the subject. */
  readonly version: number;
  /** SHA-256 over the chain hash before it and this entry, in hexadecimal. */
  readonly chainHash: string;
}
