import type { ReactNode } from "react";
import { Link } from "wouter";
import { flowPair, shelfCarries } from "../../core/flow/index.ts";
import type { Candidate, PlanInput } from "../../core/line-plan/index.ts";
import { outsideDiameter } from "../../core/catheter/index.ts";
import { isMissing } from "../../core/missing/index.ts";
import { millimetre } from "../../core/quantity/index.ts";
import { carrySentence, flowModelSentence, oneMoreFrench, percent } from "../../language/index.ts";
import type { FlowAssumptions } from "../../policy/index.ts";

/** What each stock size leaves of the flow at the entry, and what the chosen one leaves along the vein. */
export function FlowLeft({
  chosen,
  input,
  planId,
  assumed,
}: {
  readonly chosen: Candidate;
  readonly input: PlanInput;
  readonly planId: string;
  readonly assumed: FlowAssumptions;
}): ReactNode {
  const at = (outsideDiameterMm: number, diameterMm: number) => {
    const pair = flowPair({ outsideDiameterMm: millimetre(outsideDiameterMm), diameterMm: millimetre(diameterMm) });
    return pair.kind === "flow" ? pair : undefined;
  };
  const now = at(chosen.outsideDiameterMm, chosen.diameterMm);
  if (!now) return null;
  const rate = input.need.flowMlPerHour;
  const sizes = [...new Map(input.shelf.map((one) => [outsideDiameter(one).toFixed(2), one])).values()].sort(
    (a, b) => outsideDiameter(a) - outsideDiameter(b),
  );
  const stations = input.arms[chosen.side].surveys
    .filter(({ vein }) => vein === chosen.vein)
    .flatMap(({ stations: all }) => all)
    .filter(({ veinPresent, diameterMm }) => veinPresent && !isMissing(diameterMm))
    .sort((a, b) => a.atCm - b.atCm);
  return (
    <details className="flow-left">
      <summary>What it leaves of the flow</summary>
      <p>{oneMoreFrench(now, at(chosen.outsideDiameterMm + 1 / 3, chosen.diameterMm))}</p>
      <table>
        <thead>
          <tr>
            <th scope="col">at the entry, {chosen.diameterMm.toFixed(1)} mm</th>
            <th scope="col">centred</th>
            <th scope="col">touching</th>
          </tr>
        </thead>
        <tbody>
          {sizes.map((catheter) => {
            const pair = at(outsideDiameter(catheter), chosen.diameterMm);
            return (
              <tr key={catheter.id}>
                <th scope="row">{catheter.name}</th>
                <td>{pair ? percent(100 * pair.centred) : "fills the vein"}</td>
                <td>{pair ? percent(100 * pair.touching) : ""}</td>
              </tr>
            );
          })}
        </tbody>
        <tbody>
          {stations.map(({ atCm, diameterMm }) => {
            const pair = at(chosen.outsideDiameterMm, diameterMm as number);
            return (
              <tr key={atCm}>
                <th scope="row">
                  the chosen one at {atCm.toFixed(1)} cm, {(diameterMm as number).toFixed(1)} mm
                </th>
                <td>{pair ? percent(100 * pair.centred) : "fills the vein"}</td>
                <td>{pair ? percent(100 * pair.touching) : ""}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
      {isMissing(rate) || rate === 0 ? null : (
        <table>
          <thead>
            <tr>
              <th scope="col">carries {rate} mL/h of water</th>
              <th scope="col">under {assumed.headCm} cm</th>
            </tr>
          </thead>
          <tbody>
            {shelfCarries(input.shelf, rate, assumed).map(({ catheter, answer }) => (
              <tr key={catheter.id}>
                <th scope="row">{catheter.name}</th>
                <td>{carrySentence(answer)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <p className="soft">{flowModelSentence}</p>
      <Link href={`/flow/${planId}`}>See the flow</Link>
    </details>
  );
}
