import type { ReactNode } from "react";
import type { DeviceNeed } from "../../core/device-choice/index.ts";
import { expectedComplications, type ExpectedLine, type Feature } from "../../core/expectation/index.ts";
import type { Candidate } from "../../core/line-plan/index.ts";
import { isMissing } from "../../core/missing/index.ts";
import {
  cannotClaim,
  complicationName,
  lumens,
  percent,
  rangeInHundred,
  refusalSentence,
} from "../../language/index.ts";
import { baselineOrigins, complicationTable, featureOrigins } from "../../policy/index.ts";

const REFERENCE_RATIO = 35;

/** What the chosen line is expected to cost in 100 people like this, with and without one more lumen, one more French. */
export function WithAndWithout({
  chosen,
  lumenCount,
  need,
}: {
  readonly chosen: Candidate;
  readonly lumenCount: number;
  readonly need: DeviceNeed;
}): ReactNode {
  if (isMissing(need.days) || isMissing(need.group)) return null;
  const ratioPercent = chosen.ratio.ratio * 100;
  const thickerPercent = ((chosen.outsideDiameterMm + 1 / 3) / chosen.diameterMm) * 100;
  const line = (count: number, ratio: number): ExpectedLine => ({
    group: need.group as ExpectedLine["group"],
    days: (need.days as { likely: number }).likely,
    features: featuresOf(chosen, need, count, ratio),
    ...(need.setting === "home" || need.setting === "nursing home" ? { homeFromDay: 0 } : {}),
  });
  const columns = [
    [`this plan: ${lumens(lumenCount)}, ${percent(ratioPercent)}`, line(lumenCount, ratioPercent)],
    [`with ${lumens(lumenCount + 1)}`, line(lumenCount + 1, ratioPercent)],
    [`one French more, ${percent(thickerPercent)}`, line(lumenCount, thickerPercent)],
  ] as const;
  const answers = columns.map(([, one]) => expectedComplications(one, complicationTable));
  const [first] = answers;
  if (first === undefined || typeof first === "string")
    return first === undefined ? null : <p className="soft">{refusalSentence[first]}</p>;
  return (
    <details className="with-and-without">
      <summary>With and without: what each choice costs in 100 people</summary>
      <table>
        <thead>
          <tr>
            <th scope="col">in 100 people like this</th>
            {columns.map(([name]) => (
              <th scope="col" key={name}>
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {first.map(({ complication }, row) => (
            <tr key={complication}>
              <th scope="row">
                {complicationName[complication]} <span className="soft">({baselineOrigins[complication].quality})</span>
              </th>
              {answers.map((answer, column) => {
                const cell = typeof answer === "string" ? undefined : answer[row];
                return <td key={columns[column]?.[0]}>{cell ? rangeInHundred(cell) : "no figure"}</td>;
              })}
            </tr>
          ))}
        </tbody>
      </table>
      <ul className="plain soft">
        {cannotClaim.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
        {(Object.keys(columns[0][1].features) as Feature[]).map((feature) => (
          <li key={feature}>
            {feature} ({featureOrigins[feature].quality}): {featureOrigins[feature].source}
          </li>
        ))}
      </ul>
    </details>
  );
}

/** Only what was answered moves a figure; what nobody answered stays as in the reference line. */
function featuresOf(
  chosen: Candidate,
  need: DeviceNeed,
  count: number,
  ratioPercent: number,
): ExpectedLine["features"] {
  const infusates = isMissing(need.infusates) ? [] : need.infusates;
  return {
    "ratio per 10 points over 35": (ratioPercent - REFERENCE_RATIO) / 10,
    ...(chosen.vein === "cephalic" ? { "cephalic vein": 1 } : {}),
    ...(chosen.vein.includes("brachial") ? { "brachial vein": 1 } : {}),
    ...(count === 2 ? { "two lumens": 1 } : {}),
    ...(count > 2 ? { "three lumens": 1 } : {}),
    ...(chosen.tunnel ? { tunnelled: 1 } : {}),
    ...(need.cancer === "blood" ? { "blood cancer": 1 } : {}),
    ...(need.cancer === "solid" ? { cancer: 1 } : {}),
    ...(need.setting === "intensive care" ? { "intensive care": 1 } : {}),
    ...(infusates.some(({ nutrition }) => nutrition) ? { nutrition: 1 } : {}),
  };
}
