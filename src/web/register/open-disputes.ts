import { disputes, readHistory, type Dispute, type Happening, type History } from "../../register/index.ts";
import type { Register } from "./register.ts";

/** A difference with both entries as they read today. */
export interface OpenDispute extends Dispute {
  readonly history: History;
  readonly happenings: readonly [Happening, Happening];
}

const known = new WeakMap<History, readonly OpenDispute[]>();

/** Every difference of the record that nobody has settled; a history is read once, and only where two devices wrote. */
export const openDisputes = (histories: Register["histories"]): readonly OpenDispute[] =>
  [...histories.values()].flatMap((history) => {
    const before = known.get(history);
    if (before) return before;
    const found = read(history);
    known.set(history, found);
    return found;
  });

function read(history: History): readonly OpenDispute[] {
  const [first] = history.events;
  if (history.events.every(({ device }) => device === first?.device)) return [];
  const happenings = readHistory(history);
  const of = (id: string): Happening => happenings.find(({ event }) => event.id === id) as Happening;
  return disputes(happenings).map((dispute) => ({
    ...dispute,
    history,
    happenings: [of(dispute.first.id), of(dispute.second.id)],
  }));
}

/** How many things wait for a person to look at them. */
export const settleCount = ({ histories, toSettle }: Register): number =>
  openDisputes(histories).length +
  toSettle.aside.length +
  toSettle.unseenDecisions.length +
  toSettle.unkept.length +
  (toSettle.returned.length > 0 ? 1 : 0);
