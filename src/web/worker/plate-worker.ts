import { packedOfSent, tableOf, type AuditRules, type AuditTable, type SentLines } from "../../audit/index.ts";
import type { Figure } from "../../figure/index.ts";
import { drawPlate, plateNotes, type PlateNote, type PlatesAsked } from "../count/plates.ts";

/** Draws the plates of a large table off the page's own thread; it holds the table and what it worked out of it. */
export type PlateQuestion = PlatesAsked & { readonly at: number | "notes" };

export interface PlateAnswer {
  readonly figure?: Figure | undefined;
  readonly notes?: readonly PlateNote[];
}

type Told =
  | { readonly sent: SentLines; readonly rules: AuditRules }
  | { readonly turn: number; readonly question: PlateQuestion };

const scope = globalThis as unknown as {
  onmessage: (event: { data: Told }) => void;
  postMessage: (data: unknown) => void;
};
let held: { readonly table: AuditTable; readonly rules: AuditRules } | undefined;

scope.onmessage = ({ data }) => {
  try {
    if ("sent" in data) {
      held = { table: tableOf(packedOfSent(data.sent)), rules: data.rules };
      return;
    }
    if (!held) return;
    const { at, ...asked } = data.question;
    const answer: PlateAnswer =
      at === "notes" ? { notes: plateNotes({ ...asked, ...held }) } : { figure: drawPlate(at, { ...asked, ...held }) };
    scope.postMessage({ turn: data.turn, answer });
  } catch (fault) {
    scope.postMessage({ failed: String(fault) });
  }
};
