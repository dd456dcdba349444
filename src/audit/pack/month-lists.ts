import { dayNumber } from "../../core/calendar/index.ts";
import { localDate } from "../../core/dwell/index.ts";
import { isKnown } from "../../core/missing/index.ts";
import type { Period } from "../figure/index.ts";
import type { AuditTable } from "../line/index.ts";

/** Referrals declined in a period, by what was used instead. */
export function declinedIn(
  { referrals }: AuditTable,
  { from, to }: Period,
): readonly { readonly instead: string; readonly referrals: number }[] {
  const counts = new Map<string, number>();
  for (const { receivedOn, outcome, instead } of referrals) {
    const on = dayNumber(localDate(receivedOn));
    if (outcome !== "declined" || on < dayNumber(from) || on >= dayNumber(to)) continue;
    const what = isKnown(instead) ? instead : "not known";
    counts.set(what, (counts.get(what) ?? 0) + 1);
  }
  return [...counts].map(([instead, number]) => ({ instead, referrals: number }));
}

/** The stops that were passed for some lines, each with its lines. */
export function overridesOf(
  { lines }: AuditTable,
  keys: ReadonlySet<string>,
): readonly { readonly code: string; readonly lines: readonly string[] }[] {
  const byCode = new Map<string, string[]>();
  for (const { key, overrides } of lines) {
    if (!keys.has(key) || !isKnown(overrides)) continue;
    for (const code of overrides) byCode.set(code, [...(byCode.get(code) ?? []), key]);
  }
  return [...byCode].map(([code, own]) => ({ code, lines: own }));
}
