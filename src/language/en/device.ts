import { civilDateOf, clockOf, type CivilDate, type Instant } from "../../core/calendar/index.ts";
import type { AsideCode } from "../../register/index.ts";
import { sayMoment } from "./moment.ts";

/** What the device says about itself: what is kept, what waits, and how it stands with the server. */

const entries = (count: number): string => (count === 1 ? "1 entry" : `${count} entries`);

/** "14:05", with the day before it when it was not today. */
const momentWords = (at: Instant, today: CivilDate): string =>
  civilDateOf(at) === today ? clockOf(at) : sayMoment(at);

export function sayWaiting(unsent: number, contact: string): string {
  if (contact === "alone")
    return unsent === 0 ? "Kept on this device only." : `${entries(unsent)}, kept on this device only.`;
  if (unsent === 0) return "Nothing waits for the server.";
  return unsent === 1 ? "1 entry waits for the server." : `${unsent} entries wait for the server.`;
}

export function sayLastContact(at: Instant | undefined, today: CivilDate): string {
  return at === undefined ? "Never in contact yet." : `Last contact ${momentWords(at, today)}.`;
}

export const sayToSettle = (count: number): string => (count === 1 ? "1 thing to settle" : `${count} things to settle`);

export const deviceWords = {
  label: "This device",
  practice: "Practice patients, invented. Set a secret before a real patient.",
  inTheClear: "Kept in the clear: anybody here can read it. Set a secret.",
  secretFirst: "Set this device's secret first; then it copies the shared record.",
  asksSignIn: "The server asks you to sign in.",
  shutWaits: "Open the device to send them.",
  setSecret: "Set a secret",
  lockNow: "Lock",
  signOut: "Sign out",
  signIn: "Sign in",
  tryNow: "Try now",
} as const;

export const sayServerOlder = (count: number): string =>
  `The server came back with an older backup. It lacked ${entries(count)}; this device sends them again.`;

export const sayBrokenChain = (position: number): string =>
  `The server's record does not hold together at entry ${position}. Nothing was taken. Call the lead.`;

export const sayNotKept = (count: number): string =>
  `${entries(count)} could not be kept: this device is full. Copy the text now.`;

export const sayNothingKept = "This browser keeps nothing. Copy or print before you close the page.";

export const sayUnreadable = "What is kept on this device cannot be read. Call the lead; wipe nothing.";

/** Why the server would not take an entry, and what to do. */
export const sayAside: Readonly<Record<AsideCode, string>> = {
  "wrong-content-hash": "Its words changed on the way. Offer it again; if refused again, write it anew.",
  "id-stands-for-other-content": "Its number already stands for other words. Write it anew.",
  "not-allowed": "Your account may not write this, or none signed it. Sign in and write it anew.",
  "not-understood": "The server does not know this kind of entry. Ask for its update, then offer again.",
};

export const lockWords = {
  headline: "This device is locked.",
  hidden: "Locked while you were away. What you typed is still here.",
  who: "Who are you?",
  secret: "Your secret",
  open: "Open",
  wrong: "That secret does not open this device.",
  lost: "I lost my secret",
  recoveryKey: "Recovery key, from the paper",
  newSecret: "Your new secret",
  typedWrong: "One sign is wrong or missing. Read the paper again.",
  anotherKey: "This is a recovery key, but of another device.",
  back: "Back to the secret",
  working: "Opening ...",
  setUpHeadline: "Set a secret for this device.",
  setUpWhy: "With it, what is kept here can be read by nobody else.",
  sharedWhy: "The server's record names patients. It is copied here only under a secret.",
  setUpHow: "15 signs or more. Three or four words of your own do well.",
  yourName: "Your name on this device",
  again: "The same secret again",
  set: "Set the secret",
  differ: "The two secrets differ.",
  nameMissing: "Type the name you want to see here.",
  tooShort: "Too short: 15 signs at least. Spaces count.",
  tooFewDifferent: "Too few different signs. Use words of your own.",
  notSecure: "This address is not secure, so nothing can be sealed. Open it with https.",
  recoveryHeadline: "Print or write down this recovery key.",
  recoveryWhy: "It opens this device when a secret is lost. It is shown once.",
  recoveryWhere: "Keep it in a locked drawer, away from the device.",
  print: "Print",
  kept: "It is on paper",
  addHeadline: "Another person on this device",
  add: "Add the person",
  added: "Added. Each opens this device with their own secret.",
  person: "Their name on this device",
  theirs: "Their secret, typed by them",
} as const;

export const sayWait = (seconds: number): string =>
  `Too many tries. Wait ${seconds < 60 ? `${seconds} seconds` : `${Math.ceil(seconds / 60)} minutes`}.`;

export const signInWords = {
  headline: "Sign in at the server.",
  account: "Account",
  password: "Password",
  code: "Code of the second factor",
  codeHow: "Six digits from your app, or a recovery code. Empty if none.",
  enter: "Sign in",
  unreachable: "The server does not answer. What you write is kept here meanwhile.",
  noServer: "No server keeps a record at this address.",
  houseSignIn: "Sign in with the house's own sign-in",
  outsideFailed: "The house's sign-in is not set up here.",
  meanwhile: "What you write meanwhile is kept here and sent afterwards.",
} as const;

export const settleWords = {
  headline: "To be settled",
  nothing: "Nothing differs and nothing was refused.",
  differs: "Two people wrote differently, neither having seen the other.",
  holds: "This one holds",
  entryOf: "the entry of",
  chooseMissing: "Which one holds? Choose it.",
  settle: "Sign and settle",
  why: "Why this one?",
  whyMissing: "Write why: how do you know?",
  both: "Both stay in the record; the one not chosen is struck.",
  neverHappened: "This entry is a mistake",
  voidHow: "The whole entry is struck. It stays readable.",
  decisions: "Decided without knowing this",
  decisionKept: "The decision stands as written. Decide again, knowing this.",
  wouldBeRefused: "It would not be written today:",
  refused: "Refused by the server, kept here",
  offerAgain: "Offer it again",
  returned: "Sent again to a server that had gone back",
  returnedHow: "Look at these lines again: others may have written meanwhile.",
  returnedSeen: "I have seen them",
  unkept: "Not kept on this device",
  unkeptHow: "Copy this text to a place that keeps it. Free space, then keep again.",
  keepAgain: "Keep again",
  copy: "Copy the text",
  copied: "Copied.",
  notAsked: "not asked",
  answer: "Answer",
  take: "Entries copied from another device",
  takeHow: "Paste the whole text, from its first line to its last.",
  takePress: "Take these entries",
  takeWrong: "A line is missing, cut or changed. Copy the whole text again.",
  taken: "Taken and kept here.",
} as const;

export const signerWords = {
  initials: "Initials",
  role: "As",
  roleQuestion: "role?",
  sign: "Sign and keep",
  initialsMissing: "Who signs? Type your initials.",
  roleMissing: "As what? Choose your role.",
  last: "Signed here before",
  hidden: "Names are hidden.",
  show: "Show names again",
} as const;
