import { columnsOf, packRows, sentLines } from "../../audit/index.ts";
import { readLineTable } from "../../contract/index.ts";
import type { Moment } from "../../core/dwell/index.ts";

/** Reads a line table off the page's own thread and hands its columns over; stopping it is ending the thread. */
interface Asked {
  readonly file: File;
  readonly asOf: Moment;
}

const scope = globalThis as unknown as {
  onmessage: (event: { data: Asked }) => void;
  postMessage: (data: unknown, handedOver?: readonly unknown[]) => void;
};

async function read({ file, asOf }: Asked): Promise<void> {
  const reading = readLineTable(await file.text(), asOf, (share) => scope.postMessage({ progress: share }));
  if (reading.kind === "faults") {
    scope.postMessage({ faults: reading.faults });
    return;
  }
  const sent = sentLines(packRows(reading.table));
  scope.postMessage({ sent }, columnsOf(sent));
}

scope.onmessage = ({ data }) => {
  read(data).catch((fault: unknown) => scope.postMessage({ failed: String(fault) }));
};
