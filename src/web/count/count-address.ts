import { STRATA, PRIVATE_STRATA, type Period, type StratumName } from "../../audit/index.ts";
import { parseCivilDate, type CivilDate } from "../../core/calendar/index.ts";

/** What a count is asked for, as it stands in the address: it can be kept, sent and opened again. */
export interface CountAddress {
  readonly from: CivilDate | undefined;
  /** The first day after the period, as in the command. */
  readonly to: CivilDate | undefined;
  readonly by: readonly StratumName[];
  readonly measure: string | undefined;
  /** A pressed part of the measure, such as "ward B". */
  readonly part?: string | undefined;
}

/** A split by person never stands in an address: an address is sent on. */
export const OPEN_STRATA: readonly StratumName[] = STRATA.filter((name) => !PRIVATE_STRATA.includes(name));

/** Reads "/count?from=2025-01-01&to=2026-01-01&by=ward&measure=occlusion"; what cannot be read is not asked. */
export function readCountAddress(path: string): CountAddress {
  const query = new URLSearchParams(path.split("?")[1] ?? "");
  const asked = (query.get("by") ?? "").split(",");
  return {
    from: parseCivilDate(query.get("from") ?? ""),
    to: parseCivilDate(query.get("to") ?? ""),
    by: OPEN_STRATA.filter((name) => asked.includes(name)),
    measure: query.get("measure") ?? undefined,
    part: query.get("part") ?? undefined,
  };
}

/** The address behind the hash, in one fixed order, so that one question has one address. */
export function countAddress(
  { from, to, by, measure, part }: CountAddress,
  page: "/count" | "/count/pack" = "/count",
): string {
  const parts = [
    ["from", from],
    ["to", to],
    ["by", by.join(",")],
    ["measure", measure],
    ["part", measure === undefined ? undefined : part],
  ].filter((part): part is [string, string] => part[1] !== undefined && part[1] !== "");
  return parts.length === 0
    ? page
    : `${page}?${parts.map(([name, value]) => `${name}=${encodeURIComponent(value)}`).join("&")}`;
}

/** Goes there without a new entry for every key typed in a date. */
export function goToCount(address: CountAddress): void {
  globalThis.history.replaceState(null, "", `#${countAddress(address)}`);
  globalThis.dispatchEvent(new HashChangeEvent("hashchange"));
}

/** The period asked for, or the usual one where the two days make none. */
export const askedDays = (
  { from, to }: CountAddress,
  usual: Period,
): { readonly from: CivilDate; readonly to: CivilDate } =>
  from !== undefined && to !== undefined && from < to ? { from, to } : { from: usual.from, to: usual.to };
