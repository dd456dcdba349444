import { bedWords, centimetres, homeWords, phoneWords, sayMoment } from "../../language/index.ts";
import { outsideAtTip } from "../../register/index.ts";
import { lengthNow, placingRow } from "./line-value.ts";
import { framed, type PaperInput } from "./paper-input.ts";
import { phoneOf } from "./phone-of.ts";
import { atTheSkin } from "./skin-block.ts";
import type { Sheet } from "./sheet.ts";

const WRITTEN_AT_HOME = 4;

/** What the line looked like when all was well, and what to do by sign. */
export function homeSheet(input: PaperInput): Sheet {
  const { line, policy } = input;
  const { table } = policy;
  const base = outsideAtTip(line);
  const outside = base ? centimetres(base.value) : lengthNow(line, "outsideCm").value;
  const around = placingRow(homeWords.circumference, line, "circumferenceCm");
  const place = placingRow("", line, "circumferencePlaceCm");
  const placeKnown = line.said.circumferencePlaceCm !== undefined && "value" in line.said.circumferencePlaceCm;
  const phone = phoneOf(input);
  const tipRead = line.tip !== undefined;
  const state = homeWords.state[input.answer.release.state];
  return framed("home sheet", input, [
    ...(state === "" ? [] : [{ kind: "loud" as const, text: state }]),
    {
      kind: "numbers",
      items: [
        {
          label: homeWords.outside,
          value: outside,
          note: base ? `${tipRead ? homeWords.baseline : homeWords.baselinePlaced}, ${sayMoment(base.at)}` : "",
        },
        {
          ...around,
          note: [placeKnown ? homeWords.place(place.value) : homeWords.placeMissing, around.note]
            .filter(Boolean)
            .join("; "),
        },
        { label: homeWords.phone, value: phone.number ?? phoneWords.missing, note: phone.who },
      ],
    },
    ...atTheSkin(line, ""),
    {
      kind: "columns",
      shares: [1, 1.12, 1],
      columns: [
        [
          { kind: "heading", text: homeWords.stay },
          { kind: "list", numbered: false, items: homeWords.stayItems },
        ],
        [
          { kind: "heading", text: homeWords.call },
          {
            kind: "list",
            numbered: false,
            items: homeWords.callItems(
              centimetres(table["release.noise"].value),
              centimetres(table["care.arm-rise"].value),
            ),
          },
        ],
        [
          { kind: "heading", text: homeWords.emergency },
          { kind: "list", numbered: false, items: homeWords.emergencyItems },
        ],
      ],
    },
    { kind: "say", text: homeWords.sayCard },
    { kind: "heading", text: homeWords.own },
    {
      kind: "table",
      head: homeWords.ownHead,
      shares: [1, 1, 1.2, 1],
      rows: Array.from({ length: WRITTEN_AT_HOME }, () => homeWords.ownHead.map(() => "\u00a0")),
    },
    { kind: "soft", text: bedWords.measure },
  ]);
}
