import type { Json } from "./canonical-json.ts";
import type { RegisterEvent } from "./event.ts";

type Data = Readonly<Record<string, Json>>;
/** For a type of event and a shape its data had: the function that makes the next shape of it. */
export type RaiseTable = Readonly<Record<string, Readonly<Record<number, (data: Data) => Data>>>>;

/** Every shape that was ever written and is no longer. None yet: all types still have their first shape. */
const RAISES: RaiseTable = {};

/**
 * An event in the shape its type has today, raised one shape at a time. What the store keeps is never rewritten: the
 * seal belongs to the shape that was written, so a raised event is for reading and not for verifying.
 * Example: a table { LineMeasured: { 1: inMillimetres } } gives shape 2 of what was written as shape 1.
 */
export function raiseEvent<Event extends RegisterEvent>(event: Event, table: RaiseTable = RAISES): Event {
  const raises = Object.hasOwn(table, event.type) ? table[event.type] : undefined;
  let raised = event;
  for (let raise = raises?.[raised.shape]; raise !== undefined; raise = raises?.[raised.shape])
    raised = { ...raised, shape: raised.shape + 1, data: raise(raised.data) };
  return raised;
}
