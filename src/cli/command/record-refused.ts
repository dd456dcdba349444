import { storeInUse, storeRefusal } from "../../language/index.ts";
import { isHeldElsewhere, StoreRefused } from "../../store/index.ts";

/** Why the record was not reached, under its code and in words. */
interface RecordRefused {
  readonly code: StoreRefused["code"] | "in-use";
  readonly place: string;
  readonly said: string;
  readonly cause: unknown;
}

/** What an error at the record means: a refusal of its own, a file that another program holds, or one that cannot be opened. */
export function recordRefused(error: unknown, place: string): RecordRefused {
  if (isHeldElsewhere(error)) return { code: "in-use", place, said: storeInUse(place), cause: error };
  const refused = error instanceof StoreRefused ? error : new StoreRefused("cannot-open", place, error);
  const inner = refused.cause;
  if (isHeldElsewhere(inner))
    return { code: "in-use", place: refused.place, said: storeInUse(refused.place), cause: inner };
  return { code: refused.code, place: refused.place, said: storeRefusal[refused.code](refused.place), cause: inner };
}
