import type { Instant } from "../../../core/calendar/index.ts";
import type { AccountRole } from "../../../register/index.ts";

/**
 * What the device remembers in the clear, because it is shown while locked: no patient, no clinical value.
 */
export interface DeviceNotes {
  /** The name a person gave this device, with four signs that keep two of one name apart. */
  readonly device: string;
  readonly lastContact: Instant | undefined;
  /** The account last signed in with at the server; "" for none. */
  readonly account: string;
  /** What that account holds, so that its roles are offered without a network too. */
  readonly roles: readonly AccountRole[];
  /** Signed out here while the server did not answer: its session is ended before anything else is asked. */
  readonly signOutOwed: boolean;
  readonly unsent: number;
  readonly wrongTries: number;
  readonly settings: DeviceSettings;
}

export interface DeviceSettings {
  /** Minutes without a touch until the secret is asked again. */
  readonly lockAfterMinutes: number;
  /** Minutes without a touch until names are hidden. */
  readonly hideNamesAfterMinutes: number;
  /** Hours after which the key is forgotten whatever happens. */
  readonly forgetAfterHours: number;
}

/** NIST SP 800-63B 4.2.3 asks for 30 minutes and 12 hours at most; a bedside is left sooner (common practice). */
export const USUAL_SETTINGS: DeviceSettings = { lockAfterMinutes: 15, hideNamesAfterMinutes: 2, forgetAfterHours: 12 };

/** Two tablets may be given one name; what they write is told apart by these four signs. */
export const deviceName = (name: string): string =>
  `${name.trim().slice(0, 60) || "device"} ${[...crypto.getRandomValues(new Uint8Array(2))].map((byte) => byte.toString(16).padStart(2, "0")).join("")}`;

/** Seconds to wait after so many wrong secrets in a row: none up to five, then doubling to 15 minutes, never for good. */
export const waitSeconds = (wrongTries: number): number => (wrongTries < 5 ? 0 : Math.min(2 ** (wrongTries - 4), 900));
