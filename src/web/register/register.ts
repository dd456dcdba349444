import type { Instant } from "../../core/calendar/index.ts";
import type {
  Aside,
  Author,
  Entry,
  History,
  Json,
  Role,
  SealedEvent,
  Subject,
  UnseenDecision,
} from "../../register/index.ts";
import type { RefusalCode } from "../../language/index.ts";
import type { Me, Reply, SignIn } from "./server-port.ts";
import type { DeviceSettings } from "./vault/device-notes.ts";

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
  | { readonly kind: "sign in again" }
  | { readonly kind: "no copy"; readonly code: RefusalCode } // this account reads no whole record
  | { readonly kind: "secret first" }; // a shared record is not copied into the clear

/** What came of a secret or a sign-in, for the page to say. */
export type Opened =
  | { readonly kind: "open" }
  | { readonly kind: "wrong secret" }
  | { readonly kind: "wait"; readonly seconds: number }
  | { readonly kind: "typed wrong" }
  | { readonly kind: "another key" };

export type SignedIn =
  | { readonly kind: "signed in"; readonly me: Me; readonly secretFirst: boolean }
  | Exclude<Reply<Me>, { readonly kind: "answer" }>;

/** The lock of this device. */
export interface DeviceLock {
  /**
   *   clear   no secret was ever set: for practice, kept in the clear
   *   open    sealed, and open in this tab
   *   shut    sealed; nothing can be read until a secret is given
   *   hidden  left alone: the page is behind the lock as it was, half-typed entries included
   */
  readonly state: "clear" | "open" | "shut" | "hidden";
  readonly people: readonly string[];
  readonly settings: DeviceSettings;
  /** Sets the first secret; gives the recovery key, which is shown once and kept nowhere. */
  readonly setUp: (person: string, secret: string) => Promise<string>;
  readonly open: (person: string, secret: string) => Promise<Opened>;
  readonly recover: (typedKey: string, person: string, secret: string) => Promise<Opened>;
  /** Gives a new person, or oneself anew, a secret; false for a wrong own secret. */
  readonly giveSecret: (
    own: { readonly person: string; readonly secret: string },
    person: string,
    secret: string,
  ) => Promise<boolean>;
  /** Hides the page until the secret is given; what waits is still sent. */
  readonly hide: () => void;
  /** Forgets the key in every tab; what waits stays on the device. */
  readonly signOut: () => void;
  readonly set: (settings: DeviceSettings) => Promise<void>;
}

/** What a person has to look at because of other devices or the server. */
export interface ToSettle {
  /** Refused by the server and kept here. */
  readonly aside: readonly Aside[];
  readonly offerAgain: (id: string) => Promise<void>;
  /** What a server that came back with an older backup lacked and was sent again. */
  readonly returned: readonly SealedEvent[];
  readonly returnedSeen: () => Promise<void>;
  readonly unseenDecisions: readonly UnseenDecision[];
  /** Entries this device could not keep; they are in this tab only. */
  readonly unkept: readonly SealedEvent[];
  readonly keepAgain: () => Promise<void>;
  /** Takes entries that were copied as a text from a device that could not keep them. */
  readonly takeEntries: (events: readonly SealedEvent[]) => Promise<void>;
}

/**
 * The record as this device knows it. Everything written is folded at once, kept on the device before it is said to be
 * kept, and sent when it can be.
 */
export interface Register {
  readonly ready: boolean;
  /** The invented patients are shown, and no real one is known. */
  readonly rehearsing: boolean;
  /** Locked: what is kept here cannot be read until the person gives the secret. */
  readonly locked: boolean;
  readonly histories: ReadonlyMap<Subject, History>;
  /** Events kept here that the server has not taken yet. */
  readonly unsent: number;
  readonly contact: Contact;
  /** When a server last answered this device; survives a reload. */
  readonly lastContact: Instant | undefined;
  readonly trouble: string | undefined;
  readonly device: string;
  /** Resolves when every event is durable on this device; rejects when it is not, with the events still shown. */
  readonly write: (writings: readonly Writing[]) => Promise<void>;
  readonly newId: () => string;
  readonly now: () => Instant;
  readonly lock: DeviceLock;
  readonly toSettle: ToSettle;
  /** Gives the device its name. */
  readonly nameDevice: (name: string) => Promise<void>;
  readonly signIn: (who: SignIn) => Promise<SignedIn>;
  /** Chooses the password of one's own that a one-time password asks for. */
  readonly choosePassword: (now: string, next: string) => Promise<Reply<unknown>>;
  /** The account signed in at the server, and the roles an entry may be signed with; "" and none for nobody. */
  readonly account: string;
  readonly roles: readonly Role[];
  /** Ends the session at the server, at once or as soon as it answers. */
  readonly leaveServer: () => Promise<void>;
  /** Asks the server now. */
  readonly syncNow: () => void;
}
