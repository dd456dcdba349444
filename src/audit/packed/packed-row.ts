import { isMissing } from "../../core/missing/index.ts";
import { ROW_EVENTS, type LineRow, type RowEnd, type RowEvent } from "../line/index.ts";
import {
  absenceOf,
  answerOf,
  END_KINDS,
  momentAt,
  numberOf,
  type ListField,
  type NumberField,
  type PackedLines,
  type WordField,
} from "./packed-lines.ts";
import { checksAt } from "./packed-checks.ts";
import { undatedAt } from "./packed-undated.ts";

/** One line of packed columns as the row it was packed from. */
export function rowAt(lines: PackedLines, at: number): LineRow {
  const checks = checksAt(lines.checks, at);
  const undated = undatedAt(lines, at);
  const number = (name: NumberField) => numberOf(lines.numbers[name][at] as number);
  const word = (name: WordField) => {
    const { codes, words } = lines.words[name];
    const code = codes[at] as number;
    return code < 0 ? absenceOf(code) : (words[code] as string);
  };
  const list = (name: ListField) => {
    const { codes, lists } = lines.lists[name];
    const code = codes[at] as number;
    return code < 0 ? absenceOf(code) : (lists[code] as readonly string[]);
  };
  return {
    key: lines.keyAt(at),
    patient: lines.patientAt(at),
    placed: momentAt(lines.placed, at),
    knownFrom: momentAt(lines.knownFrom, at),
    end: endAt(lines, at),
    events: eventsAt(lines, at),
    ...(undated.length > 0 ? { undated } : {}),
    side: word("side") as LineRow["side"],
    vein: word("vein") as LineRow["vein"],
    sizeFr: number("sizeFr"),
    lumens: number("lumens"),
    veinDiameterMm: number("veinDiameterMm"),
    writtenRatio: number("writtenRatio"),
    positionShare: number("positionShare"),
    attempts: number("attempts"),
    inserter: word("inserter"),
    ward: word("ward"),
    setting: word("setting") as LineRow["setting"],
    ageYears: number("ageYears"),
    diagnosis: word("diagnosis") as LineRow["diagnosis"],
    indication: word("indication") as LineRow["indication"],
    tipMethod: word("tipMethod") as LineRow["tipMethod"],
    tipPlace: word("tipPlace") as LineRow["tipPlace"],
    lot: word("lot"),
    catheter: word("catheter"),
    eGfr: number("eGfr"),
    overdueCare: list("overdueCare"),
    overrides: list("overrides"),
    idleDays: number("idleDays"),
    owned: answerOf(lines.owned[at] as number),
    ...(checks === undefined ? {} : { checks }),
  };
}

function endAt({ end, endKind, endReason }: PackedLines, line: number): RowEnd {
  const at = momentAt(end, line) as Extract<RowEnd, { kind: "removed" }>["at"];
  const kind = END_KINDS[endKind[line] as number] as RowEnd["kind"];
  if (kind === "removed") {
    const code = endReason.codes[line] as number;
    const reason = code < 0 ? absenceOf(code) : endReason.words[code];
    return { kind, at, reason: reason as Extract<RowEnd, { kind: "removed" }>["reason"] };
  }
  return kind === "handed on" ? { kind, at } : { kind, lastKnown: at };
}

function eventsAt({ events }: PackedLines, line: number): readonly RowEvent[] {
  const found: RowEvent[] = [];
  for (let event = events.from[line] as number; event < (events.from[line + 1] as number); event += 1) {
    const clearedAt = momentAt(events.cleared, event);
    const mucosal = answerOf(events.mucosal[event] as number);
    found.push({
      kind: ROW_EVENTS[events.kind[event] as number] as RowEvent["kind"],
      at: momentAt(events.at, event) as RowEvent["at"],
      clinical: answerOf(events.clinical[event] as number),
      surveillance: answerOf(events.surveillance[event] as number),
      pairedCulture: answerOf(events.pairedCulture[event] as number),
      ...(isMissing(mucosal) && mucosal.missing === "not asked" ? {} : { mucosal }),
      ...(clearedAt && { clearedAt }),
    });
  }
  return found;
}
