import type { Figure, MonthPack } from "../../audit/index.ts";
import { funnelCell, packWords, splitCell } from "../../language/index.ts";
import type { Block } from "../line/index.ts";

const SPLITS = ["size", "lumens", "third", "ratio band", "vein", "side", "attempts"] as const;
const COLUMNS = ["infection-clinical", "thrombosis", "occlusion", "first-attempt", "short-stay"] as const;
/** As many wards as leave the page one page; the rest is told by its number. */
const MOST_WARDS = 14;

/** Page 3: the year split by ward against its limits, and by what was placed. */
export function whereBlocks(pack: MonthPack): readonly Block[] {
  const { year, funnels } = pack;
  const wards = [...new Set(funnels.flatMap(({ units }) => units.map(({ ward }) => ward)))];
  const unitOf = (measure: string, ward: string) =>
    funnels.find((funnel) => funnel.measure === measure)?.units.find((unit) => unit.ward === ward);
  const idle = year.figures.find(({ measure, stratum }) => measure === "idle-days" && stratum === undefined);
  return [
    { kind: "soft", text: packWords.year(pack) },
    { kind: "heading", text: packWords.funnel },
    {
      kind: "table",
      head: packWords.funnelHead,
      shares: [1, 2, 2, 2],
      tight: true,
      rows: wards.slice(0, MOST_WARDS).map((ward) => [
        ward,
        ...COLUMNS.slice(0, 3).map((measure) => {
          const unit = unitOf(measure, ward);
          return unit ? funnelCell(unit) : "none";
        }),
      ]),
    },
    ...(wards.length > MOST_WARDS ? [{ kind: "soft", text: packWords.more(wards.length - MOST_WARDS) } as const] : []),
    { kind: "heading", text: packWords.split },
    {
      kind: "table",
      head: packWords.splitHead,
      shares: [1.1, 2.1, 1.5, 1.3, 1.3, 1.3, 1.3],
      tight: true,
      grouped: true,
      rows: splitRows(year.figures),
    },
    ...(idle && (idle.denominator ?? 0) > 0 ? [{ kind: "say", text: packWords.idle(idle) } as const] : []),
  ];
}

/** What is known stands in the order of the arm or of size; what is not, last. */
const ORDER: readonly string[] = ["lower third", "lower half of the middle third", "preferred half", "upper third"];
const rankOf = (value: string): number =>
  value === "not known" ? 99 : value.startsWith("up to") ? -1 : value.startsWith("over") ? 9 : 1 + ORDER.indexOf(value);

/** A row for each value; the name of the split stands on its first row alone. */
function splitRows(figures: readonly Figure[]): readonly (readonly string[])[] {
  return SPLITS.flatMap((by) => {
    const own = figures.filter(({ stratum }) => stratum?.by === by);
    const values = [...new Set(own.map(({ stratum }) => stratum?.value ?? ""))];
    return [...values]
      .sort((a, b) => rankOf(a) - rankOf(b))
      .map((value, at) => [
        at === 0 ? packWords.splitNames[by] : "",
        value,
        ...COLUMNS.map((measure) =>
          splitCell(own.find((figure) => figure.measure === measure && figure.stratum?.value === value)),
        ),
      ]);
  });
}
