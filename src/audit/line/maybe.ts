import { missing, type Maybe } from "../../core/missing/index.ts";
import { confirmedIn, type Recorded } from "../../register/index.ts";

/** A value somebody confirmed, or why there is none; one that still waits from a plan was not asked again. */
export function maybe<Value>(recorded: Recorded<Value> | undefined): Maybe<Value> {
  const value = confirmedIn(recorded);
  if (value !== undefined) return value;
  return recorded !== undefined && "missing" in recorded ? missing(recorded.missing) : missing("not asked");
}
