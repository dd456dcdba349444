import { minutesBetween, type Instant } from "../../core/calendar/index.ts";

/** What the page of accounts says: one's own password and factor, the accounts, the machine, the trail. */
export const peopleWords = {
  headline: "People and accounts",
  opening: "Opening the accounts ...",
  nobody: "Nobody is signed in here.",
  signIn: "Sign in",
  signOut: "Sign out",
  wards: "Sees these wards only:",
  changeHeadline: "Choose a password of your own.",
  changeWhy: "The password you typed was for one sign-in.",
  ownPassword: "Your password",
  current: "Password until now",
  next: "New password",
  nextAgain: "The new password again",
  rule: "15 signs or more; 8 beside a second factor.",
  ruleMore: "Not your account's name, and not common words alone.",
  differ: "The two new passwords differ. Type them again.",
  choose: "Choose this password",
  chosen: "The new password holds. Other sessions of this account have ended.",
  factor: "Second factor",
  factorOn: "The second factor is on.",
  factorOff: "The second factor is off.",
  factorBegin: "Set up the second factor",
  factorHow: "Type this secret into your authenticator, or open the address there.",
  factorCode: "The six digits it shows",
  factorTurnOn: "Turn it on",
  factorTurnOff: "Turn it off",
  recovery: "Print these recovery codes. They are shown once; each is good once.",
  accounts: "Accounts",
  account: "Account",
  roles: "Roles",
  units: "Wards, with commas; empty for the whole service",
  make: "Make the account",
  makeHeadline: "Make an account",
  rolesMissing: "Choose at least one role.",
  disable: "Disable",
  enable: "Use again",
  disabled: "disabled",
  keepRoles: "Keep these roles",
  reset: "New one-time password",
  resetBoth: "New password, second factor off",
  once: "Say it to the person, not by mail. It is shown once.",
  machine: "The machine",
  backup: "Make a backup now",
  verify: "Verify every chain",
  notGood: "Not whole. Keep a copy of the data folder. Call who keeps it.",
  working: "Working ...",
  trail: "Trail",
  trailColumns: ["when", "account", "what", "about", "detail"],
  readOn: "Read on",
  openings: "Records opened in need",
  unread: "New.",
  noOpenings: "No record was opened in need.",
  finding: "What was found",
  review: "Sign the review",
  reviewedBy: "Reviewed by",
  needHeadline: "Open a record in need",
  needWhy: "It is open for four hours, for this patient alone. A lead reviews it.",
  patient: "The record's number, from its address",
  reason: "Why is it needed now?",
  openNow: "Open in need",
  openOwn: "Open as one of my wards",
  unreachable: "The server does not answer. Try again when the network is there.",
} as const;

const clock = (instant: string): string => `${instant.slice(0, 16).replace("T", " ")} UTC`;

/** Until when a password for one sign-in is good, and whose it is. */
export const sayOneTime = (account: string, until: string): string =>
  `One-time password of ${account}, good until ${clock(until)}:`;

export const sayOpenedInNeed = (until: string, reason: string): string =>
  `Opened in need until ${clock(until)}: ${reason}`;

export const sayOpening = (account: string, patient: string, at: string): string =>
  `${clock(at)}: ${account} opened record ${patient}.`;

export const sayWaitSeconds = (seconds: number): string =>
  `Too many tries. Wait ${seconds < 60 ? `${seconds} seconds` : `${Math.ceil(seconds / 60)} minutes`}, then try again.`;

const FAULTS: Readonly<Record<string, string>> = {
  "too-short": "The new password is too short. 15 signs alone, 8 beside a second factor.",
  "too-long": "The new password is too long. 256 signs at most.",
  "too-common": "The new password is a common one. Use words of your own.",
  "holds-the-account": "The new password holds the account's name. Leave it out.",
  "the-same": "The new password is the old one. Choose another.",
  contradicts: "The six digits do not fit. Type those shown now.",
  "out-of-range": "Too short or too long. Write it anew.",
};

/** What a fault of a form on the page of accounts means; "" where the page has no word of its own for it. */
export const sayPeopleFault = (code: string): string => FAULTS[code] ?? "";

interface Backups {
  readonly folder: string;
  readonly keep: number;
  readonly count: number;
  readonly newestAt: string;
  readonly failed: string;
  readonly now: string;
}

const LATE_HOURS = 26; // a day, and two hours for a machine that was off at midnight
const hoursOld = ({ newestAt, now }: Backups): number => minutesBetween(newestAt as Instant, now as Instant) / 60;

/** Whether the newest backup is missing, failed or older than a day. */
export const isLate = (backups: Backups): boolean =>
  backups.newestAt === "" || backups.failed !== "" || hoursOld(backups) > LATE_HOURS;

/** How old the newest backup is, where it lies and how many are kept. */
export function sayBackups(backups: Backups): string {
  const { folder, keep, count, newestAt, failed } = backups;
  const why = failed === "" ? "" : " The last try failed. Ask who keeps the machine.";
  if (newestAt === "") return `No daily backup yet in ${folder}.${why}`;
  const hours = Math.max(0, Math.floor(hoursOld(backups)));
  const age = hours < 48 ? `${hours} h` : `${Math.floor(hours / 24)} days`;
  return `Newest daily backup: ${age} old, verified. ${count} of ${keep} kept in ${folder}.${why}`;
}

export const sayNewOpenings = (count: number): string =>
  count === 1 ? "A record was opened in need. Read why." : `${count} records were opened in need. Read why.`;
