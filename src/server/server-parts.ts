import type { EventStore } from "../register/index.ts";
import type { BackupStanding } from "./record/daily-backup.ts";
import type { PatientReader } from "./record/patient-reader.ts";
import type { PeopleParts } from "./people/people-parts.ts";
import type { OutsideSignIn } from "./openid/outside-sign-in.ts";

/** What a backup or a check of the store says of itself. */
export interface MachineAnswer {
  readonly good: boolean;
  /** Codes, counts and places; nothing of the record. */
  readonly lines: readonly string[];
}

/** Everything the routes stand on; a test hands in its own. */
export interface ServerParts extends PeopleParts {
  readonly store: EventStore;
  readonly patients: PatientReader;
  /** Whether the server speaks TLS: the cookie and the headers differ. */
  readonly secure: boolean;
  /** Names and addresses this server answers to. */
  readonly hostNames: readonly string[];
  readonly log: (line: string) => void;
  readonly newId: () => string;
  readonly backup?: () => Promise<MachineAnswer>;
  readonly verify?: () => Promise<MachineAnswer>;
  /** How the backups stand that the server makes by itself; absent where it makes none. */
  readonly backups?: () => BackupStanding;
  readonly outside?: OutsideSignIn;
}
