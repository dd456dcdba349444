/** How long, how often and how many: the rules of signing in as one row of data. */
export interface PeopleLimits {
  /** Signs of a password that stands alone, and of one beside a second factor. */
  readonly passwordAloneSigns: number;
  readonly passwordBesideCodeSigns: number;
  readonly passwordMostSigns: number;
  readonly oneTimePasswordHours: number;
  /** Without a request for so long a session ends; whatever is done in it, it ends after the whole hours. */
  readonly administratorIdleMinutes: number;
  readonly idleMinutes: number;
  readonly sessionHours: number;
  /** Who signs in without a password confirms a step by having signed in so lately. */
  readonly freshMinutes: number;
  /** So many wrong tries cost nothing; each one after doubles the wait, up to the longest. */
  readonly freeTries: number;
  readonly longestWaitSeconds: number;
  readonly triesForgottenHours: number;
  readonly signInsPerMinute: number;
  readonly requestsPerMinute: number;
  readonly recoveryCodes: number;
  readonly openInNeedHours: number;
}

/**
 * The defaults. Password length: NIST SP 800-63B-4 (2025), 15 alone and 8 with a second factor, 64 or more allowed.
 * Twelve hours whole: NIST SP 800-63B-3 section 4.2.3 at its second level. The idle time of everybody but an
 * administrator is the whole session, because the device locks itself and a half-written entry must not be lost.
 * Waits, rates and the four hours: common practice, no source.
 */
export const usualLimits: PeopleLimits = {
  passwordAloneSigns: 15,
  passwordBesideCodeSigns: 8,
  passwordMostSigns: 256,
  oneTimePasswordHours: 72,
  administratorIdleMinutes: 15,
  idleMinutes: 720,
  sessionHours: 12,
  freshMinutes: 15,
  freeTries: 5,
  longestWaitSeconds: 900,
  triesForgottenHours: 24,
  signInsPerMinute: 20,
  requestsPerMinute: 300,
  recoveryCodes: 10,
  openInNeedHours: 4,
};
