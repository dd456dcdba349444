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

interface Held {
  readonly rating: Rating;
  readonly rules: readonly string[];
}

function ratingOf(device: Device, matching: readonly DeviceRule[]): RankedDevice | undefined {
  let held: Held | undefined;
  for (const layer of LAYERS) {
    const ofLayer = matching.filter((rule) => rule.layer === layer && rule.ratings[device] !== undefined);
    held = worstOf(
      device,
      ofLayer.filter(({ atLeast, atMost }) => !atLeast && !atMost),
      held,
    );
    for (const { id, ratings } of ofLayer.filter(({ atLeast }) => atLeast)) {
      const rating = ratings[device] as Rating;
      if (!held || ratingRank(rating) <= ratingRank(held.rating))
        held = { rating, rules: [id, ...(held?.rules ?? [])] };
    }
    for (const { id, ratings } of ofLayer.filter(({ atMost }) => atMost)) {
      const rating = ratings[device] as Rating;
      if (held && ratingRank(rating) >= ratingRank(held.rating)) held = { rating, rules: [id, ...held.rules] };
    }
  }
  return held && { device, ...held };
}

/** The least favourable rating of a layer, in place of what the layers before it said. */
function worstOf(device: Device, rules: readonly DeviceRule[], before: Held | undefined): Held | undefined {
  if (rules.length === 0) return before;
  const sorted = [...rules].sort(
    (a, b) => ratingRank(b.ratings[device] as Rating) - ratingRank(a.ratings[device] as Rating),
  );
  const rating = sorted[0]?.ratings[device] as Rating;
  return { rating, rules: [...sorted.map(({ id }) => id), ...(before?.rules ?? [])] };
}

/** The devices the rules put first: one, or several that stand level; no line stands alone; empty where nothing may be offered. */
export function firstOf(ranked: readonly RankedDevice[]): readonly RankedDevice[] {
  const [best] = ranked;
  if (best?.device === "none" && isOffered(best.rating)) return [best];
  return best && isOffered(best.rating) ? ranked.filter(({ rating }) => rating === best.rating) : [];
}

/** Largest lumen number that a matching rule's source speaks of; undefined where none does. */
export function lumensByRule(facts: Facts, group: AgeGroup, policy: DevicePolicy): number | undefined {
  const numbers = policy.rules
    .filter((rule) => rule.groups.includes(group) && holds(rule.when, facts))
    .flatMap(({ lumens }) => (lumens === undefined ? [] : [lumens]));
  return numbers.length > 0 ? Math.max(...numbers) : undefined;
}
