import type { ReactNode } from "react";
import { Link } from "wouter";
import type { Finding } from "../../core/reason/index.ts";
import { OPEN_SIGN } from "../../core/release/index.ts";
import { openSignAsks, sayLineFinding, sayWrite, tipStopAsks } from "../../language/index.ts";
import { Reason } from "../plan/reasons.tsx";
import { useRecord } from "./record-context.tsx";

/** What the last tip has against a release, where a release is pressed and signed, and the two ways past it. */
export function TipStop({ stop, id }: { readonly stop: Finding; readonly id: string }): ReactNode {
  const { policy } = useRecord();
  const sign = stop.code === OPEN_SIGN;
  // what no person may pass is only waited out: a new reading
  const passable = stop.code !== "release-tip-not-read" && stop.code !== "release-ended-needs-new-tip";
  return (
    <div className="tip-stop" role="alert" data-stop={stop.code}>
      <ul className="reasons">
        <Reason finding={stop} policy={policy} say={sayLineFinding} />
      </ul>
      {passable ? <p>{sign ? openSignAsks : tipStopAsks}</p> : null}
      <p className="presses">
        {sign ? (
          <Link href={`/write/line/${id}/InfectionConcluded`}>{sayWrite("InfectionConcluded")}</Link>
        ) : (
          <Link href={`/write/line/${id}/TipRead`}>Read the tip</Link>
        )}{" "}
        {passable && !sign ? <Link href={`/write/line/${id}/TipCorrected`}>Write the correction</Link> : null}{" "}
        {passable ? <Link href={`/write/line/${id}/StopOverridden`}>Pass this stop, by two people</Link> : null}
      </p>
    </div>
  );
}
