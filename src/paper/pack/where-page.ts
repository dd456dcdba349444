import type { Figure, MonthPack, StratumName } from "../../audit/index.ts";
import { cutShort, packWords, partGuardLines, splitCell, wardCell } from "../../language/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import type { Block } from "../line/index.ts";
import type { Room } from "./room.ts";

const SPLITS = ["size", "lumens", "third", "ratio band", "vein", "side", "attempts"] as const;
const COLUMNS = ["infection-clinical", "thrombosis", "occlusion", "first-attempt", "short-stay"] as const;
/** Page 3: the year split by ward against its limits, and by what was placed. */
export function whereBlocks(pack: MonthPack, { funnelLeast }: CountLimits, room: Room): readonly Block[] {
  const { year, funnels, guards } = pack;
  const idle = year.figures.find(({ measure, stratum }) => measure === "idle-days" && stratum === undefined);
  const warned = new Set(guards.parts.map(({ measure, by, value }) => `${measure} ${by} ${value}`));
  /** A star where a warning under the tables speaks of this cell. */
  const starred: Starred = (measure, by, value) => (warned.has(`${measure} ${by} ${value}`) ? " *" : "");
  const wards = year.figures.filter(({ stratum }) => stratum?.by === "ward");
  const names = [...new Set(wards.map(({ stratum }) => stratum?.value ?? ""))];
  const { shown, left, leftOutside } = wardsFor(names, wards, funnels, room.wards);
  return [
    { kind: "soft", text: [packWords.year(pack), packWords.limits].join(" ") },
    { kind: "heading", text: packWords.funnel },
    {
      kind: "table",
      head: packWords.funnelHead,
      shares: [shown.some((ward) => ward.length > LONG_NAME) ? 2.6 : 1.2, 2, 2, 2],
      tight: true,
      rows: shown.map((ward) => [
        cutShort(ward, room.signs),
        ...COLUMNS.slice(0, 3).map((measure) => {
          const own = wards.find((figure) => figure.measure === measure && figure.stratum?.value === ward);
          const point = funnels.find((funnel) => funnel.measure === measure)?.wards.find((unit) => unit.ward === ward);
          return wardCell(own, point, starred(measure, "ward", ward));
        }),
      ]),
    },
    ...(left > 0 ? [{ kind: "soft", text: packWords.moreWards(left, leftOutside) } as const] : []),
    { kind: "soft", text: packWords.funnelFoot(funnels, funnelLeast) },
    { kind: "heading", text: packWords.split },
    {
      kind: "table",
      head: packWords.splitHead,
      shares: [0.9, 1.45, 1.8, 1.8, 1.8, 1.85, 1.85],
      tight: true,
      grouped: true,
      rows: splitRows(year.figures, starred),
    },
    ...partGuardLines(guards.parts, room.guards).map((text) => ({ kind: "soft", text }) as const),
    ...(idle && (idle.denominator ?? 0) > 0 ? [{ kind: "say", text: packWords.idle(idle) } as const] : []),
  ];
}

/** Longer names take a wider column, so that they take fewer lines. */
const LONG_NAME = 20;

type Starred = (measure: string, by: StratumName, value: string) => string;

/** Where not all wards have room, those outside what chance allows stand first, then those with the most days. */
function wardsFor(
  names: readonly string[],
  figures: readonly Figure[],
  funnels: MonthPack["funnels"],
  most: number,
): { readonly shown: readonly string[]; readonly left: number; readonly leftOutside: number } {
  const daysOf = (ward: string): number =>
    Math.max(0, ...figures.flatMap(({ stratum, denominator = 0 }) => (stratum?.value === ward ? [denominator] : [])));
  const outside = (ward: string): boolean =>
    funnels.some(({ wards }) => wards.some((unit) => unit.ward === ward && unit.stands !== "within"));
  const first = [...names].sort((a, b) => Number(outside(b)) - Number(outside(a)) || daysOf(b) - daysOf(a));
  const kept = new Set(first.slice(0, most));
  return {
    shown: names.filter((name) => kept.has(name)),
    left: names.length - kept.size,
    leftOutside: names.filter((name) => !kept.has(name) && outside(name)).length,
  };
}

/** What is known stands in the order of the arm or of size; what is not, last. */
const ORDER: readonly string[] = ["lower third", "lower half of the middle third", "preferred half", "upper third"];
const rankOf = (value: string): number =>
  value === "not known" ? 99 : value.startsWith("up to") ? -1 : value.startsWith("over") ? 9 : 1 + ORDER.indexOf(value);

/** A row for each value; the name of the split stands on its first row alone. */
function splitRows(figures: readonly Figure[], starred: Starred): readonly (readonly string[])[] {
  return SPLITS.flatMap((by) => {
    const own = figures.filter(({ stratum }) => stratum?.by === by);
    const values = [...new Set(own.map(({ stratum }) => stratum?.value ?? ""))];
    return [...values]
      .sort((a, b) => rankOf(a) - rankOf(b))
      .map((value, at) => [
        at === 0 ? packWords.splitNames[by] : "",
        value,
        ...COLUMNS.map((measure) => {
          const figure = own.find((one) => one.measure === measure && one.stratum?.value === value);
          return splitCell(figure, starred(measure, by, value));
        }),
      ]);
  });
}
