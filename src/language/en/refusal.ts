/** Why a request was turned back, and what to do: one line for each code a server answers with. */
const SENTENCES = {
  "sign-in-wanted": "Nobody is signed in here, or the session has ended. Sign in.",
  "wrong-sign-in": "Account, password and code do not fit together. Type them again.",
  "second-factor-wanted": "This account has a second factor. Type its six digits, or a recovery code.",
  "not-allowed": "The roles of this account do not include this. Ask an administrator or the lead.",
  "password-change-wanted": "This password was for one sign-in. Choose one of your own first.",
  "not-from-this-page": "The request did not come from this program's page. Open the page and try there.",
  "own-unit-only": "This account sees its own wards only. Open one record, or open it in need with a reason.",
  "wrong-address": "This name is not one of the server's names. Use the address it printed at its start.",
  "not-found": "There is nothing under this name. Check it.",
  "account-taken": "There is an account of this name, perhaps disabled. A name is never given twice.",
  "identity-taken": "This identity of the house stands for another account. Take it off that one first.",
  "roles-do-not-fit": "Administrator and auditor each stand alone on an account. Make a second account.",
  "last-administrator": "This is the last administrator. Make another one first.",
  "own-account": "Nobody changes the roles of the own account. Ask another administrator.",
  "second-factor-on": "The second factor is on already. Turn it off first.",
  "password-too-short": "The password is too short to stand without a second factor. Choose a longer one.",
  "already-reviewed": "This was reviewed, or it is your own opening. Another lead reviews it.",
  faults: "What was sent has faults. Each is named with its place.",
  "too-large": "What was sent is too large. Send it in parts of at most one megabyte.",
  "not-json": "What was sent is not JSON. Send JSON and say so in the content type.",
  "too-many": "Too many requests in a short time. Wait as long as the answer says.",
  "self-test": "The program's own check gave other numbers. Do not calculate with it; tell who keeps it.",
  "outside-sign-in": "The sign-in of the house did not vouch for an account here. Ask an administrator.",
  "not-set-up": "This is not set up on this server. Ask who keeps it.",
  "went-wrong": "Something went wrong here and nothing was kept. Try again; tell the number of the request.",
} as const;

export type RefusalCode = keyof typeof SENTENCES;
export const REFUSAL_CODES = Object.keys(SENTENCES) as readonly RefusalCode[];

export const sayServerRefusal = (code: RefusalCode): string => SENTENCES[code];
