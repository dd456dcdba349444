import { minutesBetween, type Instant } from "../calendar/index.ts";
import { isMissing, type Maybe } from "../missing/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import type { CultureLimits } from "./complication-limits.ts";
import { organismKey, timeToPositivityMin, type CultureBottle } from "./culture-bottle.ts";

export type CultureOutcome = "criterion met" | "criterion not met" | "indeterminate";

export interface DifferentialTime {
  readonly outcome: CultureOutcome;
  readonly lineMin: number | undefined;
  readonly peripheralMin: number | undefined;
  /** Peripheral less line; shown even where the pair cannot be judged. */
  readonly differentialMin: number | undefined;
  /** Each check with what it found; one that is not met or not known makes the pair indeterminate. */
  readonly findings: readonly Finding[];
}

const DIFFERENTIAL = ["complication.culture-differential"];

/**
 * Whether the line's bottle flagged enough earlier than the peripheral one, as far as the pair can be judged at all.
 *   differential = (flagged - loaded) of the peripheral bottle - (flagged - loaded) of the line's bottle
 * Units: minutes. Holds: same organism, drawn and loaded together, like volumes, both flagged, no antibiotic before; else
 * indeterminate, with each reason. Source: Mermel LA and others 2009, Clin Infect Dis 49:1; conditions from memory.
 * Example: 525 and 630 min: 105; at 120 not met.
 */
export function differentialTime(
  line: CultureBottle,
  peripheral: CultureBottle,
  antibioticBefore: Maybe<boolean>,
  limits: CultureLimits,
): DifferentialTime {
  const lineMin = timeToPositivityMin(line);
  const peripheralMin = timeToPositivityMin(peripheral);
  const differentialMin = lineMin === undefined || peripheralMin === undefined ? undefined : peripheralMin - lineMin;
  const checks = [
    ...flags(line, peripheral, lineMin, peripheralMin),
    organisms(line, peripheral),
    gap("culture-draw-gap", line.drawnAt, peripheral.drawnAt, limits.drawGapMin, "complication.culture-draw-gap"),
    gap("culture-load-gap", line.loadedAt, peripheral.loadedAt, limits.loadGapMin, "complication.culture-load-gap"),
    volumes(line, peripheral, limits.volumeRatio),
    antibiotic(antibioticBefore),
  ];
  if (differentialMin === undefined)
    return { outcome: "indeterminate", lineMin, peripheralMin, differentialMin, findings: checks };
  const values = { differentialMin, limitMin: limits.differentialMin };
  const valid = checks.every(({ verdict }) => verdict === "met");
  const reached = differentialMin >= limits.differentialMin ? "met" : "not met";
  const criterion = finding("culture-differential", valid ? reached : "not known", "note", values, {
    policy: DIFFERENTIAL,
  });
  const outcome = !valid ? "indeterminate" : reached === "met" ? "criterion met" : "criterion not met";
  return { outcome, lineMin, peripheralMin, differentialMin, findings: [criterion, ...checks] };
}

function flags(
  line: CultureBottle,
  peripheral: CultureBottle,
  lineMin: number | undefined,
  peripheralMin: number | undefined,
): Finding[] {
  return (
    [
      ["line", line, lineMin],
      ["peripheral", peripheral, peripheralMin],
    ] as const
  ).map(([site, bottle, minutes]) => {
    if (minutes !== undefined) return finding("culture-flagged", "met", undefined, { site, minutes });
    if (bottle.flaggedAt === "none") return finding("culture-did-not-flag", "not met", "note", { site });
    if (isMissing(bottle.loadedAt)) return finding("culture-loading-missing", "not known", "ask", { site });
    if (isMissing(bottle.flaggedAt)) return finding("culture-flag-missing", "not known", "ask", { site });
    return finding("culture-times-out-of-order", "not known", "ask", { site });
  });
}

function organisms(line: CultureBottle, peripheral: CultureBottle): Finding {
  if (isMissing(line.organism) || isMissing(peripheral.organism))
    return finding("culture-organism-missing", "not known", "ask");
  const same = organismKey(line.organism) === organismKey(peripheral.organism);
  const values = { line: line.organism, peripheral: peripheral.organism };
  return finding("culture-same-organism", same ? "met" : "not met", same ? undefined : "note", values);
}

function gap(code: string, one: Maybe<Instant>, other: Maybe<Instant>, mostMin: number, row: string): Finding {
  const policy = [row];
  if (isMissing(one) || isMissing(other)) return finding(`${code}-missing`, "not known", "ask", {}, { policy });
  const gapMin = Math.abs(minutesBetween(one, other));
  const met = gapMin <= mostMin;
  return finding(code, met ? "met" : "not met", met ? undefined : "note", { gapMin, mostMin }, { policy });
}

function volumes(line: CultureBottle, peripheral: CultureBottle, most: number): Finding {
  const policy = ["complication.culture-volume-ratio"];
  if (isMissing(line.volumeMl) || isMissing(peripheral.volumeMl))
    return finding("culture-volume-missing", "not known", "ask", {}, { policy });
  const ratio = volumeRatio(line.volumeMl, peripheral.volumeMl);
  const values = { lineMl: line.volumeMl, peripheralMl: peripheral.volumeMl, most };
  const met = ratio <= most;
  return finding("culture-volumes", met ? "met" : "not met", met ? undefined : "note", values, { policy });
}

/** Larger over smaller; no end where one is empty. */
export const volumeRatio = (one: number, other: number): number =>
  Math.min(one, other) > 0 ? Math.max(one, other) / Math.min(one, other) : Infinity;

function antibiotic(before: Maybe<boolean>): Finding {
  if (isMissing(before)) return finding("culture-antibiotic-not-asked", "not known", "ask");
  return before
    ? finding("culture-after-antibiotic", "not met", "note")
    : finding("culture-before-antibiotic", "met", undefined);
}
