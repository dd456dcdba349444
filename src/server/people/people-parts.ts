import type { PeopleStore, TrailEntry } from "../../store/index.ts";
import type { PeopleLimits } from "./people-limits.ts";

/** What every act on accounts needs. */
export interface PeopleParts {
  readonly people: PeopleStore;
  readonly limits: PeopleLimits;
  readonly now: () => Date;
}

/** Where a request came from, for the trail. */
export interface From {
  readonly address: string;
  readonly request: string;
}

/** Everything the trail has a word for. */
export type TrailWord =
  | "signed in"
  | "sign-in refused"
  | "signed out"
  | "refused"
  | "record copied"
  | "record opened"
  | "record opened in need"
  | "opening reviewed"
  | "entries taken"
  | "entries refused"
  | "account made"
  | "account changed"
  | "password reset"
  | "password chosen"
  | "second factor on"
  | "second factor off"
  | "trail read"
  | "backup made"
  | "verified";

/** What an administrator may read of the trail: who signed in and what became of accounts and the machine. */
export const TECHNICAL: ReadonlySet<string> = new Set<TrailWord>([
  "signed in",
  "sign-in refused",
  "signed out",
  "account made",
  "account changed",
  "password reset",
  "password chosen",
  "second factor on",
  "second factor off",
  "backup made",
  "verified",
]);

export const trailLine = (
  { now }: PeopleParts,
  from: From,
  account: string,
  what: TrailWord,
  subject = "",
  detail = "",
): TrailEntry => ({ at: now().toISOString(), account, what, subject, detail, ...from });

/** Writes one line of the trail; the answer waits for it, so that nothing is shown that is not in it. */
export const trace = (parts: PeopleParts, ...line: Tail<Parameters<typeof trailLine>>): Promise<void> =>
  parts.people.trail.add([trailLine(parts, ...line)]);

type Tail<Words extends readonly unknown[]> = Words extends readonly [unknown, ...infer Rest] ? Rest : never;
