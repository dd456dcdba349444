import { missing } from "../core/missing/index.ts";
import type { Draft } from "./draft.ts";

/** What a draft says of the need before the arm, as NEED.json; undefined while nothing of it was typed. */
export interface ReferralOfDraft {
  readonly json: unknown;
  /** Where a field of the file was typed. */
  readonly typedPath: (path: string) => string;
}

type Strengths = Readonly<Record<string, string>>;

const PREFIX = "referral.";
const SIDES = ["right", "left"] as const;
const FLAGS = new Set(["bleeding.clopidogrel"]);
const FROM_PATIENT = ["bornPreterm", "correctedAgeDays", "heightCm"] as const;

/**
 * The referral a draft stands for. Age and height are the plan's own fields; whether an arm is barred is read from the
 * reasons typed for it, so that nobody is asked twice. Empty fields are left out: not asked.
 */
export function referralFromDraft(draft: Draft, armBars: Strengths, today: string): ReferralOfDraft | undefined {
  const typed = Object.entries(draft).filter(([path, text]) => path.startsWith(PREFIX) && text.trim() !== "");
  if (typed.length === 0) return undefined;
  const need: Record<string, unknown> = {};
  for (const [path, text] of typed) setAt(need, path.slice(PREFIX.length).split("."), valueOf(path, text));
  const { days, infusates, kidney, sex, bag, ...plain } = need as Record<string, Tree>;
  const barred = barredArms(draft, armBars);
  const json = {
    ...plain,
    patient: { ...patientOf(draft), ...(sex ? { sex } : {}) },
    ...(days ? { days: daysOf(days) } : {}),
    ...(infusates ? { infusates: Object.values(infusates).map((one) => withBag(one, bag)) } : {}),
    ...(kidney ? { kidney: kidneyOf(kidney, today) } : {}),
    ...(barred ? { armBars: barred } : {}),
  };
  return { json, typedPath: (path) => typedPath(path, infusates) };
}

type Tree = { [key: string]: unknown };

function valueOf(path: string, text: string): unknown {
  if (FLAGS.has(path.slice(PREFIX.length))) return text === "yes" ? true : text === "no" ? false : missing("not known");
  return text === "not known" ? missing("not known") : text;
}

function setAt(root: Tree, keys: readonly string[], value: unknown): void {
  const [key = "", ...rest] = keys;
  if (rest.length === 0) {
    root[key] = value;
    return;
  }
  const inner = typeof root[key] === "object" && root[key] !== null ? (root[key] as Tree) : {};
  root[key] = inner;
  setAt(inner, rest, value);
}

function patientOf(draft: Draft): Tree {
  const value = draft["patient.age.value"];
  const unit = draft["patient.age.unit"];
  const patient: Tree = value && unit ? { age: { value, unit } } : {};
  for (const field of FROM_PATIENT) {
    const text = draft[`patient.${field}`];
    if (text === undefined || text.trim() === "") continue;
    patient[field] = field === "bornPreterm" ? text === "yes" : text;
  }
  return patient;
}

/** Likely days alone stand for all three; a least or a most left empty is the likely one. */
function daysOf(days: Tree): unknown {
  const { likely, least, most } = days;
  if (likely === undefined) return missing("not asked");
  return least === undefined && most === undefined ? likely : { least: least ?? likely, likely, most: most ?? likely };
}

/** The bag that was typed is the nutrition's; without its volume nothing can be said of it. */
const withBag = (one: unknown, bag: Tree | undefined): unknown =>
  bag?.["volumeMl"] !== undefined && one === "parenteral nutrition" ? { name: one, bag } : one;

/** A creatinine without a day is of today, as it was just read out. */
function kidneyOf(kidney: Tree, today: string): unknown {
  const { creatinines, ...rest } = kidney;
  if (!creatinines) return rest;
  const rows = Object.values(creatinines as Record<string, Tree>).filter((row) => row["value"] && row["unit"]);
  return { ...rest, creatinines: rows.map((row) => ({ on: today, ...row })) };
}

/** Both arms asked: none, one or both barred by the strengths in force. Until then, not asked. */
function barredArms(draft: Draft, armBars: Strengths): string | undefined {
  if (!SIDES.every((side) => draft[`arms.${side}.barsAsked`] === "yes")) return undefined;
  const barred = SIDES.filter((side) =>
    Object.entries(draft).some(
      ([path, text]) =>
        text === "yes" &&
        path.startsWith(`arms.${side}.bar.`) &&
        (armBars[path.split(".").slice(3).join(".")] ?? "bar") === "bar",
    ),
  );
  return ["none", "one arm", "both arms"][barred.length];
}

function typedPath(path: string, infusates: Tree | undefined): string {
  if (path.startsWith("patient.") && path !== "patient.sex") return path;
  if (path === "patient.sex") return `${PREFIX}sex`;
  if (path === "days") return `${PREFIX}days.likely`;
  const [, part] = /^infusates\.\d+\.(bag\.\w+)$/.exec(path) ?? [];
  if (part !== undefined) return `${PREFIX}${part}`;
  const [, index] = /^infusates\.(\d+)$/.exec(path) ?? [];
  if (index !== undefined) return `${PREFIX}infusates.${Object.keys(infusates ?? {})[Number(index)] ?? index}`;
  return `${PREFIX}${path}`;
}
