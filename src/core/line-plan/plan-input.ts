import type { AgeOfPatient } from "../age/index.ts";
import type { Side, VeinSurvey } from "../arm/index.ts";
import type { CivilDate } from "../calendar/index.ts";
import type { StockCatheter } from "../catheter/index.ts";
import type { LengthInput } from "../length/index.ts";
import type { Maybe } from "../missing/index.ts";
import type { Centimetre, Degree, Kilogram, MillilitrePerHour, MillilitrePerSecond } from "../quantity/index.ts";

export interface Patient extends AgeOfPatient {
  readonly name: Maybe<string>;
  /** Second identifier: the hospital's number. */
  readonly identifier: Maybe<string>;
  readonly bornOn: Maybe<CivilDate>;
  readonly weightKg: Maybe<Kilogram>;
  readonly heightCm: Maybe<Centimetre>;
  readonly dominantArm: Maybe<Side>;
}

/** What the line must carry, as stated by the person until the drug chart answers it. */
export interface LineNeed {
  readonly lumens: Maybe<number>;
  /** Fastest infusion; 0 when no particular flow is needed. */
  readonly flowMlPerHour: Maybe<MillilitrePerHour>;
  readonly blood: Maybe<boolean>;
  /** Contrast injection rate wanted; 0 for none. */
  readonly contrastMlPerSecond: Maybe<MillilitrePerSecond>;
}

/** A line this arm has carried before; shown on the arm, and its good length is one way to the next length. */
export interface PastLine {
  readonly vein: VeinSurvey["vein"];
  readonly year: number;
  readonly atCm: Maybe<Centimetre>;
}

export interface ArmInput {
  /** Medial epicondyle to axillary line, arm abducted, turned out, elbow straight. */
  readonly armLengthCm: Maybe<Centimetre>;
  /** Keys of the reasons against this arm (policy), empty when asked and none. Missing until asked. */
  readonly bars: Maybe<readonly string[]>;
  readonly surveys: readonly VeinSurvey[];
  readonly pastLines: readonly PastLine[];
}

/** A stop planned against: what, where, why, and the two people who answer for it. */
export interface Override {
  readonly code: string;
  readonly side: Side;
  readonly reason: string;
  readonly names: readonly [string, string];
}

/** A place a person fixed by hand; the plan then judges exactly this place. */
export interface FixedPlace {
  readonly side: Side;
  readonly vein: VeinSurvey["vein"];
  readonly veinEntryCm: Centimetre;
  readonly angleDegree?: Degree;
  readonly catheterId?: string;
}

export interface AnaestheticInput {
  readonly concentrationPercent: Maybe<number>;
  readonly withAdrenaline: Maybe<boolean>;
}

export interface PlanInput {
  readonly patient: Patient;
  readonly need: LineNeed;
  readonly arms: Readonly<Record<Side, ArmInput>>;
  readonly shelf: readonly StockCatheter[];
  readonly length: LengthInput;
  readonly anaesthetic: AnaestheticInput;
  readonly overrides: readonly Override[];
  readonly fixedPlace?: FixedPlace;
}
