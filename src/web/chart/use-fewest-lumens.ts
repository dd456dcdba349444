import { useEffect, useRef, useState } from "react";
import type { DrugChart, FewestLumens } from "../../core/drug-chart/index.ts";
import type { Minute } from "../../core/quantity/index.ts";
import ChartWorker from "../worker/chart-worker.ts?worker&inline";

/** A search that is not done by then says so, with its bound. */
const FOR_MS = 5000;

/** The fewest lumens of a chart as a worker finds them; undefined while it searches or there is no chart. */
export function useFewestLumens(chart: DrugChart | undefined, shortRunMin: Minute): FewestLumens | undefined {
  const [found, setFound] = useState<{ readonly chart: DrugChart; readonly answer: FewestLumens }>();
  const turn = useRef(0);
  useEffect(() => {
    turn.current += 1;
    const mine = turn.current;
    if (!chart) return undefined;
    let worker: Worker | undefined;
    const pause = setTimeout(() => {
      worker = new ChartWorker();
      worker.onmessage = ({ data }: MessageEvent<{ turn: number; answer: FewestLumens | { kind: "refused" } }>) => {
        if (data.turn === mine && data.answer.kind === "answered") setFound({ chart, answer: data.answer });
      };
      worker.postMessage({ turn: mine, chart, shortRunMin, forMs: FOR_MS });
    }, 150);
    return () => {
      clearTimeout(pause);
      worker?.terminate();
    };
  }, [chart, shortRunMin]);
  return found && found.chart === chart ? found.answer : undefined;
}
