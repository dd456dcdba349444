import { useEffect, useRef, useState, type ReactNode } from "react";
import { Link } from "wouter";
import { linesOfRegister, type KnownLines } from "../../spreadsheet/index.ts";
import { lineOf, patientOf } from "../record/record-context.tsx";
import { rehearsal } from "../register/rehearsal.ts";
import { useRegister } from "../register/use-register.ts";

/** The lines of the record on this device, handed over once it is open; a locked record hands over nothing. */
export function DeviceLines({
  policyVersion,
  take,
}: {
  readonly policyVersion: string;
  readonly take: (lines: KnownLines) => void;
}): ReactNode {
  const [practice] = useState(rehearsal);
  const { ready, locked, rehearsing, histories } = useRegister(policyVersion, practice);
  const [count, setCount] = useState<number>();
  const given = useRef<typeof histories>(undefined);
  useEffect(() => {
    // invented patients are nobody's lines
    if (!ready || locked || rehearsing || given.current === histories) return;
    given.current = histories;
    const all = [...histories.values()];
    const of = (kind: string) => all.filter(({ subject }) => subject.startsWith(`${kind}:`));
    const lines = of("line").map(lineOf);
    take(linesOfRegister(lines, new Map(of("patient").map((history) => [history.subject, patientOf(history)]))));
    setCount(lines.length);
  }, [ready, locked, rehearsing, histories, take]);
  if (!ready) return <p className="waiting">Opening the record ...</p>;
  if (locked)
    return (
      <p data-import="record-locked">
        The record on this device is locked. <Link href="/record">Open it</Link>, then come back.
      </p>
    );
  if (rehearsing) return <p data-import="record-invented">Only invented patients are on this device.</p>;
  return <p data-import="record-known">{count ?? 0} lines of the record are known.</p>;
}
