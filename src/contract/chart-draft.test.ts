import { expect, test } from "vitest";
import { chartFromDraft } from "./chart-draft.ts";
import { readChart } from "./read-chart.ts";

test("rows with a name become infusions, and what mixes becomes a pair once", () => {
  const draft = chartFromDraft({
    "chart.rows.0.name": "A",
    "chart.rows.0.times": "06:00",
    "chart.rows.0.run": "60",
    "chart.rows.0.mixes": "B, C",
    "chart.rows.2.name": "B",
    "chart.rows.2.times": "06:30",
    "chart.rows.2.run": "45,5",
    "chart.rows.2.mixes": "A",
    "chart.rows.3.times": "07:00",
  });
  expect(draft?.json).toMatchObject({
    infusions: [{ name: "A" }, { name: "B" }],
    together: [["A", "B", "compatible"]],
  });
  const reading = readChart(draft?.json, 0.25);
  const faults = reading.kind === "faults" ? reading.faults : [];
  expect(faults.map(({ path }) => draft?.typedPath(path))).toEqual(["chart.rows.2.run"]);
  expect(chartFromDraft({ "chart.use": "charted" })).toBeUndefined();
});
