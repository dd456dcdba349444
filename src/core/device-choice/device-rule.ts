import type { AgeGroup } from "../age/index.ts";
import type { Device, Rating } from "./device.ts";
import type { Condition } from "./fact.ts";

/**
 * Three layers, the later one outranking the earlier for the devices it rates.
 *   usual       by days and kind of infusate
 *   situation   a patient to whom the usual does not apply: critical illness, cancer, the end of life
 *   stop        what no other reason outweighs: the kidney, nobody to flush, an oral drug that would do
 */
export const LAYERS = ["usual", "situation", "stop"] as const;
export type Layer = (typeof LAYERS)[number];

/** One rule as data: to whom, when, how it rates which devices. Where it comes from stands in the policy row of the same name. */
export interface DeviceRule {
  readonly id: string;
  readonly groups: readonly AgeGroup[];
  readonly layer: Layer;
  readonly when: Condition;
  readonly ratings: Partial<Readonly<Record<Device, Rating>>>;
  /** The rule only says "at least so": it lifts a device and never lowers one that stands better already. */
  readonly atLeast?: true;
  /** The rule only says "at most so": it lowers a device that stands better and never brings one in. */
  readonly atMost?: true;
  /** Fewest lumens the rule's source speaks of; a drug chart beats it. */
  readonly lumens?: number;
}

export interface DeviceLimits {
  /** Last day of the short, middle and long band. */
  readonly adultBandEnds: readonly [number, number, number];
  /** Last day of the short and middle band; the children's panel draws no line after that. */
  readonly childBandEnds: readonly [number, number];
  /** Blood drawn at least every so many hours is often. */
  readonly oftenEveryHours: number;
  /** Ages at which pregnancy is asked. */
  readonly pregnancyFromYears: number;
  readonly pregnancyToYears: number;
  /** More admissions a year than this are many. */
  readonly fewAdmissions: number;
}

export interface DevicePolicy {
  readonly rules: readonly DeviceRule[];
  readonly limits: DeviceLimits;
}
