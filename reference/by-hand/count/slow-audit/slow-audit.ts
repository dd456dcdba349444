import { isKnown } from "../../../../src/core/missing/index.ts";
import { dayNumber } from "../../../../src/core/calendar/index.ts";
import { localDate } from "../../../../src/core/dwell/index.ts";
import { provisionalFrom, type AuditTable, type LineFacts } from "../../../../src/audit/index.ts";
import { passes, referralPasses, type Measure } from "../../../../src/audit/index.ts";
import { checkRows } from "../../../../src/audit/index.ts";
import { dayFigure, eventRate } from "./day-figure.ts";
import { countEvents, type EventCount } from "./event-count.ts";
import type { AuditReport, Figure, Period } from "../../../../src/audit/index.ts";
import { isLostBefore, mayCount, partOf, partsBy, seenFrom, type AuditRules, type Part, type Scene } from "./part.ts";
import { shareFigure } from "./share-figure.ts";
import type { StratumName } from "../../../../src/audit/index.ts";

/** The audit as it reads: row by row, part by part, every list made; slow and obvious. */
export function slowAudit(
  table: AuditTable,
  measures: readonly Measure[],
  period: Period,
  strata: readonly StratumName[],
  rules: AuditRules,
): AuditReport {
  const checked = checkRows(table, rules.limits, rules.surveillance);
  const tail = provisionalFrom(table.asOf, rules.limits.provisionalDays);
  const scene: Scene = {
    ...rules,
    period,
    opens: dayNumber(period.from),
    closes: dayNumber(period.to),
    provisionalDay: dayNumber(tail),
    written: writtenIn(table),
  };
  const whole = partOf(
    {
      stratum: undefined,
      lines: checked.facts.filter((line) => mayCount(line, scene)),
      referrals: table.referrals,
      stopped: table.lines.length - checked.facts.length,
    },
    period,
  );
  const parts = [whole, ...strata.flatMap((by) => partsBy(by, whole, rules.limits, period))];
  return {
    period,
    provisionalFrom: tail,
    figures: measures.flatMap((measure) => {
      const { numerator } = measure;
      const events =
        numerator.count === "events"
          ? countEvents(whole.eventful, numerator, period, rules.surveillance)
          : { counted: [], mayCount: [] };
      return parts.flatMap((part) => figureOf(measure, part, scene, events));
    }),
    issues: checked.issues,
    linesUsed: checked.facts.length,
    linesGiven: table.lines.length,
  };
}

function figureOf(measure: Measure, part: Part, scene: Scene, events: EventCount): readonly Figure[] {
  const { numerator } = measure;
  if (numerator.count === "events") return [eventRate(measure, numerator, part, scene, events)];
  if (numerator.count === "days") return [dayFigure(measure, numerator.of, part, scene)];
  if (numerator.of === "referrals") {
    if (part.stratum !== undefined && part.stratum.by !== "ward") return [];
    const { test } = numerator;
    const within = part.referrals.filter(({ receivedOn }) => isWithin(dayNumber(localDate(receivedOn)), scene));
    return [
      shareFigure(measure, part, scene, {
        rows: within,
        given: within.length,
        verdict: (row) => referralPasses(test, row),
        keyOf: ({ key }) => key,
        dayOf: ({ receivedOn }) => dayNumber(localDate(receivedOn)),
      }),
    ];
  }
  const { of: set, test } = numerator;
  const rows = part.near.filter((line) => IN_SET[set](line, scene));
  return [
    shareFigure(measure, part, scene, {
      rows,
      given: rows.length,
      // what a line is by its end, on the last day of the period
      verdict: (line) =>
        test === "handed on"
          ? line.row.end.kind === "handed on" && (line.endedOn as number) < scene.closes
          : test === "end not known"
            ? isLostBefore(line, scene.closes)
            : passes(test, line, scene.limits),
      keyOf: ({ row }) => row.key,
      dayOf: (line) => (set === "lines removed" ? line.endedOn : line.placedOn),
    }),
  ];
}

/** Row by row and event by event, what was ever written: stopped rows too. */
function writtenIn({ lines }: AuditTable): readonly string[] {
  const events = lines.flatMap((row) => row.events);
  const infections = events.filter(({ kind }) => kind === "infection");
  return [
    ...events.map(({ kind }) => kind),
    ...(infections.some(({ clinical }) => isKnown(clinical)) ? ["clinical"] : []),
    ...(infections.some(({ surveillance }) => isKnown(surveillance)) ? ["surveillance"] : []),
    ...(infections.some(({ mucosal }) => mucosal !== undefined && isKnown(mucosal))
      ? ["surveillance without mucosal barrier"]
      : []),
    ...(infections.some(({ pairedCulture }) => isKnown(pairedCulture)) ? ["paired culture"] : []),
  ];
}

const isWithin = (on: number | undefined, { opens, closes }: Scene): boolean =>
  on !== undefined && on >= opens && on < closes;

const IN_SET: Readonly<
  Record<
    Exclude<Extract<Measure["numerator"], { count: "lines" }>["of"], "referrals">,
    (line: LineFacts, scene: Scene) => boolean
  >
> = {
  "lines placed": ({ placedOn, row }, scene) => row.knownFrom === undefined && isWithin(placedOn, scene),
  "lines removed": ({ endedOn, row }, scene) => row.end.kind === "removed" && isWithin(endedOn, scene),
  "lines in place at the end": (line, { closes }) =>
    seenFrom(line) < closes && (line.endedOn ?? closes) >= closes && !isLostBefore(line, closes),
  "lines in the period": (line, { opens, closes }) => seenFrom(line) < closes && (line.endedOn ?? closes) >= opens,
};
