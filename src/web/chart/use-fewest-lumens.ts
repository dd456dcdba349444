import { useEffect, useRef, useState } from "react";
import type { DrugChart, FewestLumens } from "../../core/drug-chart/index.ts";
import type { Minute } from "../../core/quantity/index.ts";
import ChartWorker from "../worker/chart-worker.ts?worker&inline";

/** A search that is not done by then says so, with its bound. */
const FOR_MS = 5000;
/** A step that does not ask for its time in between is ended from outside. */
const ENDED_MS = 15_000;

/** What the page knows of a count: still counting, counted, or ended without a count. */
export type Counting = FewestLumens | "counting" | "ended";

/** The fewest lumens of a chart as a worker finds them; undefined while there is no chart. */
export function useFewestLumens(chart: DrugChart | undefined, shortRunMin: Minute): Counting | undefined {
  const [found, setFound] = useState<{ readonly chart: DrugChart; readonly answer: FewestLumens | "ended" }>();
  const turn = useRef(0);
  useEffect(() => {
    turn.current += 1;
    const mine = turn.current;
    if (!chart) return undefined;
    let worker: Worker | undefined;
    const end = setTimeout(() => {
      worker?.terminate();
      setFound((now) => (now?.chart === chart ? now : { chart, answer: "ended" }));
    }, ENDED_MS);
    const pause = setTimeout(() => {
      worker = new ChartWorker();
      worker.onmessage = ({ data }: MessageEvent<{ turn: number; answer: FewestLumens | { kind: "refused" } }>) => {
        if (data.turn === mine && data.answer.kind === "answered") setFound({ chart, answer: data.answer });
      };
      worker.postMessage({ turn: mine, chart, shortRunMin, forMs: FOR_MS });
    }, 150);
    return () => {
      clearTimeout(pause);
      clearTimeout(end);
      worker?.terminate();
    };
  }, [chart, shortRunMin]);
  if (!chart) return undefined;
  return found?.chart === chart ? found.answer : "counting";
}
