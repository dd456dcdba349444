import { lockWords } from "../../language/index.ts";
import { secretFault } from "./vault/secret-key.ts";

/** What keeps a typed secret from being used, in words. */
export function saySecretFault(secret: string): string | undefined {
  const fault = secretFault(secret);
  if (fault === undefined) return undefined;
  return fault === "too short" ? lockWords.tooShort : lockWords.tooFewDifferent;
}
