import type { CountLimits } from "../../policy/index.ts";
import { isAbsent, rowAt, type PackedFacts } from "../packed/index.ts";
import { ratioAgrees } from "../quality/index.ts";
import type { Figure } from "./figure.ts";
import type { Scene } from "./scene.ts";
import { NOT_KNOWN, stratumOf, type StratumName } from "./stratum.ts";

const PERCENT = 100;

/** One way to split the lines: the part of every line, and the parts that a period has lines or referrals in. */
interface Split {
  /** Of each line of the table: its place in the accumulators, less the base of the split. */
  readonly codes: Int32Array;
  readonly base: number;
  /** Of each referral, where the split knows them; -1 elsewhere. */
  readonly referralSlotOf: Int32Array | undefined;
}

/** The service and all parts asked for: slot 0 is the whole service. */
export interface Parts {
  readonly slots: number;
  readonly splits: readonly Split[];
  /** The parts in the order they are told, each with its slot. */
  readonly told: readonly { readonly slot: number; readonly stratum: Figure["stratum"] }[];
}

/** The part of every line of a table by one thing, with the names of the parts; the same for every period. */
interface Coded {
  readonly codes: Int32Array;
  readonly names: string[];
}
const CODED = new WeakMap<PackedFacts, { readonly limits: CountLimits; readonly by: Map<StratumName, Coded> }>();

/** The part of every line by one thing, and the names of the parts; kept for the facts it was made from. */
export function codedBy(facts: PackedFacts, by: StratumName, limits: CountLimits): Coded {
  let kept = CODED.get(facts);
  if (kept?.limits !== limits) {
    kept = { limits, by: new Map() };
    CODED.set(facts, kept);
  }
  const known = kept.by.get(by) ?? coded(facts, by, limits);
  kept.by.set(by, known);
  return known;
}

/** The name of a part is asked of a row once for each value; lines of one value share it. */
function coded(facts: PackedFacts, by: StratumName, limits: CountLimits): Coded {
  const { lines } = facts;
  const value = valueOf(facts, by, limits);
  const codes = new Int32Array(lines.count);
  const names: string[] = [];
  const places = new Map<string, number>();
  const known = new Map<number, number>();
  for (let line = 0; line < codes.length; line += 1) {
    const own = value(line);
    let place = known.get(own);
    if (place === undefined) {
      const name = stratumOf(rowAt(lines, line), by, limits);
      place = places.get(name) ?? names.push(name) - 1;
      places.set(name, place);
      known.set(own, place);
    }
    codes[line] = place;
  }
  return { codes, names };
}

/** A number that two lines share only if they are in one part. */
function valueOf(facts: PackedFacts, by: StratumName, limits: CountLimits): (line: number) => number {
  const { lines, ratio } = facts;
  const of = (column: Float64Array | Int32Array) => (line: number) => {
    const own = column[line] as number;
    // no number a row may hold, not even an age before birth, names the part of the absent
    return isAbsent(own) ? Number.NaN : own;
  };
  switch (by) {
    case "size":
      return of(lines.numbers.sizeFr);
    case "lumens":
      return of(lines.numbers.lumens);
    case "attempts":
      return of(lines.numbers.attempts);
    case "age band":
      return of(lines.numbers.ageYears);
    case "third":
      return of(lines.numbers.positionShare);
    case "ratio band":
      return (line) => {
        const own = ratio[line] as number;
        if (isAbsent(own) || !ratioAgrees(facts, line, limits)) return -1;
        return limits.ratioEdgesPercent.filter((edge) => own * PERCENT > edge).length;
      };
    case "ward":
    case "vein":
    case "side":
    case "setting":
    case "diagnosis":
    case "inserter":
      return of(lines.words[by].codes);
    default:
      return by satisfies never;
  }
}

/** The parts of a period by every thing asked for; not known is a part of its own and stands last. */
export function partsOf(scene: Scene, strata: readonly StratumName[]): Parts {
  const { facts, limits } = scene;
  const splits: Split[] = [];
  const told: { slot: number; stratum: Figure["stratum"] }[] = [{ slot: 0, stratum: undefined }];
  let slots = 1;
  for (const by of strata) {
    const { codes, names } = codedBy(facts, by, limits);
    const base = slots;
    const seen = new Map<string, number>();
    const present = new Uint8Array(names.length);
    for (const line of scene.lines) {
      const code = codes[line] as number;
      if (present[code] === 1) continue;
      present[code] = 1;
      seen.set(names[code] as string, base + code);
    }
    slots += names.length;
    const wards =
      by === "ward" ? wardSlots(facts, new Map(names.map((name, at) => [name, base + at])), seen, slots) : undefined;
    slots = wards?.next ?? slots;
    splits.push({ codes, base, referralSlotOf: wards?.slots });
    for (const [value, slot] of [...seen].sort(([a], [b]) => inOrder(a, b)))
      told.push({ slot, stratum: { by, value } });
  }
  return { slots, splits, told };
}

/** Referrals are split by ward only: nothing else is known of them. A ward without lines is a part of its own. */
function wardSlots(
  { lines }: PackedFacts,
  known: Map<string, number>,
  seen: Map<string, number>,
  firstFree: number,
): { readonly slots: Int32Array; readonly next: number } {
  const { ward, count } = lines.referrals;
  let next = firstFree;
  const slots = new Int32Array(count);
  const byCode = new Map<number, number>();
  for (let at = 0; at < count; at += 1) {
    const code = Math.max(-1, ward.codes[at] as number);
    let slot = byCode.get(code);
    if (slot === undefined) {
      const name = code < 0 ? NOT_KNOWN : (ward.words[code] as string);
      slot = known.get(name) ?? next;
      if (slot === next) next += 1;
      known.set(name, slot);
      byCode.set(code, slot);
      if (!seen.has(name)) seen.set(name, slot);
    }
    slots[at] = slot;
  }
  return { slots, next };
}

const collator = new Intl.Collator("en", { numeric: true });
const inOrder = (a: string, b: string): number =>
  Number(a === NOT_KNOWN) - Number(b === NOT_KNOWN) || collator.compare(a, b);
