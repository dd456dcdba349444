import { civilDateOf } from "../../core/calendar/index.ts";
import { paperNameMissing, recallWords, sayDay } from "../../language/index.ts";
import { lineEvents, valueIn } from "../../register/index.ts";
import { saidValue } from "./line-value.ts";
import { framed, settledArm, type PaperInput } from "./paper-input.ts";
import type { Sheet } from "./sheet.ts";

/** A letter to one person whose catheter's lot was called back, with the words for the call under it. */
export function recallLetter(input: PaperInput): Sheet {
  const { line, patient, recalled } = input;
  const name = patient?.name || paperNameMissing;
  const lot = saidValue(lineEvents.LineInserted.lotNumber, line.said.lotNumber).value;
  const arm = settledArm(line, input.answer);
  const placed = line.placed ? sayDay(civilDateOf(line.placed.event.happenedAt)) : "a day not known";
  const phone = line.owner?.phone || "________________";
  return framed("recall letter", input, [
    { kind: "loud", text: recallWords.dear(name) },
    ...recallWords
      .letter(valueIn(line.said.lotNumber) ?? `${lot}: ask`, placed, arm)
      .map((text) => ({ kind: "say", text }) as const),
    ...(recalled ? [{ kind: "say", text: recallWords.why(recalled) } as const] : []),
    { kind: "loud", text: recallWords.call(phone) },
    { kind: "heading", text: recallWords.script },
    { kind: "list", numbered: true, items: recallWords.scriptItems(name, patient?.number ?? "", lot) },
    { kind: "boxes", label: recallWords.outcome, options: recallWords.outcomes, ticked: "" },
    { kind: "sign", items: recallWords.sign },
  ]);
}
