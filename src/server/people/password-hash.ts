import { hash, verify } from "@node-rs/argon2";

/** argon2id (the package's default kind), 19 MiB, two passes: the least the OWASP password page names, from memory. */
const COST = { memoryCost: 19_456, timeCost: 2, parallelism: 1 } as const;
const AT_ONCE = 2; // a flood of sign-ins must not take the memory and both cores from the ward

let running = 0;
const waiting: (() => void)[] = [];

async function inTurn<Result>(work: () => Promise<Result>): Promise<Result> {
  if (running >= AT_ONCE) await new Promise<void>((resolve) => waiting.push(resolve));
  else running += 1;
  try {
    return await work();
  } finally {
    const next = waiting.shift();
    if (next) next();
    else running -= 1;
  }
}

/** The same password typed on another keyboard may come as other signs that look the same: one form is kept. */
const oneForm = (password: string): string => password.normalize("NFC");

export const passwordHash = (password: string): Promise<string> => inTurn(() => hash(oneForm(password), COST));

/** Whether a password is the one of a hash; "" for a hash is checked against nobody's, which takes as long. */
export async function passwordIs(password: string, kept: string): Promise<boolean> {
  nobodys ??= passwordHash("nobody has this password");
  const against = kept === "" ? await nobodys : kept;
  const same = await inTurn(() => verify(against, oneForm(password)).catch(() => false));
  return same && kept !== "";
}
let nobodys: Promise<string> | undefined;
