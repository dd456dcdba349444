import type { Measure, MonthPack, RememberedSignal, ServiceChart } from "../../audit/index.ts";
import { GREY_INK, spanPlate, spanValueOf, timeInput, timePlate, type Figure } from "../../figure/index.ts";
import {
  beginningWords,
  changeLines,
  cutShort,
  packWords,
  rememberedRow,
  sayMeasure,
  sayMonth,
  timeGuardLines,
  timeWords,
} from "../../language/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import type { Block, SheetDrawing } from "../line/index.ts";
import type { Room } from "./room.ts";

/** The one face the printer brings with it. */
const PRINT_INK = { ...GREY_INK, serif: "Libertinus Serif", plain: "Libertinus Serif" };
/** Drawn so that its smallest lettering, 12 px, is printed at 7.3 pt. */
const WIDTH = 820;
const WIDTH_MM = 176;
/** Heights of a plate where the page must hold much else, and where its limits alone are drawn. */
const [CROWDED_PLOT, MONTHS_PLOT] = [36, 70];
const SIGNAL_SHARES = [3, 2.6, 2, 2.4];

/** Page 2: every watched event on its line of days, its rate, its sum, what was changed, and the signals to look at. */
export function timeBlocks(
  pack: MonthPack,
  measures: readonly Measure[],
  limits: CountLimits,
  nameOf: (key: string) => string,
  room: Room,
): readonly Block[] {
  const { monitor, memory } = pack;
  const changes = memory?.changes ?? [];
  if (!monitor)
    return [...beginningBlocks(pack, measures, limits, room), ...changeBlocks(memory ? changeLines(memory) : [], room)];
  const signals = memory?.signals ?? monitor.charts.flatMap(seenNow);
  const crowded = signals.length > 1 || changes.length > 2;
  const plot = crowded ? Math.min(room.plot, CROWDED_PLOT) : room.plot;
  return [
    { kind: "say", text: packWords.budget(monitor) },
    ...monitor.charts.flatMap((chart, at) => chartBlocks(pack, chart, at, { plot, limits })),
    { kind: "soft", text: timeWords.under },
    ...changeBlocks(memory ? changeLines(memory) : [], room),
    ...signalBlocks(signals, nameOf, room),
    ...(memory ? [] : [{ kind: "soft", text: timeWords.noMemory } as const]),
  ];
}

/** Before there is a base: no plate, but what these days already say and what is still needed. */
function beginningBlocks(
  { beginning, guards, memory }: MonthPack,
  measures: readonly Measure[],
  { alarmFrom, baseEvents }: CountLimits,
  { plot }: Room,
): readonly Block[] {
  if (!beginning) return [];
  const steps: readonly Block[] = [
    { kind: "heading", text: beginningWords.now },
    { kind: "list", numbered: false, items: beginningWords.steps(baseEvents) },
  ];
  if (!beginning.period) return [{ kind: "loud", text: beginningWords.none }, ...steps];
  return [
    { kind: "loud", text: beginningWords.early },
    { kind: "say", text: beginningWords.counted(beginning) },
    ...beginning.measures.flatMap((one, at): readonly Block[] => {
      const measure = measures.find(({ id }) => id === one.measure);
      if (!measure) return [];
      return [
        { kind: "heading", text: beginningWords.title(one) },
        {
          kind: "drawing",
          drawing: drawnBy(
            spanPlate({
              id: `pack-months-${at}`,
              title: beginningWords.title(one),
              kind: "rate",
              overName: measure.clock,
              each: "month",
              interval: one.figure.interval,
              spans: one.months.map(({ from, figure, provisional }) => ({
                ...spanValueOf(figure),
                name: sayMonth(from),
                provisional,
              })),
              whole: spanValueOf(one.figure),
              width: WIDTH,
              plot: Math.min(plot, MONTHS_PLOT),
              close: true,
              ink: PRINT_INK,
            }),
          ),
          caption: "",
        },
        { kind: "say", text: beginningWords.of(one, measure, beginning, alarmFrom).join(" ") },
        ...soft(timeGuardLines(guards, one.measure, !memory?.bases[one.measure])),
      ];
    }),
    { kind: "soft", text: beginningWords.under },
    ...steps,
  ];
}

const drawnBy = (drawn: Figure): SheetDrawing => ({ svg: drawn.svg, alt: timeWords.alt(drawn), widthMm: WIDTH_MM });

const soft = (lines: readonly string[]): readonly Block[] =>
  lines.length === 0 ? [] : [{ kind: "soft", text: lines.join(" ") }];

const seenNow = (chart: ServiceChart): readonly RememberedSignal[] =>
  (chart.watch?.signals ?? []).map((present) => ({
    measure: chart.measure,
    kept: undefined,
    present,
    restated: undefined,
    earlierBase: false,
  }));

function chartBlocks(
  { monitor, memory, year, guards }: MonthPack,
  chart: ServiceChart,
  at: number,
  { plot, limits }: { readonly plot: number; readonly limits: CountLimits },
): readonly Block[] {
  const now = monitor?.now ?? year.period;
  const { provisionalFrom } = year;
  const input = timeInput(chart, now, limits.signalChance, { changes: memory?.changes ?? [], provisionalFrom });
  if (!input) return [{ kind: "say", text: packWords.noChart(chart.measure) }];
  const title = sayMeasure(chart.measure);
  const drawn = timePlate({
    id: `pack-chart-${at}`,
    title,
    clock: "line-days",
    ...input,
    width: WIDTH,
    plot,
    captioned: false,
    close: true,
    ink: PRINT_INK,
  });
  const said = [timeWords.told(chart, memory?.bases[chart.measure]), packWords.noAlarm(chart, limits)].filter(
    (one) => one !== "",
  );
  return [
    { kind: "heading", text: title },
    {
      kind: "drawing",
      drawing: drawnBy(drawn),
      caption: said.join(" "),
    },
    ...soft(timeGuardLines(guards, chart.measure, !memory?.bases[chart.measure])),
  ];
}

/** What the numbered marks mean, in two columns. */
function changeBlocks(lines: readonly string[], { changes, signs }: Room): readonly Block[] {
  if (lines.length === 0) return [];
  // the newest; the others keep their marks
  const told = lines.slice(-changes).map((line) => cutShort(line, signs));
  const half = Math.ceil(told.length / 2);
  const column = (items: readonly string[]): readonly Block[] =>
    items.length === 0 ? [] : [{ kind: "list", numbered: false, items }];
  return [
    { kind: "heading", text: timeWords.changes },
    { kind: "columns", shares: [1, 1], columns: [column(told.slice(0, half)), column(told.slice(half))] },
    ...soft(lines.length > told.length ? [timeWords.moreChanges(lines.length - told.length)] : []),
  ];
}

function signalBlocks(
  signals: readonly RememberedSignal[],
  nameOf: (key: string) => string,
  room: Room,
): readonly Block[] {
  if (signals.length === 0) return [];
  const newest = [...signals].sort((a, b) => (dayOf(a) < dayOf(b) ? 1 : -1));
  const [full, earlier] = [newest.slice(0, room.signals), newest.slice(room.signals)];
  return [
    { kind: "heading", text: timeWords.signals },
    {
      kind: "table",
      head: timeWords.signalHead,
      rows: full.map((signal) => rememberedRow(signal, nameOf).map((cell) => cutShort(cell, room.signs))),
      shares: SIGNAL_SHARES,
      tight: true,
    },
    ...(earlier.length > 0 ? [{ kind: "soft", text: timeWords.earlier(earlier) } as const] : []),
  ];
}

const dayOf = ({ kept, present }: RememberedSignal): string => kept?.on ?? present?.on ?? "";
