import type { AccountRole, StoredEvent } from "../../register/index.ts";
import { askServer, type Me } from "../register/server-port.ts";

/** One account as the administrator sees it. */
export interface Account {
  readonly account: string;
  readonly roles: readonly AccountRole[];
  readonly units: readonly string[];
  readonly disabled: boolean;
  readonly secondFactor: boolean;
  readonly changeWanted: boolean;
}

export interface OneTime {
  readonly account: string;
  readonly oneTimePassword: string;
  readonly until: string;
}

interface TrailRow {
  readonly position: number;
  readonly at: string;
  readonly account: string;
  readonly what: string;
  readonly subject: string;
  readonly detail: string;
}

interface Opening {
  readonly id: string;
  readonly account: string;
  readonly patient: string;
  readonly reason: string;
  readonly openedAt: string;
  readonly reviewedBy: string;
  readonly finding: string;
}

interface OpenedRecord {
  readonly banner: { readonly until: string; readonly reason: string } | null;
  readonly events: readonly StoredEvent[];
}

const named = (account: string): string => `/api/people/${encodeURIComponent(account)}`;

/** What the pages of people ask the server. */
export const peoplePort = {
  me: () => askServer<Me>("/api/me"),
  signOut: () => askServer("/api/sign-out", {}),
  password: (password: string, next: string) => askServer("/api/password", { password, next }),
  beginFactor: (password: string) =>
    askServer<{ readonly secret: string; readonly uri: string }>("/api/second-factor", { password }),
  factorOn: (code: string) =>
    askServer<{ readonly recoveryCodes: readonly string[] }>("/api/second-factor/on", { code }),
  factorOff: (password: string, code: string) => askServer("/api/second-factor/off", { password, code }),
  list: () => askServer<{ readonly people: readonly Account[] }>("/api/people"),
  make: (account: string, roles: readonly AccountRole[], units: readonly string[]) =>
    askServer<OneTime>("/api/people", { account, roles, units }),
  change: (account: string, change: { readonly roles?: readonly AccountRole[]; readonly disabled?: boolean }) =>
    askServer<Account>(named(account), change),
  reset: (account: string, alsoSecondFactor: boolean) =>
    askServer<OneTime>(`${named(account)}/reset`, { alsoSecondFactor }),
  backup: () => askServer<MachineSaid>("/api/backup", {}),
  backups: () => askServer<BackupStanding>("/api/backup"),
  verify: () => askServer<MachineSaid>("/api/verify"),
  trail: (after: number) =>
    askServer<{ readonly rows: readonly TrailRow[]; readonly upTo: number }>(`/api/trail?after=${after}`),
  openings: () => askServer<{ readonly opened: readonly Opening[] }>("/api/break-glass"),
  review: (id: string, finding: string) => askServer(`/api/break-glass/${id}/review`, { finding }),
  record: (patient: string) => askServer<OpenedRecord>(`/api/record/${encodeURIComponent(patient)}`),
  openInNeed: (patient: string, reason: string, password: string) =>
    askServer<OpenedRecord>("/api/break-glass", { patient, reason, password }),
} as const;

/** How the backups stand that the server makes by itself. */
export interface BackupStanding {
  readonly folder: string;
  readonly keep: number;
  readonly count: number;
  readonly newestAt: string;
  readonly failed: string;
  readonly now: string;
}

export interface MachineSaid {
  readonly good: boolean;
  readonly lines: readonly string[];
}
