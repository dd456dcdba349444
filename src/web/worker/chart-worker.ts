import { fewestLumens, type DrugChart } from "../../core/drug-chart/index.ts";
import type { Minute } from "../../core/quantity/index.ts";

/** Searches a chart off the page's own thread; after its time it says what it found and that it is not proven. */
interface Asked {
  readonly turn: number;
  readonly chart: DrugChart;
  readonly shortRunMin: Minute;
  readonly forMs: number;
}

const scope = globalThis as unknown as {
  onmessage: (event: { data: Asked }) => void;
  postMessage: (data: unknown) => void;
};

scope.onmessage = ({ data }) => {
  const until = performance.now() + data.forMs;
  const answer = fewestLumens(data.chart, {
    mayGoOn: () => performance.now() < until,
    shortRunMin: data.shortRunMin,
  });
  scope.postMessage({ turn: data.turn, answer });
};
