import type { CivilDate } from "../../core/calendar/index.ts";
import { lineEvents, type EntryOf, type Field, type Recorded } from "../../register/index.ts";
import { sayDay } from "./moment.ts";
import { notOnCardNote } from "./paper.ts";
import { sayField } from "./record-words.ts";
import { sayRecorded } from "./record.ts";

type Placing = EntryOf<"LineInserted">;
type Tip = EntryOf<"TipRead">;

/** What a card's letters say, to be held against the words printed on the card before any of it is believed. */
export function cardFactLines(facts: {
  readonly issue: number;
  readonly came: "placed" | "found";
  readonly placedOn: Recorded<CivilDate>;
  readonly outsideOn: Recorded<CivilDate>;
  readonly tipOn: Recorded<CivilDate>;
  readonly lotNumber: Recorded<string> | undefined;
  readonly arm: Placing["arm"];
  readonly vein: Placing["vein"];
  readonly french: Placing["french"];
  readonly lumens: Placing["lumens"];
  readonly skinExitCm: Placing["skinExitCm"];
  readonly insideCm: Placing["insideCm"];
  readonly outsideCm: Placing["outsideCm"];
  readonly tipMethod: Tip["method"];
  readonly tipPlace: Tip["tipPlace"];
}): readonly string[] {
  const fields: Readonly<Record<string, Field>> = lineEvents.LineInserted;
  const placing = ["arm", "vein", "french", "lumens", "skinExitCm", "insideCm", "outsideCm"] as const;
  const day = (recorded: Recorded<CivilDate>) => ("value" in recorded ? sayDay(recorded.value) : recorded.missing);
  const lot = facts.lotNumber ? sayRecorded(lineEvents.LineInserted.lotNumber, known(facts.lotNumber)) : notOnCardNote;
  return [
    `Card ${facts.issue}. Ask for a newer one: call the phone on the card.`,
    `${facts.came === "placed" ? "" : "Found in place by the service that wrote this. "}Placed on: ${day(facts.placedOn)}`,
    ...placing.map((name) => `${sayField(name)}: ${sayRecorded(fields[name] as Field, known(facts[name]))}`),
    `Outside length of: ${day(facts.outsideOn)}`,
    `${sayField("tipPlace")}: ${sayRecorded(lineEvents.TipRead.tipPlace, known(facts.tipPlace))}`,
    `${sayField("method")}: ${sayRecorded(lineEvents.TipRead.method, known(facts.tipMethod))}, ${day(facts.tipOn)}`,
    `${sayField("lotNumber")}: ${lot}`,
    "Measure the outside length now, and film before use if it differs.",
  ];
}

/** Everything on a card comes from elsewhere, and that is said once; only a plan's value is marked. */
const known = (recorded: Recorded<unknown> | undefined): Recorded<unknown> | undefined =>
  recorded && "value" in recorded && recorded.from === "imported" ? { ...recorded, from: "told" } : recorded;
