import { Refusal } from "./http/refusal.ts";
import { makeAccount, resetPassword, type OneTime } from "./people/account.ts";
import type { PeopleParts } from "./people/people-parts.ts";

const CONSOLE = { address: "console", request: "" };

/** On a fresh store, the one administrator's account that makes all others; undefined when there are people already. */
export async function firstAccount(parts: PeopleParts): Promise<OneTime | undefined> {
  if ((await parts.people.persons.list()).length > 0) return undefined;
  try {
    return await makeAccount(parts, CONSOLE, "", { account: "administrator", roles: ["administrator"], units: [] });
  } catch (error) {
    // another server on this store made it between the looking and the making
    if (error instanceof Refusal && error.code === "account-taken") return undefined;
    throw error;
  }
}

/** From the machine itself: a new one-time password for an account, its second factor off, and in use again. */
export async function resetFromConsole(parts: PeopleParts, account: string): Promise<OneTime> {
  const one = await resetPassword(parts, CONSOLE, "", account, true);
  await parts.people.persons.change(account, { disabled: false });
  return one;
}
