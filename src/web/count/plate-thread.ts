import { packedOf, sentLines, type AuditRules, type AuditTable } from "../../audit/index.ts";
import type { PlateAnswer, PlateQuestion } from "../worker/plate-worker.ts";

type Draw = (question: PlateQuestion) => Promise<PlateAnswer>;

interface Running {
  readonly table: AuditTable;
  readonly rules: AuditRules;
  readonly draw: Draw;
  readonly stop: () => void;
}
/** One thread for the table on the page: it keeps what it worked out from one press to the next. */
let running: Running | undefined;

/** A thread that holds a table and draws its plates, one question after the other; another table ends it. */
export async function plateThread(table: AuditTable, rules: AuditRules): Promise<Draw> {
  if (
    running?.table === table &&
    running.rules.limits === rules.limits &&
    running.rules.surveillance === rules.surveillance
  )
    return running.draw;
  const { default: PlateWorker } = await import("../worker/plate-worker.ts?worker&inline");
  running?.stop();
  const worker = new PlateWorker();
  const waiting = new Map<
    number,
    { readonly done: (answer: PlateAnswer) => void; readonly fail: (why: Error) => void }
  >();
  const fail = (why: string): void => {
    for (const one of waiting.values()) one.fail(new Error(why));
    waiting.clear();
    worker.terminate();
    if (running?.draw === draw) running = undefined;
  };
  worker.onerror = ({ message }) => fail(message);
  worker.onmessage = ({
    data,
  }: MessageEvent<{ readonly turn: number; readonly answer: PlateAnswer } | { readonly failed: string }>) => {
    if ("failed" in data) return fail(data.failed);
    waiting.get(data.turn)?.done(data.answer);
    waiting.delete(data.turn);
  };
  let turn = 0;
  const draw: Draw = (question) =>
    new Promise((done, reject) => {
      turn += 1;
      waiting.set(turn, { done, fail: reject });
      worker.postMessage({ turn, question });
    });
  worker.postMessage({ sent: sentLines(packedOf(table)), rules });
  running = { table, rules, draw, stop: () => fail("another table is on the page") };
  return draw;
}
