import { useEffect, useState } from "react";
import { lineCount, type AuditRules, type AuditTable } from "../../audit/index.ts";
import type { Figure } from "../../figure/index.ts";
import { drawPlate, plateCount, plateNotes, type PlateNote, type PlatesAsked } from "./plates.ts";
import { plateThread } from "./plate-thread.ts";

/** Of a larger table a plate would hold the page for longer than a press may wait. */
const MANY_LINES = 10_000;

interface Seen {
  readonly question: string;
  readonly table: AuditTable;
  readonly plates: readonly (Figure | undefined)[];
  /** Undefined until every plate is drawn. */
  readonly notes: readonly PlateNote[] | undefined;
}

/** The plates as they come, each in a task of its own; those of a large table are drawn on a thread of their own. */
export function usePlates(table: AuditTable, rules: AuditRules, asked: PlatesAsked): Pick<Seen, "plates" | "notes"> {
  const question = `${asked.measure.id} ${asked.period.from} ${asked.period.to}`;
  const [seen, setSeen] = useState<Seen>({ question, table, plates: [], notes: undefined });
  useEffect(() => {
    const wanted = plateCount(asked);
    const ending = new AbortController();
    const { signal } = ending;
    let timer: ReturnType<typeof setTimeout> | undefined;
    // plates of the same question stay where they are while they are drawn for another width
    const put = (at: number, plate: Figure | undefined) =>
      setSeen((before) => {
        const plates = before.question === question && before.table === table ? [...before.plates] : [];
        plates[at] = plate;
        return { question, table, plates, notes: undefined };
      });
    const end = (notes: readonly PlateNote[]) =>
      setSeen((before) => (before.question === question ? { ...before, notes } : before));
    const here = (at: number): void => {
      timer = setTimeout(() => {
        if (at === wanted) return end(plateNotes({ ...asked, table, rules }));
        put(at, drawPlate(at, { ...asked, table, rules }));
        here(at + 1);
      });
    };
    const elsewhere = async (): Promise<void> => {
      const draw = await plateThread(table, rules);
      for (let at = 0; at < wanted && !signal.aborted; at += 1) {
        const { figure } = await draw({ ...asked, at });
        if (!signal.aborted) put(at, figure);
      }
      if (signal.aborted) return;
      const { notes } = await draw({ ...asked, at: "notes" });
      if (!signal.aborted) end(notes ?? []);
    };
    if (wanted > 0 && lineCount(table) > MANY_LINES)
      elsewhere().catch(() => {
        // without a thread the page itself draws
        if (!signal.aborted) here(0);
      });
    else if (wanted > 0) here(0);
    return () => {
      ending.abort();
      clearTimeout(timer);
    };
  }, [table, rules, asked, question]);
  return seen.question === question && seen.table === table ? seen : { plates: [], notes: undefined };
}
