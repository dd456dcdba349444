import type { Draft } from "./draft.ts";

/** The chart a draft stands for, as CHART.json, and where each of its fields was typed; undefined while none was. */
export interface ChartOfDraft {
  readonly json: unknown;
  readonly typedPath: (path: string) => string;
}

const ROW = /^chart\.rows\.(\d+)\.name$/;

/**
 * Rows with a name become infusions; "mixes with" names of other rows become compatible pairs. Empty fields are left
 * out; text that is no number stays text, and the reader of the chart says so.
 */
export function chartFromDraft(draft: Draft): ChartOfDraft | undefined {
  const rows = Object.keys(draft)
    .flatMap((path) => {
      const [, index] = ROW.exec(path) ?? [];
      return index !== undefined && (draft[path] ?? "").trim() !== "" ? [Number(index)] : [];
    })
    .sort((a, b) => a - b);
  if (rows.length === 0) return undefined;
  const cell = (row: number, field: string) => (draft[`chart.rows.${row}.${field}`] ?? "").trim();
  const filled = (value: string) => (value === "" ? undefined : value);
  const infusions = rows.map((row) =>
    withoutEmpty({
      name: cell(row, "name"),
      times: cell(row, "times"),
      runMinutes: filled(cell(row, "run")),
      flushAfterMinutes: filled(cell(row, "flush")),
      moveMinutes: filled(cell(row, "move")),
      rateMlPerHour: filled(cell(row, "rate")),
      content: filled(cell(row, "content")),
      peripheral: flagOf(cell(row, "peripheral")),
      oralForm: flagOf(cell(row, "oralForm")),
    }),
  );
  const names = new Set(rows.map((row) => cell(row, "name")));
  const together = rows.flatMap((row) =>
    cell(row, "mixes")
      .split(/[,;]/)
      .map((name) => name.trim())
      .filter((name) => names.has(name) && name !== cell(row, "name"))
      .map((name) => [cell(row, "name"), name].sort()),
  );
  const pairs = [...new Map(together.map((pair) => [pair.join("\n"), pair])).values()];
  return {
    json: { infusions, together: pairs.map((pair) => [...pair, "compatible"]) },
    typedPath: (path) => typedPath(path, rows),
  };
}

const flagOf = (text: string): boolean | undefined => (text === "yes" ? true : text === "no" ? false : undefined);

const withoutEmpty = (row: Readonly<Record<string, unknown>>): unknown =>
  Object.fromEntries(Object.entries(row).filter(([, value]) => value !== undefined));

const TYPED: Readonly<Record<string, string>> = {
  runMinutes: "run",
  flushAfterMinutes: "flush",
  moveMinutes: "move",
  rateMlPerHour: "rate",
};

function typedPath(path: string, rows: readonly number[]): string {
  const [, index, field = ""] = /^infusions\.(\d+)\.(\w+)$/.exec(path) ?? [];
  return index === undefined
    ? "chart.rows.0.name"
    : `chart.rows.${rows[Number(index)] ?? index}.${TYPED[field] ?? field}`;
}
