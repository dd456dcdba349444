import type { CivilDate } from "../core/calendar/index.ts";
import type { TipPlace } from "../core/tip/index.ts";
import { ARMS, VEINS, type Recorded } from "../register/index.ts";

/** How a tip can be read; the order is part of the text block. */
export const TIP_METHODS = ["film", "ECG", "fluoroscopy", "echo"] as const;

/** What a hospital that has never seen the line must know of it. */
export interface LineFacts {
  /** Issue of the card that carries it. */
  readonly issue: number;
  /** Placed by the service that wrote it, or found in place by it. */
  readonly came: "placed" | "found";
  readonly placedOn: Recorded<CivilDate>;
  readonly arm: Recorded<(typeof ARMS)[number]>;
  readonly vein: Recorded<(typeof VEINS)[number]>;
  readonly french: Recorded<number>;
  readonly lumens: Recorded<number>;
  readonly skinExitCm: Recorded<number>;
  readonly insideCm: Recorded<number>;
  readonly outsideCm: Recorded<number>;
  readonly outsideOn: Recorded<CivilDate>;
  readonly tipMethod: Recorded<(typeof TIP_METHODS)[number]>;
  readonly tipPlace: Recorded<TipPlace>;
  readonly tipOn: Recorded<CivilDate>;
  /** Undefined where the lot has signs or a length the block cannot carry: it is read on the card. */
  readonly lotNumber: Recorded<string> | undefined;
}
