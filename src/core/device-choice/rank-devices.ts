import type { AgeGroup } from "../age/index.ts";
import { DEVICES, isOffered, ratingRank, type Device, type Rating } from "./device.ts";
import { LAYERS, type DevicePolicy, type DeviceRule } from "./device-rule.ts";
import { holds, type Facts } from "./fact.ts";

/** One device with its rating and the rules that gave it, the deciding one first. */
export interface RankedDevice {
  readonly device: Device;
  readonly rating: Rating;
  readonly rules: readonly string[];
}

/**
 * Every device that a rule rates, best first. A later layer outranks an earlier one for the devices it rates; within a
 * layer the less favourable rating holds. Equal ratings stand in the order of the list of devices, least invasive first.
 */
export function rankDevices(facts: Facts, group: AgeGroup, policy: DevicePolicy): readonly RankedDevice[] {
  const matching = policy.rules.filter((rule) => rule.groups.includes(group) && holds(rule.when, facts));
  const ranked: RankedDevice[] = [];
  for (const device of DEVICES) {
    const rated = ratingOf(device, matching);
    if (rated) ranked.push(rated);
  }
  return ranked.sort((a, b) => ratingRank(a.rating) - ratingRank(b.rating));
}

function ratingOf(device: Device, matching: readonly DeviceRule[]): RankedDevice | undefined {
  let held: { rating: Rating; rules: string[] } | undefined;
  for (const layer of LAYERS) {
    let ofLayer: { rating: Rating; rules: string[] } | undefined;
    for (const rule of matching) {
      const rating = rule.layer === layer ? rule.ratings[device] : undefined;
      if (!rating) continue;
      if (!ofLayer || ratingRank(rating) > ratingRank(ofLayer.rating)) {
        ofLayer = { rating, rules: [rule.id, ...(ofLayer?.rules ?? [])] };
      } else ofLayer.rules.push(rule.id);
    }
    if (ofLayer) held = { rating: ofLayer.rating, rules: [...ofLayer.rules, ...(held?.rules ?? [])] };
  }
  return held && { device, ...held };
}

/** The device the rules put first, or undefined where none may be offered. */
export function firstOf(ranked: readonly RankedDevice[]): RankedDevice | undefined {
  const [best] = ranked;
  return best && isOffered(best.rating) ? best : undefined;
}

/** Largest lumen number that a matching rule's source speaks of; undefined where none does. */
export function lumensByRule(facts: Facts, group: AgeGroup, policy: DevicePolicy): number | undefined {
  const numbers = policy.rules
    .filter((rule) => rule.groups.includes(group) && holds(rule.when, facts))
    .flatMap(({ lumens }) => (lumens === undefined ? [] : [lumens]));
  return numbers.length > 0 ? Math.max(...numbers) : undefined;
}
