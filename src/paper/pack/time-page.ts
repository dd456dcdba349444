import type { MonthPack, RememberedSignal, ServiceChart } from "../../audit/index.ts";
import { GREY_INK, timeInput, timePlate } from "../../figure/index.ts";
import { changeLines, packWords, rememberedRow, sayMeasure, timeWords } from "../../language/index.ts";
import type { Block } from "../line/index.ts";

/** The one face the printer brings with it. */
const PRINT_INK = { ...GREY_INK, serif: "Libertinus Serif", plain: "Libertinus Serif" };
/** Drawn so that its smallest lettering, 12 px, is printed at 7.3 pt. */
const WIDTH = 820;
const WIDTH_MM = 176;
/** Height of a chart by how much else the page must hold. */
const PLOT = { roomy: 110, close: 39 } as const;
/** Signals told in full, the newest; of the others their day. */
const MOST_SIGNALS = 3;
/** Changes told in words, the newest; the others keep their marks and stand on the Count page. */
const MOST_CHANGES = 6;
const SIGNAL_SHARES = [3, 2.6, 2, 2.4];

/** Page 2: every watched event on its line of days, its rate, its sum, what was changed, and the signals to look at. */
export function timeBlocks(pack: MonthPack, signalChance: number, nameOf: (key: string) => string): readonly Block[] {
  const { monitor, memory } = pack;
  if (!monitor) return [{ kind: "say", text: packWords.noBase }];
  const signals = memory?.signals ?? monitor.charts.flatMap(seenNow);
  const changes = memory?.changes ?? [];
  const plot = signals.length > 1 || changes.length > 2 ? PLOT.close : PLOT.roomy;
  return [
    { kind: "say", text: packWords.budget(monitor) },
    ...monitor.charts.flatMap((chart, at) => chartBlocks(pack, chart, at, { plot, signalChance })),
    { kind: "soft", text: timeWords.under },
    ...changeBlocks(memory ? changeLines(memory) : []),
    ...signalBlocks(signals, nameOf),
    ...(memory ? [] : [{ kind: "soft", text: timeWords.noMemory } as const]),
  ];
}

const seenNow = (chart: ServiceChart): readonly RememberedSignal[] =>
  (chart.watch?.signals ?? []).map((present) => ({
    measure: chart.measure,
    kept: undefined,
    present,
    restated: undefined,
    earlierBase: false,
  }));

function chartBlocks(
  { monitor, memory, year }: MonthPack,
  chart: ServiceChart,
  at: number,
  { plot, signalChance }: { readonly plot: number; readonly signalChance: number },
): readonly Block[] {
  const now = monitor?.now ?? year.period;
  const { provisionalFrom } = year;
  const input = timeInput(chart, now, signalChance, { changes: memory?.changes ?? [], provisionalFrom });
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
  const said = [timeWords.told(chart, memory?.bases[chart.measure]), packWords.noAlarm(chart)].filter(
    (one) => one !== "",
  );
  return [
    { kind: "heading", text: title },
    {
      kind: "drawing",
      drawing: { svg: drawn.svg, alt: timeWords.alt(drawn), widthMm: WIDTH_MM },
      caption: said.join(" "),
    },
  ];
}

/** What the numbered marks mean, in two columns. */
function changeBlocks(lines: readonly string[]): readonly Block[] {
  if (lines.length === 0) return [];
  const told = lines.slice(-MOST_CHANGES);
  const half = Math.ceil(told.length / 2);
  const column = (items: readonly string[]): readonly Block[] =>
    items.length === 0 ? [] : [{ kind: "list", numbered: false, items }];
  return [
    { kind: "heading", text: timeWords.changes },
    { kind: "columns", shares: [1, 1], columns: [column(told.slice(0, half)), column(told.slice(half))] },
  ];
}

function signalBlocks(signals: readonly RememberedSignal[], nameOf: (key: string) => string): readonly Block[] {
  if (signals.length === 0) return [];
  const newest = [...signals].sort((a, b) => (dayOf(a) < dayOf(b) ? 1 : -1));
  const [full, earlier] = [newest.slice(0, MOST_SIGNALS), newest.slice(MOST_SIGNALS)];
  return [
    { kind: "heading", text: timeWords.signals },
    {
      kind: "table",
      head: timeWords.signalHead,
      rows: full.map((signal) => rememberedRow(signal, nameOf)),
      shares: SIGNAL_SHARES,
      tight: true,
    },
    ...(earlier.length > 0 ? [{ kind: "soft", text: timeWords.earlier(earlier) } as const] : []),
  ];
}

const dayOf = ({ kept, present }: RememberedSignal): string => kept?.on ?? present?.on ?? "";
