import { lazy, Suspense, useState, type ReactNode } from "react";
import type { KnownLines } from "../../spreadsheet/index.ts";

const DeviceLines = lazy(() => import("./device-lines.tsx").then((module) => ({ default: module.DeviceLines })));

/** The record is opened only when a person asks for it: an import of a spreadsheet alone never touches it. */
export function FromRecord(asked: {
  readonly policyVersion: string;
  readonly take: (lines: KnownLines) => void;
}): ReactNode {
  const [held, setHeld] = useState(false);
  if (held)
    return (
      <Suspense fallback={<p className="waiting">Opening the record ...</p>}>
        <DeviceLines {...asked} />
      </Suspense>
    );
  return (
    <p>
      <button type="button" className="quiet" data-import="from-record" onClick={() => setHeld(true)}>
        Know the lines of the record on this device
      </button>
    </p>
  );
}
