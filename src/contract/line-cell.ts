import type { LineColumn, RowEvent, RowEventKind } from "../audit/index.ts";
import { ROW_EVENTS, momentOfInstant } from "../audit/index.ts";
import { parseCivilDate, parseInstant } from "../core/calendar/index.ts";
import { localDay, type Moment } from "../core/dwell/index.ts";
import { isMissing, missing, MISSING_KINDS, type Maybe, type MissingKind } from "../core/missing/index.ts";
import type { FaultCode } from "./fault.ts";
import { readNumber } from "./number-text.ts";
import { FIRST_YEAR, LAST_YEAR } from "./year.ts";

/** An event of which only the day is not known. */
export interface UndatedEvent {
  readonly kind: RowEventKind;
  readonly at: undefined;
}

/** A cell as it was read: a value, one of the four absences, or what is wrong with it. */
export type LineCell =
  | {
      readonly kind: "value";
      readonly value: string | number | boolean | Moment | readonly string[] | readonly (RowEvent | UndatedEvent)[];
    }
  | { readonly kind: "absent"; readonly why: MissingKind }
  | { readonly kind: "fault"; readonly code: FaultCode; readonly found: string; readonly rule: string };

const MOMENT_RULE = "YYYY-MM-DD, or with time and offset, 2025-03-04T09:30+01:00";
/** A date "for ever" or "unknown" in a spreadsheet would be counted as a line's days. */
const YEAR_RULE = `a year from ${FIRST_YEAR} to ${LAST_YEAR}`;
const yearFits = (text: string): boolean => {
  const year = Number(text.slice(0, 4));
  return year >= FIRST_YEAR && year <= LAST_YEAR;
};
const value = (found: Extract<LineCell, { kind: "value" }>["value"]): LineCell => ({ kind: "value", value: found });
const fault = (code: FaultCode, found: string, rule: string): LineCell => ({ kind: "fault", code, found, rule });

export function readMoment(text: string): Moment | undefined {
  const date = parseCivilDate(text);
  if (date) return { precision: "date", date };
  const instant = parseInstant(text);
  return instant && momentOfInstant(instant);
}

/** Reads one cell by its column. An empty cell was not asked; the four words of absence may stand in any column. */
export function readLineCell(raw: string, column: LineColumn): LineCell {
  const text = raw.trim();
  if (text === "") return { kind: "absent", why: "not asked" };
  const absence = MISSING_KINDS.find((kind) => kind === text.toLowerCase());
  if (absence) return { kind: "absent", why: absence };
  switch (column.kind) {
    case "key":
    case "text":
      return text.length > 80 ? fault("too-large", text, "at most 80 characters") : value(text);
    case "moment": {
      const moment = readMoment(text);
      if (!moment) return fault("no-such-date", text, MOMENT_RULE);
      return yearFits(text) ? value(moment) : fault("no-such-date", text, YEAR_RULE);
    }
    case "choice": {
      const options = column.options ?? [];
      const found = options.find((option) => option.toLowerCase() === text.toLowerCase());
      return found === undefined ? fault("not-in-list", text, `one of: ${options.join(", ")}`) : value(found);
    }
    case "yes-no":
      return /^(yes|no)$/i.test(text)
        ? value(text.toLowerCase() === "yes")
        : fault("not-in-list", text, "one of: yes, no");
    case "list":
      return value(
        text.toLowerCase() === "none"
          ? []
          : text
              .split(";")
              .map((item) => item.trim())
              .filter(Boolean),
      );
    case "number":
    case "whole":
      return numberCell(text, column);
    case "events":
      return eventsCell(text);
    default:
      return column.kind satisfies never;
  }
}

function numberCell(text: string, { kind, least = 0, most = Infinity }: LineColumn): LineCell {
  const reading = readNumber(text);
  const rule = `a ${kind === "whole" ? "whole " : ""}number from ${least} to ${most}`;
  if (reading.kind === "not known") return { kind: "absent", why: "not known" };
  if (reading.kind === "thousands separator") return fault("thousands-separator", text, rule);
  if (reading.kind !== "number") return fault("wrong-type", text, rule);
  if (reading.value < least || reading.value > most) return fault("out-of-range", text, rule);
  return kind === "whole" && !Number.isInteger(reading.value) ? fault("wrong-type", text, rule) : value(reading.value);
}

const EVENT_RULE = `kind@moment or kind@not known, kinds: ${ROW_EVENTS.join(", ")}`;
const CLEARED_RULE = "cleared=moment of an occlusion, not before it";
const MUCOSAL_RULE = "mucosal=yes only beside surveillance=yes";
const none = missing("not asked");

function eventsCell(text: string): LineCell {
  const events: (RowEvent | UndatedEvent)[] = [];
  for (const part of text
    .split(";")
    .map((item) => item.trim())
    .filter(Boolean)) {
    if (part.toLowerCase() === "none") continue;
    const undated = /^([a-z ]+?)\s*@\s*not known$/i.exec(part)?.[1]?.toLowerCase();
    const ofNoDay = ROW_EVENTS.find((one) => one === undated);
    if (ofNoDay) {
      events.push({ kind: ofNoDay, at: undefined });
      continue;
    }
    const found = /^([a-z ]+?)\s*@\s*(\S+)((?:\s+[a-z]+=(?:yes|no|not known|not asked))*)(?:\s+cleared=(\S+))?$/i.exec(
      part,
    );
    const kind = ROW_EVENTS.find((one) => one === found?.[1]?.toLowerCase());
    const at = found?.[2] === undefined ? undefined : readMoment(found[2]);
    if (!found || !kind) return fault("not-in-list", part, EVENT_RULE);
    if (!at) return fault("no-such-date", part, MOMENT_RULE);
    if (!yearFits(found[2] as string)) return fault("no-such-date", part, YEAR_RULE);
    const cleared = found[4] === undefined ? undefined : clearedOf(found[4], kind, at);
    if (cleared && "kind" in cleared) return cleared;
    const flags = new Map<string, Maybe<boolean>>();
    // the longer words first: "no" is the beginning of "not known"
    for (const [, name, word] of (found[3] ?? "").matchAll(/([a-z]+)=(not known|not asked|yes|no)/gi))
      flags.set((name as string).toLowerCase(), flagOf((word as string).toLowerCase()));
    const known = ["clinical", "surveillance", "paired", "mucosal"];
    const odd = [...flags.keys()].find((name) => !known.includes(name));
    if (odd !== undefined) return fault("not-in-list", odd, `flags: ${known.join(", ")}`);
    const mucosal = flags.get("mucosal");
    // the sub-class is one of surveillance infections: a yes without the other is a slip in one of them
    if (mucosal === true && flags.get("surveillance") !== true) return fault("contradicts", part, MUCOSAL_RULE);
    events.push({
      kind,
      at,
      clinical: flags.get("clinical") ?? none,
      surveillance: flags.get("surveillance") ?? none,
      pairedCulture: flags.get("paired") ?? none,
      ...(mucosal === undefined || (isMissing(mucosal) && mucosal.missing === "not asked") ? {} : { mucosal }),
      ...(cleared && { clearedAt: cleared }),
    });
  }
  return value(events);
}

/** When a blocked line ran again, or what is wrong with it; a date alone stands for any time of its day. */
function clearedOf(text: string, kind: RowEvent["kind"], blocked: Moment): Moment | LineCell {
  const at = yearFits(text) ? readMoment(text) : undefined;
  if (!at) return fault("no-such-date", text, MOMENT_RULE);
  const dates = at.precision === "date" || blocked.precision === "date";
  const early = dates ? localDay(at) < localDay(blocked) : at.utc < blocked.utc;
  return kind !== "occlusion" || early ? fault("not-in-list", text, CLEARED_RULE) : at;
}

const flagOf = (word: string): Maybe<boolean> =>
  word === "yes" ? true : word === "no" ? false : missing(word as MissingKind);
