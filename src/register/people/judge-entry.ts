import { isAboutAnEvent } from "../catalogue.ts";
import { SERVICE_ROLE, type RegisterEvent } from "../event/index.ts";
import { mayWrite, needsAccount } from "./entry-right.ts";
import { mayDo, type AccountRole } from "./right.ts";

/** An account as far as its rights go. */
export interface Holder {
  readonly account: string;
  readonly roles: readonly AccountRole[];
}

/**
 * Why an entry is not taken from this person.
 *   role-may-not-write      no role of the account may write this type
 *   another-account         the entry is signed in another person's account, and no scribe wrote it for that person
 *   role-not-held           the entry is signed in a role its account does not hold
 *   another's-entry         it corrects what another person wrote, and only the lead does that
 *   account-wanted          it decides or signs, and no account vouches for the role it is signed in
 */
export type EntryRefusal =
  | "role-may-not-write"
  | "another-account"
  | "role-not-held"
  | "another's-entry"
  | "account-wanted";

/** What the judgement needs to look up. */
export interface EntryWitness {
  /** The entry a correction is about, undefined when nobody has it. */
  readonly about: (id: string) => RegisterEvent | undefined;
  /** Another account that is not disabled. */
  readonly holder: (account: string) => Holder | undefined;
}

/**
 * Whether the person signed in may send this entry; undefined when it may be taken. An entry signed before anyone had
 * signed in has no account: a fact is taken from whoever holds the right to its type, its role as said and not checked,
 * and the trail keeps who sent it; a release, a passed stop or a signature is not.
 */
export function judgeEntry(event: RegisterEvent, sender: Holder, witness: EntryWitness): EntryRefusal | undefined {
  const { account, role } = event.author;
  // only the server writes as the service, into its own record and through no letter
  if (role === SERVICE_ROLE) return "role-not-held";
  const performer = account === "" || account === sender.account ? sender : witness.holder(account);
  if (performer === undefined) return "another-account";
  if (performer !== sender && !(sender.roles.includes("scribe") && mayWriteIt(event, performer, witness))) {
    return "another-account";
  }
  if (account === "" && needsAccount(event.type)) return "account-wanted";
  if (account !== "" && !performer.roles.includes(role)) return "role-not-held";
  if (!isAboutAnEvent(event.type)) return mayWrite(sender.roles, event.type) ? undefined : "role-may-not-write";
  const about = witness.about(correctedId(event));
  // a correction of a correction asks for the right to the entry at its root; a ring of corrections has none
  const root = rootOf(event, witness);
  if (about && (root === undefined || !mayWrite(sender.roles, root.type))) return "role-may-not-write";
  if (about && isAboutAnEvent(about.type)) return correctsOwn(about, event, sender) ? undefined : "another's-entry";
  if (mayDo(sender.roles, "correct another's entry")) return undefined;
  return about && correctsOwn(about, event, sender) ? undefined : "another's-entry";
}

/** One's own: written in this account, or signed without one by the same initials in a role that the sender holds. */
function correctsOwn(about: RegisterEvent, correction: RegisterEvent, sender: Holder): boolean {
  if (mayDo(sender.roles, "correct another's entry")) return true;
  const { account, initials, role } = about.author;
  if (account !== "") return account === sender.account || account === correction.author.account;
  const same = initials === correction.author.initials && role === correction.author.role;
  return same && role !== SERVICE_ROLE && sender.roles.includes(role);
}

function mayWriteIt(event: RegisterEvent, holder: Holder, witness: EntryWitness): boolean {
  if (!isAboutAnEvent(event.type)) return mayWrite(holder.roles, event.type);
  const root = rootOf(event, witness);
  return root !== undefined && mayWrite(holder.roles, root.type);
}

/** The entry that a chain of corrections comes down to. */
function rootOf(event: RegisterEvent, witness: EntryWitness): RegisterEvent | undefined {
  const seen = new Set<string>();
  let at: RegisterEvent | undefined = event;
  while (at && isAboutAnEvent(at.type)) {
    if (seen.has(at.id)) return undefined;
    seen.add(at.id);
    at = witness.about(correctedId(at));
  }
  return at;
}

function correctedId({ data }: RegisterEvent): string {
  const id = data["event"];
  return typeof id === "string" ? id : "";
}
