import { packedOfSent, tableOf, type AuditTable, type SentLines } from "../../audit/index.ts";
import type { Fault } from "../../contract/index.ts";
import type { Moment } from "../../core/dwell/index.ts";

/** What came of a line table that was read on a thread of its own. */
export type LinesRead =
  | { readonly kind: "table"; readonly table: AuditTable }
  | { readonly kind: "faults"; readonly faults: readonly Fault[] }
  | { readonly kind: "stopped" };

type Said =
  | { readonly progress: number }
  | { readonly faults: readonly Fault[] }
  | { readonly sent: SentLines }
  | { readonly failed: string };

/** A reading that runs; stopping it ends its thread. */
export interface RunningRead {
  readonly answer: Promise<LinesRead>;
  readonly stop: () => void;
}

/** Reads a line table on a thread of its own, so that the page goes on answering. */
export async function readLinesOf(file: File, asOf: Moment, progress: (share: number) => void): Promise<RunningRead> {
  const { default: LineTableWorker } = await import("../worker/line-table-worker.ts?worker&inline");
  const worker = new LineTableWorker();
  let end: (read: LinesRead) => void = () => undefined;
  const answer = new Promise<LinesRead>((resolve, reject) => {
    end = (read) => {
      worker.terminate();
      resolve(read);
    };
    const fail = (why: string) => {
      worker.terminate();
      reject(new Error(why));
    };
    worker.onerror = (event) => fail(event.message);
    worker.onmessage = ({ data }: MessageEvent<Said>) => {
      if ("progress" in data) progress(data.progress);
      else if ("failed" in data) fail(data.failed);
      else if ("faults" in data) end({ kind: "faults", faults: data.faults });
      else end({ kind: "table", table: tableOf(packedOfSent(data.sent)) });
    };
    worker.postMessage({ file, asOf });
  });
  return { answer, stop: () => end({ kind: "stopped" }) };
}
