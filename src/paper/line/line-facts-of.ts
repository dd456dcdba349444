import { civilDateOf, type CivilDate } from "../../core/calendar/index.ts";
import type { LineFacts } from "../../contract/index.ts";
import { outsideNow, valueIn, type EntryOf, type LineView, type Recorded } from "../../register/index.ts";

const known = <Value>(value: Value): Recorded<Value> => ({ value, from: "measured" });
const notAsked = { missing: "not asked" } as const;
const DIGITS = 10;
/** To 1 mm, as a tape is read and as the block carries it. */
const toTenth = (recorded: Recorded<number> | undefined): Recorded<number> =>
  recorded === undefined
    ? notAsked
    : "value" in recorded
      ? { ...recorded, value: Math.round(recorded.value * DIGITS) / DIGITS }
      : recorded;

/** What a line's events say to a hospital that has never seen it. */
export function lineFactsOf(line: LineView, issue: number): LineFacts {
  const { said } = line;
  const placed = line.placed?.event;
  const film = line.tip?.entry as EntryOf<"TipRead"> | undefined;
  const outside = outsideNow(line);
  const lot = said.lotNumber ?? notAsked;
  const found = placed?.type === "LineFound";
  return {
    issue,
    came: found ? "found" : "placed",
    // a line that came with the patient was placed on a day nobody here wrote
    placedOn: placed && !found ? known(civilDateOf(placed.happenedAt)) : { missing: "not known" },
    arm: said.arm ?? notAsked,
    vein: said.vein ?? notAsked,
    french: toTenth(said.french),
    lumens: said.lumens ?? notAsked,
    skinExitCm: toTenth(said.skinExitCm),
    insideCm: toTenth(line.inside ? known(line.inside.value) : said.insideCm),
    outsideCm: toTenth(outside ? known(outside.value) : said.outsideCm),
    outsideOn: outside ? known(civilDateOf(outside.at)) : notAsked,
    tipMethod: film?.method ?? notAsked,
    tipPlace: film?.tipPlace ?? notAsked,
    tipOn: line.tip ? known<CivilDate>(civilDateOf(line.tip.event.happenedAt)) : notAsked,
    lotNumber: valueIn(lot) === valueIn(lot)?.toUpperCase() ? lot : undefined,
  };
}
