import type { Maybe } from "../missing/index.ts";
import type {
  Centimetre,
  French,
  Millilitre,
  MillilitrePerHour,
  MillilitrePerSecond,
  Millimetre,
} from "../quantity/index.ts";

/** One kind of catheter on the shelf, as its label tells it. A blank on the label is an absence, never a guess. */
export interface StockCatheter {
  readonly id: string;
  /** What people call it here, generic: "4 Fr single". */
  readonly name: string;
  readonly nominalFrench: French;
  /** True outside diameter where it enters the vein; a tapered catheter is wider there than its French says. */
  readonly outsideDiameterMm: Maybe<Millimetre>;
  readonly lumens: number;
  readonly lengthCm: Centimetre;
  readonly lumenVolumesMl: Maybe<readonly Millilitre[]>;
  /** Flow the label promises through its widest lumen. */
  readonly flowLabelMlPerHour: Maybe<MillilitrePerHour>;
  readonly bloodByLabel: Maybe<boolean>;
  /** Contrast injection limit on the label; 0 means the label forbids it. */
  readonly contrastLabelMlPerSecond: Maybe<MillilitrePerSecond>;
  readonly material: Maybe<string>;
}
