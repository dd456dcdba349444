import { centimetres, removalWords, sayLineFinding } from "../../language/index.ts";
import { lineEvents, valueIn, type EntryOf, type Fields } from "../../register/index.ts";
import { lengthNow, saidValue } from "./line-value.ts";
import { framed, type PaperInput } from "./paper-input.ts";
import type { Block, Sheet } from "./sheet.ts";

const fields: Fields = lineEvents.LineRemoved;

/** What should come out, what did, and whether the tip went to the laboratory for a reason. */
export function removalSlip(input: PaperInput): Sheet {
  const { line, answer, policy } = input;
  const inside = lengthNow(line, "insideCm");
  const outside = lengthNow(line, "outsideCm");
  const expected = inside.cm === undefined || outside.cm === undefined ? undefined : inside.cm + outside.cm;
  const removed =
    line.end?.kind === "removed"
      ? (line.end.happening.entry as EntryOf<"LineRemoved">)
      : ({} as EntryOf<"LineRemoved">);
  const yesNo = (value: boolean | undefined): string => (value === undefined ? "" : value ? "yes" : "no");
  const complete = answer.removal.find(({ code }) => code === "removal-complete" || code === "removal-incomplete");
  const written: readonly Block[] =
    line.end?.kind === "removed"
      ? [
          { kind: "heading", text: removalWords.written },
          {
            kind: "rows",
            rows: (["lengthOutCm", "reason", "tipSentWhy", "removedBy"] as const).map((name) => ({
              label: {
                lengthOutCm: removalWords.out,
                reason: removalWords.reason,
                tipSentWhy: removalWords.tip,
                removedBy: removalWords.sign[0],
              }[name],
              ...(fields[name] ? saidValue(fields[name], removed[name]) : { value: "" }),
            })),
          },
        ]
      : [];
  const why = valueIn(removed.tipSentWhy);
  return framed("removal slip", input, [
    {
      kind: "numbers",
      items: [
        { label: removalWords.inside, value: inside.value, note: inside.note },
        { label: removalWords.outside, value: outside.value, note: outside.note },
        {
          label: removalWords.expected,
          value: expected === undefined ? "not known" : centimetres(expected),
          note: removalWords.within(centimetres(policy.table["care.removal-tolerance"].value)),
        },
      ],
    },
    { kind: "say", text: `${removalWords.measure} ${removalWords.never}` },
    ...(written.length > 0 ? written : [{ kind: "sign", items: [removalWords.out, removalWords.reason] } as const]),
    {
      kind: "boxes",
      label: removalWords.complete,
      options: removalWords.yesNo,
      ticked: yesNo(complete && complete.code === "removal-complete"),
    },
    { kind: "boxes", label: removalWords.whole, options: removalWords.yesNo, ticked: yesNo(valueIn(removed.tipWhole)) },
    {
      kind: "boxes",
      label: removalWords.resistance,
      options: removalWords.yesNo,
      ticked: yesNo(valueIn(removed.resistance)),
    },
    { kind: "loud", text: removalWords.short },
    { kind: "heading", text: removalWords.tip },
    {
      kind: "boxes",
      label: "",
      options: [
        removalWords.tipOptions[0],
        `${removalWords.tipOptions[1]} ${why ?? "____________________________________"}`,
      ],
      // no reason on record is not the same as "not sent": nothing is ticked for anybody
      ticked: why === undefined ? "" : `${removalWords.tipOptions[1]} ${why}`,
    },
    { kind: "list", numbered: false, items: answer.removal.map(sayLineFinding) },
    { kind: "sign", items: removalWords.sign },
  ]);
}
