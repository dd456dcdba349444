import { civilDateOf } from "../../core/calendar/index.ts";
import { writeLineBlock } from "../../contract/index.ts";
import { armWords, bedWords, cardWords, dangerSigns, sayDay, sayRecorded, veinName } from "../../language/index.ts";
import { lineEvents, valueIn, type EntryOf } from "../../register/index.ts";
import { lineFactsOf } from "./line-facts-of.ts";
import { lengthNow, placingRow, saidValue } from "./line-value.ts";
import { framed, type PaperInput } from "./paper-input.ts";
import { phoneOf } from "./phone-of.ts";
import type { Sheet, SheetRow } from "./sheet.ts";

/** The card a person carries: the line in words, the danger signs, and letters any hospital can type back. */
export function patientCard(input: PaperInput): Sheet {
  const { line, issue, answer } = input;
  const { state, uses } = answer.release;
  const { number, who } = phoneOf(input);
  return framed(
    "patient card",
    input,
    [
      {
        kind: "columns",
        shares: [1.75, 1],
        columns: [
          [{ kind: "rows", rows: cardRows(input) }],
          [
            { kind: state === "may be used" ? "heading" : "loud", text: cardWords.state(state, uses) },
            { kind: "say", text: number === undefined ? cardWords.ringMissing : cardWords.ring(number, who) },
            { kind: "heading", text: cardWords.danger },
            {
              kind: "list",
              numbered: true,
              items: [dangerSigns.wet, dangerSigns.blood, dangerSigns.thick, dangerSigns.shiver].map(([sign]) => sign),
            },
            { kind: "soft", text: cardWords.replaces(issue) },
          ],
        ],
      },
      { kind: "typed", lines: twoToALine(writeLineBlock(lineFactsOf(line, issue))), caption: cardWords.block },
    ],
    "two A6",
  );
}

/** Two lines of the block beside each other, so that the card stays a card; they are read in any order. */
const twoToALine = (lines: readonly string[]): readonly string[] =>
  lines.flatMap((line, at) =>
    at % 2 === 0 ? [[line, lines[at + 1]].filter((one) => one !== undefined).join("   ")] : [],
  );

function cardRows({ line }: PaperInput): readonly SheetRow[] {
  const { said, placed, owner } = line;
  const film = line.tip?.entry as EntryOf<"TipRead"> | undefined;
  const arm = saidValue(lineEvents.LineInserted.arm, said.arm);
  const vein = saidValue(lineEvents.LineInserted.vein, said.vein);
  const exit = saidValue(lineEvents.LineInserted.skinExitCm, said.skinExitCm);
  const outside = lengthNow(line, "outsideCm");
  const inside = lengthNow(line, "insideCm");
  const french = saidValue(lineEvents.LineInserted.french, said.french);
  const known = valueIn(said.arm);
  const tip = film
    ? `${sayRecorded(lineEvents.TipRead.tipPlace, film.tipPlace)}, ${sayRecorded(lineEvents.TipRead.method, film.method)}`
    : "not read";
  const on = (value: string, at: Parameters<typeof civilDateOf>[0] | undefined) =>
    at ? cardWords.of(value, sayDay(civilDateOf(at))) : value;
  return [
    { label: cardWords.arm, value: known ? armWords(known) : arm.value, note: arm.note },
    {
      label: cardWords.device,
      value: cardWords.deviceWords(
        french.value,
        cardWords.lumens(saidValue(lineEvents.LineInserted.lumens, said.lumens).value),
        valueIn(said.catheter) ?? "",
      ),
      note: french.note,
    },
    {
      label: placed?.event.type === "LineFound" ? cardWords.came.found : cardWords.came.placed,
      value: placed ? sayDay(civilDateOf(placed.event.happenedAt)) : "not known",
    },
    {
      label: cardWords.vein,
      value: `${veinName[vein.value] ?? `vein ${vein.value}`}, ${cardWords.exit(exit.value)}`,
      note: vein.note || exit.note,
    },
    { label: cardWords.inside, value: on(inside.value, inside.at), note: inside.note },
    { label: cardWords.outside, value: on(outside.value, outside.at), note: outside.note },
    { label: cardWords.tip, value: on(tip, line.tip?.event.happenedAt) },
    placingRow(cardWords.lot, line, "lotNumber"),
    { label: bedWords.owner, value: owner ? `${owner.owner}, ${owner.place}` : "not known" },
  ];
}
