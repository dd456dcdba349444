import { lastDay } from "../../audit/index.ts";
import type {
  Curves,
  DrawnTogether,
  ExportedLines,
  GapChart,
  Guard,
  HouseWord,
  HazardAnswer,
  HazardModel,
  Pooled,
  ServiceChart,
  ServiceMonitor,
  Signal,
} from "../../audit/index.ts";
import { sayMeasure, saySilence } from "./count.ts";
import { doublingNeeds, sparseLines, modelGuard, modelUnanswered, tooFewToTell } from "./guard.ts";
import { amount, inHundred, numberOf } from "./number.ts";
import { sayDay } from "./moment.ts";

const percent = (share: number | undefined): string =>
  share === undefined ? "no limit" : `${amount(share * 100, "", 1)} %`;
const two = (value: number): string => amount(value, "", 2);
const whole = (value: number): string => value.toLocaleString("en-GB", { maximumFractionDigits: 1 });
const chance = (value: number): string => (value < 0.001 ? "under 0.001" : amount(value, "", 3));

/** Curves as lines: chance of the event by a day, with its limits and the number at risk. */
export function curveLines(
  { by, curves, logRank, eventsForDoubling, fewest, used, given }: Curves,
  guards: readonly Guard[] = [],
): readonly string[] {
  const events = curves.reduce((sum, curve) => sum + curve.events, 0);
  return [
    `${used} of ${given} lines followed. Other ends compete; limits at 95 %.`,
    ...sparseLines(guards),
    ...curves.flatMap(({ group, lines, events: own, otherEnds, points, tooFew }) => [
      `${by === undefined ? "" : `${by} `}${group}: ${numberOf(lines, "line")}, ${numberOf(own, "event")}, ${numberOf(otherEnds, "other end")}.`,
      ...(tooFew ? [`  ${tooFewToTell(own, fewest)}`] : []),
      ...(tooFew ? [] : points).map(
        ({ day, atRisk, grey, incidence, lower, upper }) =>
          `  By day ${day}: ${percent(incidence)} (${percent(lower)} to ${percent(upper)}), ${atRisk} at risk${grey ? ", too few to read" : ""}.`,
      ),
    ]),
    ...(logRank
      ? [
          `Groups differ ${logRank.apart ? "more" : "no more"} than chance by log-rank: ${two(logRank.chiSquare)} on ${logRank.degrees}, chance ${chance(logRank.chance)}.`,
        ]
      : []),
    ...(eventsForDoubling === undefined ? [] : [doublingNeeds(Math.ceil(eventsForDoubling), events)]),
  ];
}

/** Hazard ratios as lines, or why there are none. */
export function hazardLines(answer: HazardAnswer, factors: number, guards: readonly Guard[] = []): readonly string[] {
  const used = `${answer.used} of ${answer.given} lines used.`;
  if (answer.kind !== "fitted") return modelUnanswered(answer, factors, used);
  return [
    `${numberOf(answer.events, "event")}. ${used} ${answer.method}; limits by profile likelihood.`,
    ...modelGuard(answer.guard, { events: answer.events, factors }, answer.separated),
    ...sparseLines(guards),
    ...answer.ratios.map(
      ({ factor, step, ratio, lower, upper }) =>
        `  ${factor}, ${step}: ${two(ratio)} (${two(lower)} to ${upper === Infinity ? "no upper end" : two(upper)}).`,
    ),
    ...(answer.proportional === undefined
      ? []
      : [`Are the ratios the same over time? Chance of such a departure ${chance(answer.proportional)}.`]),
    foretold(answer.concordance),
    ...(answer.unoConcordance && Number.isFinite(answer.unoConcordance.concordance)
      ? [
          `Had no line been lost from view (Uno): ${whole(answer.unoConcordance.concordance * 100)} in 100, error ${whole(answer.unoConcordance.standardError * 100)}.`,
        ]
      : []),
    ...(answer.shared ? sharedLines(answer.shared) : []),
    "A ratio is no cause. Sicker people get larger lines.",
  ];
}

const foretold = ({ concordance, standardError }: HazardModel["concordance"]): string =>
  Number.isFinite(concordance)
    ? `Foretold which of two lines has it first: ${whole(concordance * 100)} in 100, error ${whole(standardError * 100)}; guessing is 50.`
    : "No two lines could be held against each other.";

function sharedLines(shared: NonNullable<HazardModel["shared"]>): readonly string[] {
  if (shared.kind === "lines came late") return ["Some lines came late: what patients share is not told."];
  if (shared.kind === "no fit") return ["What patients share could not be fitted."];
  if (shared.variance === 0) return ["Beyond this, patients differ no more than by chance."];
  return [
    `Beyond this, ${shared.patients} patients differ: variance ${two(shared.variance)}, chance of so much ${chance(shared.chance)}.`,
    ...shared.ratios.map(
      ({ factor, ratio, lower, upper }) =>
        `  For one patient, ${factor}: ${two(ratio)} (${two(lower)} to ${two(upper)}).`,
    ),
  ];
}

const months = (value: number): string =>
  value < 1.5 ? `about ${Math.max(1, Math.round(value * 4.345))} weeks` : `about ${Math.round(value)} months`;

/** How long a rise would take to be seen: the honest sentence under every chart. */
export const toShowSentence = ({ plan }: Pick<ServiceChart, "plan">): string =>
  plan.alarm === undefined
    ? "Too few events for an alarm: each is reviewed as a case."
    : `A rise ${plan.alarm.ratio === 2 ? "to double" : `by ${plan.alarm.ratio}`} would take ${months(plan.alarm.monthsToShow)} to show.`;

export const budgetSentence = ({ plan }: ServiceMonitor): string =>
  plan.alarms === 0
    ? "No alarm is set: of every kind there are too few events."
    : `${plan.alarms === 1 ? "1 alarm" : `${plan.alarms} alarms together`}: one false signal in ${whole(plan.monthsBetweenFalseSignals)} months on average.`;

/** A signal as lines: what happened, how surprising, what is shared, and the warning on coincidence. */
export function signalLines(signal: Signal): readonly string[] {
  const { on, since, events, expected, surprise, lines, shared, provisional } = signal;
  return [
    `Signal on ${sayDay(on)}: ${numberOf(events, "event")} since ${sayDay(since)}, ${two(expected)} expected. Look.`,
    `  Chance of so many, the base in doubt too: ${chance(surprise.asManyOrMoreMidP)}.`,
    ...(provisional ? ["  These days are provisional; late entries may change it."] : []),
    `  Lines: ${lines.map(({ line, on: day }) => `${line} (${sayDay(day)})`).join(", ")}.`,
    ...(shared.named.length > 0
      ? shared.named.map(
          ({ exposure, value, inCluster, clusterKnown, inAll, allKnown }) =>
            `  Shared: ${exposure} ${value}, ${inCluster} of ${clusterKnown}; usual ${inAll} of ${allKnown}.`,
        )
      : ["  No shared exposure stands out."]),
    `  ${shared.lookedAt} values were looked at; about ${two(shared.byCoincidence)} stand out by coincidence.`,
  ];
}

/** The monitor as lines. */
export function monitorLines(monitor: ServiceMonitor): readonly string[] {
  return [
    `Base ${sayDay(monitor.base.from)} to ${sayDay(lastDay(monitor.base))}.`,
    budgetSentence(monitor),
    ...monitor.charts.flatMap((chart) => ["", ...chartLines(chart)]),
  ];
}

function chartLines(chart: ServiceChart): readonly string[] {
  // a nought in every month would be a claim where nothing was asked
  if (chart.neverWritten) return saySilence(chart.measure, chart);
  return [
    `${sayMeasure(chart.measure)}: ${two(chart.plan.expectedPerYear)} expected a year; ${chart.plan.picture}.`,
    `  Base ${two(chart.plan.base.perThousand)} per 1,000 (${two(chart.plan.base.lower)} to ${two(chart.plan.base.upper)}), ${chart.plan.base.events} events${chart.target === undefined ? "" : ", an agreed target"}.`,
    // without an alarm nothing would show a rise
    chart.noAlarm === "base too small and no target agreed"
      ? "  No alarm is kept: the base has too few events. Agree on a target rate."
      : `  ${toShowSentence(chart)}`,
    ...chart.spans.map(
      ({ from, events, lineDays, point }) =>
        `  From ${sayDay(from)}: ${events} in ${whole(lineDays)} line-days${point ? `, ${two(point.rate * 1000)} per 1,000` : ""}${point?.signal ? `, ${point.signal} by the exact limit` : ""}.`,
    ),
    `  ${whole(chart.sinceLast)} line-days since the last event.`,
    ...(chart.watch?.signals.flatMap(signalLines).map((line) => `  ${line}`) ?? []),
    ...saySilence(chart.measure, chart).map((line) => `  ${line}`),
  ];
}

/** Gaps between events as lines, or why there are no limits. */
export function gapLines(chart: GapChart): readonly string[] {
  const title = `${sayMeasure(chart.measure)}: ${chart.clock} from one event to the next.`;
  if (chart.kind === "base too small")
    return [title, `  The base has ${chart.baseGaps} gaps; limits need ${chart.needed}. Each event is a case.`];
  return [
    title,
    chart.form === "power"
      ? `  Limits from ${chart.baseGaps} gaps of the base, evened by a power (Nelson).`
      : `  Limits from ${chart.baseGaps} gaps of the base, held to be exponential.`,
    `  Middle ${whole(chart.centre)}; limits ${whole(chart.lower)} to ${whole(chart.upper)}.`,
    ...chart.gaps.map(
      ({ on, lineDays, outside }) =>
        `  ${sayDay(on)}: ${lineDays === 0 ? "the same day as the one before" : whole(lineDays)}${outside === "long" ? ", longer than the limit" : outside === "short" ? ", shorter than the limit" : ""}.`,
    ),
    `  ${whole(chart.sinceLast)} since the last event. Chance of so long: ${chance(chart.chanceOfSoLong)}.`,
    "  Gaps hardly show a rise. The sum above is the alarm.",
  ];
}

const ALONE = "    Limits are each group's own (exact, 95 %); a pulled share has none.";

/** Small groups drawn towards the service, as lines. */
export function drawnLines(drawn: DrawnTogether, isRate: boolean): readonly string[] {
  const shown = (value: number) => (isRate ? `${two(value)} per 1,000` : percent(value));
  const limited = drawn.limited?.map(
    ({ value, drawn: pulled, lower, upper }) =>
      `    ${value}: ${shown(pulled)} pulled (${two(lower)} to ${two(upper)}).`,
  );
  const alone = drawn.alone?.map(
    ({ value, count, over, lower, upper }) =>
      `    ${value}: ${whole(count)} of ${whole(over)} alone (${percent(lower)} to ${percent(upper)}).`,
  );
  const doubt = limited && ["    Limits at 95 in 100, the doubt how far groups differ in them.", ...noOrder(drawn)];
  if (drawn.kind === "alike")
    return [
      `  By ${drawn.by}: ${drawn.groups} groups differ no more than chance. All: ${shown(drawn.common)}.`,
      `  That is one look at all of them (Pearson). One by one is ${drawn.groups} looks: one may stand out.`,
      ...(limited ?? alone ?? []),
      ...(doubt ?? (alone ? [ALONE] : [])),
    ];
  return [
    `  By ${drawn.by}, small groups pulled towards the service:`,
    ...drawn.groups.map(({ value, raw, drawn: pulled }, at) =>
      limited
        ? (limited[at] as string).replace(": ", `: ${shown(raw)} alone, `)
        : alone
          ? `${(alone[at] as string).slice(0, -1)}, ${shown(pulled)} pulled.`
          : `    ${value}: ${shown(raw)} alone, ${shown(pulled)} pulled.`,
    ),
    ...(doubt ?? [alone ? ALONE : "    No limits: too few groups to know how far they differ."]),
  ];
}

/** Wards are not put in order: how far from certain the highest of them is stands in its place. */
function noOrder({ limited = [] }: DrawnTogether): readonly string[] {
  const most = limited.reduce<(typeof limited)[number] | undefined>(
    (best, one) => ((one.highest ?? 0) > (best?.highest ?? 0) ? one : best),
    undefined,
  );
  if (most?.highest === undefined) return [];
  return [
    `    The highest of all is most likely ${most.value}, by ${inHundred(100 * most.highest)}; by luck ${inHundred(100 / limited.length)}.`,
    ...(most.highest < ALMOST_SURE ? ["    That is no order: the order of wards is not known."] : []),
  ];
}

const ALMOST_SURE = 0.95;

/** Services counted together, as lines. */
export function poolLines(pooled: Pooled): readonly string[] {
  const { mantelHaenszel: ratio, logRank } = pooled;
  return [
    `${sayMeasure(pooled.measure)}, ${pooled.services.length} services: ${pooled.services.join(", ")}.`,
    ...pooled.rates.map(
      ({ stratum, group, events, days, rate }) =>
        `  ${stratum}, ${group}: ${events} in ${whole(days)} ${pooled.clock}: ${two(rate.perThousand)} per 1,000 (${two(rate.lower)} to ${two(rate.upper)}).`,
    ),
    ...(ratio && typeof ratio !== "string"
      ? [
          `${pooled.groups[0]} over ${pooled.groups[1]}: ${two(ratio.ratio.ratio)} (${two(ratio.ratio.lower)} to ${two(ratio.ratio.upper)}), Mantel-Haenszel.`,
        ]
      : []),
    // on no degree of freedom nothing was compared, and a chance of one would read as "alike"
    ...(logRank && logRank.degrees === 0 ? ["Too much was withheld for a log-rank: nothing could be compared."] : []),
    ...(logRank && logRank.degrees > 0
      ? [`Log-rank within strata: ${two(logRank.chiSquare)} on ${logRank.degrees}, chance ${chance(logRank.chance)}.`]
      : []),
    ...(pooled.withheldRates + pooled.withheldIntervals > 0
      ? [
          `${numberOf(pooled.withheldRates, "rate")} and ${numberOf(pooled.withheldIntervals, "interval")} were withheld and are in no sum.`,
          "Small cells are the ones withheld, so a ratio of what is left may lean.",
        ]
      : []),
  ];
}

/** What to know before a file without identity is given away. */
export function exportWarnings({ rare, smallCells, leftOut, words }: ExportedLines): readonly string[] {
  return [
    ...(rare.length > 0
      ? [`${rare.length} groups of age, diagnosis and month hold very few people. Who knows one may find the person.`]
      : []),
    ...(smallCells.length > 0
      ? [
          `${smallCells.length} values stand for very few people: ${smallCells.map(({ column, value }) => `${column} ${value}`).join(", ")}.`,
        ]
      : []),
    ...(leftOut > 0 ? [`${leftOut} rows without a date of placing were left out.`] : []),
    ...(words.length > 0 ? [`${words.length} words of the house left as codes. The legend stays in the house.`] : []),
    "Dates are moved back by up to a year, one number for each person. One known date undoes it.",
    "Read the file with the same --as-of, and name a --from a year earlier.",
    "A line in place may then look unseen (T6); its days are the same.",
  ];
}

/** Two answers that overlap give back by subtraction what each withholds: no program sees the other answer. */
export const oneAnswerLeaves = "Hand out one answer of this table. The difference of two may tell what each withholds.";

/** Said under figures that leave. */
export const houseCodesSaid = "Wards and typed words stand as codes. --legend yes tells the house which.";

/** What each code stands for, as a file of the house's own (RFC 4180). */
export function houseWordsCsv(words: readonly HouseWord[]): string {
  const cell = (text: string): string => {
    const tame = /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
    return /[",\r\n]/.test(tame) ? `"${tame.replaceAll('"', '""')}"` : tame;
  };
  const rows = words.map(({ column, code, word, rows: many }) => [column, code, cell(word), String(many)].join(","));
  return `${["column,code,stands_for_keep_in_the_house,rows", ...rows].join("\r\n")}\r\n`;
}
