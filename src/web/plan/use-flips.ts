import { useEffect, useRef, useState } from "react";
import type { Flip, PlanInput, PlanPolicy } from "../../core/line-plan/index.ts";
import FlipWorker from "../worker/flip-worker.ts?worker&inline";

/** What would change the plan, as it is found. A new entry starts afresh; answers of an older one are dropped. */
export function useFlips(
  input: PlanInput | undefined,
  policy: PlanPolicy,
): { readonly flips: readonly Flip[]; readonly done: boolean } {
  const [state, setState] = useState<{ flips: readonly Flip[]; done: boolean }>({ flips: [], done: false });
  const turn = useRef(0);

  useEffect(() => {
    turn.current += 1;
    const mine = turn.current;
    setState({ flips: [], done: input === undefined });
    if (!input) return undefined;
    let worker: Worker | undefined;
    // a short pause, so that a number being typed does not start a search at every digit
    const pause = setTimeout(() => {
      worker = new FlipWorker();
      worker.onmessage = ({ data }: MessageEvent<{ turn: number; flip?: Flip; done?: boolean }>) => {
        if (data.turn !== mine) return;
        setState((now) => (data.flip ? { ...now, flips: [...now.flips, data.flip] } : { ...now, done: true }));
      };
      worker.postMessage({ turn: mine, input, policy });
    }, 150);
    return () => {
      clearTimeout(pause);
      worker?.terminate();
    };
  }, [input, policy]);

  return state;
}
