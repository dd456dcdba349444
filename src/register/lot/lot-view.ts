import type { EntryOf } from "../catalogue.ts";
import type { Subject } from "../event/index.ts";
import { valueIn } from "../field/index.ts";
import { readHistory, standing, type History } from "../fold/index.ts";
import type { LineView } from "../line/index.ts";

export interface LotView {
  readonly subject: Subject;
  readonly version: number;
  readonly lotNumber: string;
  readonly catheter: string;
  readonly expiresOn: string;
  readonly received: number;
  readonly discarded: number;
  /** Why it was called back; undefined while it was not. */
  readonly recalled: string | undefined;
}

/** A lot as the record tells it. */
export function lotView(history: History): LotView {
  let view: LotView = {
    subject: history.subject,
    version: history.version,
    lotNumber: "",
    catheter: "",
    expiresOn: "",
    received: 0,
    discarded: 0,
    recalled: undefined,
  };
  for (const { event, entry } of standing(readHistory(history))) {
    if (event.type === "LotReceived") {
      const said = entry as EntryOf<"LotReceived">;
      view = {
        ...view,
        lotNumber: valueIn(said.lotNumber) ?? view.lotNumber,
        catheter: valueIn(said.catheter) ?? view.catheter,
        expiresOn: valueIn(said.expiresOn) ?? view.expiresOn,
        received: view.received + (valueIn(said.count) ?? 0),
      };
    } else if (event.type === "LotDiscarded") {
      const said = entry as EntryOf<"LotDiscarded">;
      view = { ...view, discarded: view.discarded + (valueIn(said.count) ?? 0) };
    } else if (event.type === "LotRecalled") {
      view = { ...view, recalled: valueIn((entry as EntryOf<"LotRecalled">).why) ?? "" };
    }
  }
  return view;
}

/** Letters and digits as they are told apart on a sticker: O reads as 0, I and L as 1, dashes and spaces fall away. */
export const lotKey = (lotNumber: string): string =>
  lotNumber
    .toUpperCase()
    .replaceAll(/[^A-Z0-9]/g, "")
    .replaceAll("O", "0")
    .replaceAll(/[IL]/g, "1");

export interface Recall {
  readonly stillIn: readonly LineView[];
  /** Nobody knows whether these are still in: they must be reached too. */
  readonly unknownEnd: readonly LineView[];
  readonly handedOn: readonly LineView[];
  readonly out: readonly LineView[];
  /** Placed while the lot was on the shelf, and nobody wrote which lot: any of them may be one. */
  readonly lotMissing: readonly LineView[];
}

/** Whom a lot reached: first those to be reached today, the unknown ends included. */
export function recall(lotNumber: string, lines: readonly LineView[]): Recall {
  const key = lotKey(lotNumber);
  const lotOf = (line: LineView) => valueIn(line.said.lotNumber);
  const of = lines.filter((line) => lotKey(lotOf(line) ?? "") === key);
  const ended = (kind: string) => of.filter(({ end }) => end?.kind === kind);
  return {
    stillIn: of.filter(({ end }) => end === undefined),
    unknownEnd: ended("unknown"),
    handedOn: ended("handed on"),
    out: ended("removed"),
    lotMissing: lines.filter((line) => line.placed !== undefined && lotOf(line) === undefined),
  };
}

/** How many of a lot are left: received, less used, less discarded. */
export const leftOf = (lot: LotView, lines: readonly LineView[]): number =>
  lot.received -
  lot.discarded -
  lines.filter(({ said }) => lotKey(valueIn(said.lotNumber) ?? "") === lotKey(lot.lotNumber)).length;
