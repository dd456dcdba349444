import {
  besides,
  lastDay,
  type AuditReport,
  type Figure,
  type ListedLine,
  type ListGap,
  type Measure,
  type MonthFigure,
  type MonthPack,
  type Yardstick,
} from "../../audit/index.ts";
import { monitorLines } from "./count-more.ts";
import { sayIssue, sayFigure, sayGaps, sayMeasure, sayProvisional } from "./count.ts";
import { sayDay } from "./moment.ts";
import { memoryLines } from "./pack-time.ts";
import { amount } from "./number.ts";
import { twoCaseLines } from "./case.ts";
import { sparseLines } from "./guard.ts";
import { beginningLines, partGuardLines, timeGuardLines } from "./pack-doubt.ts";
import { FEW, splitCell } from "./pack-figure.ts";
import { chanceWords, outcomeOf, packWords } from "./pack-sheet.ts";
import { elsewhereFoot, elsewhereLine } from "./yardstick.ts";

/** One page of the pack as lines, in the order they are printed. */
export interface PackPage {
  readonly title: string;
  readonly lines: readonly string[];
}

const DIRECTIONS = {
  higher: "Higher than the twelve months before.",
  lower: "Lower than the twelve months before.",
  "cannot tell": "Cannot tell it from the twelve months before.",
} as const;

/** The four pages of the month, and the two cases that go on a sheet of their own. */
export function packPages(
  pack: MonthPack,
  measures: readonly Measure[],
  yardsticks: readonly Yardstick[],
  { alarmFrom }: { readonly alarmFrom: number },
): readonly PackPage[] {
  const byId = new Map(measures.map((measure) => [measure.id, measure]));
  return [
    { title: "The month", lines: [...monthLines(pack, byId), ...elsewhereLines(measures, yardsticks)] },
    {
      title: "Time",
      lines: [
        ...(pack.monitor ? monitorLines(pack.monitor) : beginningLines(pack.beginning, byId, alarmFrom)),
        ...measures.flatMap(({ id }) =>
          timeGuardLines(pack.guards, id, !pack.memory?.bases[id]).map((line) => `${sayMeasure(id)}: ${line}`),
        ),
        ...memoryLines(pack),
      ],
    },
    { title: "Where and with what", lines: whereLines(pack, byId) },
    { title: "People and things to do", lines: peopleLines(pack) },
    { title: "Two cases in depth", lines: twoCaseLines(pack.cases) },
  ];
}

function monthLines(pack: MonthPack, byId: ReadonlyMap<string, Measure>): readonly string[] {
  return [
    ...actionLines(pack),
    `${sayDay(pack.month.from)} to ${sayDay(lastDay(pack.month))}. ${pack.linesUsed} of ${pack.linesGiven} lines used.`,
    ...pack.figures.flatMap((figure) => figureLines(figure, byId.get(figure.now.measure) as Measure, pack)),
    ...pack.declinedInstead.map(({ instead, referrals }) => `Instead of a PICC, ${instead}: ${referrals}.`),
    ...pack.enough.map(
      ({ measure, expectedInMonth, events }) =>
        `${sayMeasure(measure)}: ${amount(expectedInMonth, "", 1)} expected a month; ${events} would be noticed.`,
    ),
    ...pack.issues.map(sayIssue),
  ];
}

const guardLines = (guards: MonthPack["guards"]["month"], { id }: Measure): readonly string[] =>
  sparseLines(guards.find(({ measure }) => measure === id)?.guards ?? []);

function elsewhereLines(measures: readonly Measure[], yardsticks: readonly Yardstick[]): readonly string[] {
  const alike = measures
    .filter(({ numerator }) => numerator.count === "events")
    .map((measure) => ({ measure, found: besides(yardsticks, measure) }))
    .filter(({ found }) => found.alike.length > 0);
  return alike.length === 0 ? [] : [...alike.map(({ measure, found }) => elsewhereLine(measure, found)), elsewhereFoot];
}

function actionLines({ action }: MonthPack): readonly string[] {
  if (!action) return ["Last month's action: none was written down."];
  const moved = action.moved?.direction;
  return [
    `Last month's action: ${action.what}`,
    `  ${action.owner}, due ${sayDay(action.dueOn)}: ${outcomeOf(action)}. ${sayMeasure(action.measure)}.`,
    ...(moved ? [`  ${DIRECTIONS[moved]}`] : []),
  ];
}

function figureLines(
  { now, before, direction, neverWritten }: MonthFigure,
  measure: Measure,
  pack: MonthPack,
): readonly string[] {
  if (now.form === "nothing to count over" && now.given === 0) return [];
  const report: Pick<AuditReport, "provisionalFrom"> = pack.year;
  return [
    sayFigure(now, measure),
    ...(neverWritten || before?.value === undefined ? [] : [`  Before: ${sayFigure(before, measure)}`]),
    ...(direction && !neverWritten ? [`  ${DIRECTIONS[direction]}`] : []),
    ...guardLines(pack.guards.month, measure).map((line) => `  ${line}`),
    ...guardLines(pack.guards.before, measure).map((line) => `  Before: ${line}`),
    ...[sayGaps(now, measure), sayProvisional(now, report)].flatMap((line) => (line ? [`  ${line}`] : [])),
  ];
}

function whereLines({ year, funnels, guards }: MonthPack, byId: ReadonlyMap<string, Measure>): readonly string[] {
  const shown = new Set([
    "infection-clinical",
    "thrombosis",
    "occlusion",
    "any-complication",
    "first-attempt",
    "short-stay",
  ]);
  return [
    `${sayDay(year.period.from)} to ${sayDay(lastDay(year.period))}.`,
    ...funnels.flatMap(({ measure, clock, wards }) => [
      `${sayMeasure(measure)} by ward, no order of merit:`,
      ...wards.map(
        (point) => `  ${point.ward}: ${point.events} in ${amount(point.days, "", 0)} ${clock}, ${chanceWords(point)}.`,
      ),
    ]),
    ...year.figures
      .filter(({ measure, stratum }) => shown.has(measure) && stratum)
      .map((figure) => splitLine(figure, byId)),
    ...year.figures
      .filter(({ measure, stratum }) => measure === "idle-days" && !stratum)
      .map((figure) => splitLine(figure, byId)),
    ...partGuardLines(guards.parts, Infinity),
  ];
}

function splitLine(figure: Figure, byId: ReadonlyMap<string, Measure>): string {
  const place = figure.stratum ? `${figure.stratum.by} ${figure.stratum.value}: ` : "";
  const few = figure.interval.name === "exact binomial" && (figure.denominator ?? 0) < FEW;
  return few
    ? `${place}${sayMeasure(figure.measure)}: ${splitCell(figure)}.`
    : `${place}${sayFigure(figure, byId.get(figure.measure) as Measure)}`;
}

function peopleLines(pack: MonthPack): readonly string[] {
  const none = (gap: ListGap | undefined): string => (gap ? packWords.noneListed(gap) : "None.");
  const list = (title: string, lines: readonly ListedLine[], gap?: ListGap): readonly string[] => [
    lines.length === 0 ? `${title}: ${none(gap)}` : `${title}: ${lines.length}.`,
    ...(lines.length > 0 && gap && gap.notKnown > 0 ? [`  ${packWords.gap(gap)}`] : []),
    ...lines.map(({ line, why }) => `  ${line}${why.length > 0 ? `: ${why.join(", ")}` : ""}`),
  ];
  return [
    ...list("Lines nobody answers for, to be called", pack.noOwner, pack.gaps.noOwner),
    ...list("Lines whose end nobody knows", pack.unknownEnds),
    ...list("Care overdue", pack.overdue, pack.gaps.overdue),
    ...list("Lines placed with a low eGFR, twelve months", pack.lowFiltration, pack.gaps.lowFiltration),
    ...list("Short stays, twelve months", pack.shortStays, pack.gaps.shortStays),
    pack.overrides.length === 0
      ? `Stops overridden, twelve months: ${none(pack.gaps.overrides)}`
      : `Stops overridden, twelve months: ${pack.overrides.length}.`,
    ...pack.overrides.map(({ code, lines }) => `  ${code}: ${lines.length} lines (${lines.join(", ")})`),
    ...lotLines(pack),
    "This month's action: ______________________  Owner: ____________  By: __________  Measure: __________",
  ];
}

function lotLines({ lots }: MonthPack): readonly string[] {
  const { lists } = packWords;
  if (!lots) return [`${lists.recalled}: ${packWords.lotsElsewhere}`];
  const some = (count: number, words: string): string => (count > 0 ? `${count} ${words}` : "");
  return [
    `${lists.recalled}: ${lots.recalled.length === 0 ? "none" : lots.recalled.length}.`,
    ...lots.recalled.map(({ lot, stillIn, unknownEnds, handedOn }) => {
      const parts = [
        some(stillIn.length, packWords.inPlace),
        some(unknownEnds.length, packWords.endNotKnown),
        some(handedOn.length, packWords.handedOn),
      ].filter((part) => part !== "");
      const lines = [...stillIn, ...unknownEnds, ...handedOn].join(", ");
      return parts.length === 0 ? `  ${packWords.recalledNone(lot)}` : `  ${lot}: ${parts.join(", ")} (${lines})`;
    }),
    ...(lots.lotMissing.length > 0 ? [`  ${packWords.lotMissing(lots.lotMissing.length)}`] : []),
    `${lists.expiring}: ${lots.expiring.length === 0 ? "none" : lots.expiring.length}.`,
    ...lots.expiring.map(
      ({ lot, expiresOn, daysLeft, left }) =>
        `  ${lot}: ${packWords.left(left)}, ${packWords.expires(expiresOn, daysLeft)}`,
    ),
  ];
}
