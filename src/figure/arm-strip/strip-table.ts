import { isMissing } from "../../core/missing/index.ts";
import { plateTable, plateWords, veinName } from "../../language/index.ts";
import type { Figure } from "../plate/index.ts";
import type { ArmStripInput } from "./arm-strip-input.ts";
import { gapReason } from "./station-marks.ts";
import type { StripFrame } from "./strip-frame.ts";

/** Everything the plate shows, as rows: whoever cannot see it loses nothing, labels that found no room included. */
export function stripTable(frame: StripFrame, input: ArmStripInput): Figure["table"] {
  const { chosen, allowed, pastLines, alternatives = [] } = input;
  const { thirds } = frame;
  const words = plateTable;
  const cm = (value: number) => value.toFixed(1);
  const at = (what: string, value: number, width = "", depth = "", note = "") => [what, cm(value), width, depth, note];
  const stations = (frame.profile?.ordered ?? []).map((station) => {
    const refused = gapReason(station);
    const notes = [
      refused ? plateWords.gap[refused] : "",
      !isMissing(station.artery) && station.artery === "beside" ? words.artery(station.artery) : "",
      station.nerveBeside === true ? words.nerve : "",
    ];
    return at(
      words.reading,
      station.atCm,
      isMissing(station.diameterMm) ? "" : cm(station.diameterMm),
      isMissing(station.depthMm) ? "" : cm(station.depthMm),
      notes.filter((note) => note !== "").join(", "),
    );
  });
  const place = chosen
    ? [
        at(chosen.tunnel ? words.exit : words.skin, chosen.skinExitCm),
        ...(chosen.tunnel ? [at(words.needleIn, chosen.needleSkinCm)] : []),
        at(words.handFrom, chosen.skinBand.fromCm),
        at(words.handTo, chosen.skinBand.toCm),
        at(words.vein, chosen.veinEntryCm, cm(chosen.diameterMm), cm(chosen.depthMm), input.veinWords),
      ]
    : [];
  return {
    columns: words.columns,
    rows: [
      ...place,
      ...(allowed ? [at(words.allowedFrom, allowed.fromCm), at(words.allowedTo, allowed.toCm)] : []),
      at(words.middleFrom, thirds.middleFromCm),
      at(words.preferredFrom, thirds.preferredFromCm),
      at(words.upperFrom, thirds.upperFromCm),
      at(words.end, thirds.armLengthCm),
      ...stations,
      ...pastLines.map((line) => [
        words.past,
        isMissing(line.atCm) ? "" : cm(line.atCm),
        "",
        "",
        [veinName[line.vein] ?? line.vein, String(line.year), isMissing(line.atCm) ? words.pastUnknown : ""]
          .filter((part) => part !== "")
          .join(", "),
      ]),
      ...alternatives
        .filter(({ side }) => side === (chosen?.side ?? input.side))
        .map((one) =>
          at(words.alternative, one.veinEntryCm, cm(one.diameterMm), cm(one.depthMm), veinName[one.vein] ?? one.vein),
        ),
    ],
  };
}
