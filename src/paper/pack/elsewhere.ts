import { besides, type Measure, type MonthPack, type Yardstick } from "../../audit/index.ts";
import { elsewhereFoot, elsewhereLine, nothingAlike, packWords, sayMeasure } from "../../language/index.ts";
import type { Block } from "../line/index.ts";
import type { Room } from "./room.ts";

/** What others published of these events, last on the page of the splits and small: context beside no single figure. */
export function elsewhereBlocks(
  { figures }: MonthPack,
  measures: readonly Measure[],
  yardsticks: readonly Yardstick[],
  { elsewhere }: Pick<Room, "elsewhere">,
): readonly Block[] {
  const shown = new Set(
    figures.filter(({ now }) => now.form !== "nothing to count over").map(({ now }) => now.measure),
  );
  const beside = measures
    .filter(({ id, numerator }) => shown.has(id) && numerator.count === "events")
    .map((measure) => ({ measure, found: besides(yardsticks, measure) }));
  const alike = beside.filter(({ found }) => found.alike.length > 0);
  const apart = beside.filter(({ found }) => found.alike.length === 0 && found.apart.length > 0);
  if (alike.length + apart.length === 0) return [];
  if (!elsewhere) return [{ kind: "soft", text: packWords.elsewhereOnPage }];
  return [
    { kind: "heading", text: packWords.elsewhere },
    {
      kind: "soft",
      text: [
        ...alike.map(({ measure, found }) => elsewhereLine(measure, found)),
        ...(apart.length > 0 ? [nothingAlike(apart.map(({ measure }) => sayMeasure(measure.id)))] : []),
        ...(alike.length > 0 ? [elsewhereFoot] : []),
      ].join(" "),
    },
  ];
}
