import { civilDateOf } from "../../core/calendar/index.ts";
import { armWords, sayDay } from "../../language/index.ts";
import { valueIn, type LineView } from "../../register/index.ts";

/** A line in one sentence: which, where, since when, and whether it is still in. */
export function lineWord({ said, placed, end, owner }: LineView): string {
  const arm = valueIn(said.arm);
  const what = [valueIn(said.catheter) ?? "catheter not known", arm ? armWords(arm) : "arm not known"].join(", ");
  const since = placed ? `since ${sayDay(civilDateOf(placed.event.happenedAt))}` : "not placed";
  const now =
    end?.kind === "removed"
      ? "out"
      : end?.kind === "unknown"
        ? "nobody knows if it is in"
        : end?.kind === "handed on"
          ? "with another service"
          : (owner?.place ?? "no owner named");
  return `${what}, ${since}: ${now}`;
}
