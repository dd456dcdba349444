import type { MonthPack, ServiceChart, ServiceMonitor } from "../../audit/index.ts";
import { chartInput, controlChart, GREY_INK } from "../../figure/index.ts";
import { packWords, sayMeasure } from "../../language/index.ts";
import type { Block } from "../line/index.ts";

/** The one face the printer brings with it. */
const PRINT_INK = { ...GREY_INK, serif: "Libertinus Serif", plain: "Libertinus Serif" };
const WIDTH = 880;
const PLOT = 150;
const WIDTH_MM = 164;

/** Page 2: every watched event on its line of days, its rate against the base, and when a rise would show. */
export function timeBlocks({ monitor }: MonthPack, signalChance: number): readonly Block[] {
  if (!monitor) return [{ kind: "say", text: packWords.noBase }];
  return [
    { kind: "say", text: packWords.budget(monitor) },
    ...monitor.charts.flatMap((chart, at) => chartBlocks(chart, monitor, at, signalChance)),
  ];
}

function chartBlocks(chart: ServiceChart, { now }: ServiceMonitor, at: number, signalChance: number): readonly Block[] {
  const input = chartInput(chart, now, signalChance);
  const said = [packWords.toShow(chart), packWords.noAlarm(chart), packWords.since(chart)].filter((one) => one !== "");
  if (!input) return [{ kind: "say", text: packWords.noChart(chart.measure) }];
  const drawn = controlChart({
    id: `pack-chart-${at}`,
    title: sayMeasure(chart.measure),
    clock: "line-days",
    ...input,
    width: WIDTH,
    plot: PLOT,
    ink: PRINT_INK,
  });
  return [
    { kind: "heading", text: sayMeasure(chart.measure) },
    {
      kind: "drawing",
      drawing: { svg: drawn.svg, alt: drawn.sentence, widthMm: WIDTH_MM },
      caption: `${drawn.sentence} ${said.join(" ")}`,
    },
    ...packWords.signal(chart).map((text): Block => ({ kind: "say", text })),
  ];
}
