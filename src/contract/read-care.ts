import { instantMs, parseCivilDate, parseInstant, type CivilDate, type Instant } from "../core/calendar/index.ts";
import { MECHANICAL_STEPS, type Handover, type LineCare, type PatencyAnswers } from "../core/care/index.ts";
import type { CultureBottle, QuantitativePair, TipMethod } from "../core/complication/index.ts";
import { isMissing, missing, type Maybe } from "../core/missing/index.ts";
import { kilogram, millilitre } from "../core/quantity/index.ts";
import { cultureFile, dueFile, patencyFile, type CultureFile, type DueFile, type PatencyFile } from "./care-schema.ts";
import { shown, type Fault } from "./fault.ts";
import { hiddenSigns } from "./hidden-sign.ts";
import { parsedJson, readJson, type Faults } from "./read-json.ts";

const notAsked = missing("not asked");

type Reading<Data> = { readonly kind: "read"; readonly data: Data } | Faults;

export interface DueQuestion {
  readonly asOf: Instant;
  readonly lines: readonly { readonly care: LineCare; readonly leaving: Handover | undefined }[];
  readonly holidays: readonly CivilDate[];
  readonly weekend: boolean;
}

export interface PatencyQuestion {
  readonly asOf: Instant;
  readonly answers: PatencyAnswers;
  readonly wantsLytic: boolean;
}

export interface CultureQuestion {
  readonly bottles: readonly CultureBottle[];
  readonly antibioticBefore: Maybe<boolean>;
  readonly quantitative: QuantitativePair | undefined;
  readonly tip: { readonly method: TipMethod; readonly cfu: Maybe<number> } | undefined;
}

/** Reads DUE.json; every fault at once. */
export function readDueText(text: string): Reading<DueQuestion> {
  const parsed = parsedJson(text);
  if (parsed.kind === "faults") return parsed;
  const reading = readJson(parsed.json, dueFile, (data) => [
    ...hiddenSigns(data, ""),
    ...momentFaults(data, ""),
    ...twiceFaults(
      data.lines.map(({ name }) => name),
      (index) => `lines.${index}.name`,
      "one name for one line",
    ),
    ...aheadFaults(data.lines, "lines", data.asOf),
  ]);
  return reading.kind === "faults" ? reading : { kind: "read", data: dueFrom(reading.data) };
}

/** Reads PATENCY.json; every fault at once. */
export function readPatencyText(text: string): Reading<PatencyQuestion> {
  const parsed = parsedJson(text);
  if (parsed.kind === "faults") return parsed;
  const reading = readJson(parsed.json, patencyFile, (data) => [
    ...momentFaults(data, ""),
    ...(data.lytic ?? []).flatMap(({ at }, index, all) => {
      const before = all[index - 1]?.at;
      return before !== undefined && ms(at) < ms(before)
        ? [outOfOrder(`lytic.${index}.at`, at, "a dose after the one before it")]
        : [];
    }),
  ]);
  return reading.kind === "faults" ? reading : { kind: "read", data: patencyFrom(reading.data) };
}

/** Reads CULTURE.json; every fault at once. */
export function readCultureText(text: string): Reading<CultureQuestion> {
  const parsed = parsedJson(text);
  if (parsed.kind === "faults") return parsed;
  const reading = readJson(parsed.json, cultureFile, (data) => [
    ...hiddenSigns(data, ""),
    ...momentFaults(data, ""),
    ...twiceFaults(
      data.bottles.map(({ id }) => id),
      (index) => `bottles.${index}.id`,
      "one name for one bottle",
    ),
    ...data.bottles.flatMap(bottleFaults),
  ]);
  return reading.kind === "faults" ? reading : { kind: "read", data: cultureFrom(reading.data) };
}

/** NaN for a moment that does not exist, which is no fault of the order. */
function ms(text: string): number {
  const known = parseInstant(text);
  return known === undefined ? Number.NaN : instantMs(known);
}

const outOfOrder = (path: string, found: string, rule: string): Fault => ({ path, code: "out-of-order", found, rule });

/** Fields that hold a moment, and fields that hold a day. */
const MOMENTS = /^(asOf|at|blockedSince|\w+At)$/;
const DAYS = /^(nextOn|holidays)$/;

/** Every moment and day of a file that does not exist. */
function momentFaults(value: unknown, path: string, key = ""): Fault[] {
  if (typeof value === "string") {
    const rule = MOMENTS.test(key)
      ? 'a moment with its offset, such as "2026-11-25T09:05+01:00"'
      : DAYS.test(key)
        ? "a day of the calendar"
        : undefined;
    if (rule === undefined || (key === "flaggedAt" && value === "none")) return [];
    const known = DAYS.test(key) ? parseCivilDate(value) : parseInstant(value);
    return known === undefined ? [{ path, code: "no-such-date", found: shown(value), rule }] : [];
  }
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([name, entry]) =>
    momentFaults(entry, path === "" ? name : `${path}.${name}`, Array.isArray(value) ? key : name),
  );
}

function twiceFaults(names: readonly string[], path: (index: number) => string, rule: string): Fault[] {
  const seen = new Set<string>();
  return names.flatMap((name, index) => {
    const again = seen.has(name.trim());
    seen.add(name.trim());
    return again ? [{ path: path(index), code: "twice" as const, found: shown(name), rule }] : [];
  });
}

/** Care done after the moment that the question is asked. */
function aheadFaults(value: unknown, path: string, asOf: string): Fault[] {
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, entry]) => {
    const here = `${path}.${key}`;
    if (typeof entry !== "string") return aheadFaults(entry, here, asOf);
    return key.endsWith("At") && ms(entry) > ms(asOf) ? [outOfOrder(here, entry, "not after asOf")] : [];
  });
}

function bottleFaults({ site, lumen, loadedAt, drawnAt }: CultureFile["bottles"][number], index: number): Fault[] {
  const faults: Fault[] = [];
  if (site === "lumen" && (lumen ?? "").trim() === "")
    faults.push({ path: `bottles.${index}.lumen`, code: "missing-field", found: "nothing", rule: "the lumen's name" });
  if (typeof drawnAt === "string" && typeof loadedAt === "string" && ms(loadedAt) < ms(drawnAt))
    faults.push(outOfOrder(`bottles.${index}.loadedAt`, loadedAt, "not before it was drawn"));
  return faults;
}

/** A text nobody filled in is not an answer. */
const named = (value: Maybe<string> | undefined): Maybe<string> =>
  value === undefined || (typeof value === "string" && value.trim() === "") ? notAsked : value;

const at = (value: Maybe<string> | undefined): Maybe<Instant> => (value ?? notAsked) as Maybe<Instant>;

/** A moment that is there, or nothing under its name. */
const seen = <Name extends string>(name: Name, value: string | undefined): { readonly [Key in Name]?: Instant } =>
  value === undefined ? {} : ({ [name]: value as Instant } as { readonly [Key in Name]: Instant });

function dueFrom(data: DueFile): DueQuestion {
  return {
    asOf: data.asOf as Instant,
    holidays: (data.holidays ?? []).map((on) => on as CivilDate),
    weekend: data.weekend ?? false,
    lines: data.lines.map((line) => ({ leaving: line.leaving, care: careFrom(line) })),
  };
}

function careFrom(line: DueFile["lines"][number]): LineCare {
  const { dressing = notAsked, connector = notAsked } = line;
  return {
    id: line.name.trim(),
    setting: line.setting,
    person: named(line.person),
    place: named(line.place),
    nextOn: (line.nextOn ?? notAsked) as Maybe<CivilDate>,
    dressing: isMissing(dressing)
      ? dressing
      : {
          type: dressing.type,
          doneAt: dressing.doneAt as Instant,
          state: dressing.state ?? notAsked,
          ...seen("stateSeenAt", dressing.stateSeenAt),
        },
    connector: isMissing(connector)
      ? connector
      : {
          changedAt: connector.changedAt as Instant,
          reason: connector.reason ?? notAsked,
          ...seen("reasonSeenAt", connector.reasonSeenAt),
        },
    flushedAt: at(line.flushedAt),
    sets: (line.sets ?? []).map(({ kind, startedAt }) => ({ kind, startedAt: startedAt as Instant })),
    reviewedAt: at(line.reviewedAt),
  };
}

function patencyFrom(data: PatencyFile): PatencyQuestion {
  const { weightKg = notAsked, labelLumenMl = notAsked, mechanical = {} } = data;
  return {
    asOf: data.asOf as Instant,
    wantsLytic: data.wantsLytic ?? false,
    answers: {
      mechanical: Object.fromEntries(
        MECHANICAL_STEPS.flatMap((step) => (mechanical[step] === undefined ? [] : [[step, mechanical[step]]])),
      ),
      outsideLength: data.outsideLength ?? notAsked,
      flushes: data.flushes ?? notAsked,
      blood: data.blood ?? notAsked,
      blockedSince: at(data.blockedSince),
      cause: data.cause ?? notAsked,
      pain: data.pain ?? notAsked,
      earSound: data.earSound ?? notAsked,
      film: data.film ?? notAsked,
      weightKg: isMissing(weightKg) ? weightKg : kilogram(weightKg),
      labelLumenMl: isMissing(labelLumenMl) ? labelLumenMl : millilitre(labelLumenMl),
      lytic: (data.lytic ?? []).map((dose) => ({
        at: dose.at as Instant,
        bloodAtFirstCheck: dose.bloodAtFirstCheck ?? notAsked,
        bloodAtSecondCheck: dose.bloodAtSecondCheck ?? notAsked,
      })),
    },
  };
}

function cultureFrom(data: CultureFile): CultureQuestion {
  const { quantitative, tip } = data;
  return {
    antibioticBefore: data.antibioticBefore ?? notAsked,
    bottles: data.bottles.map(({ volumeMl = notAsked, ...bottle }) => ({
      id: bottle.id.trim(),
      site:
        bottle.site === "peripheral" ? { kind: "peripheral" } : { kind: "lumen", lumen: (bottle.lumen ?? "").trim() },
      medium: bottle.medium ?? notAsked,
      drawnAt: at(bottle.drawnAt),
      loadedAt: at(bottle.loadedAt),
      flaggedAt: bottle.flaggedAt === "none" ? "none" : at(bottle.flaggedAt),
      organism: named(bottle.organism),
      volumeMl: isMissing(volumeMl) ? volumeMl : millilitre(volumeMl),
    })),
    quantitative: quantitative && {
      lineCfuPerMl: quantitative.lineCfuPerMl ?? notAsked,
      otherCfuPerMl: quantitative.otherCfuPerMl ?? notAsked,
      other: quantitative.other,
    },
    tip: tip && { method: tip.method, cfu: tip.cfu ?? notAsked },
  };
}
