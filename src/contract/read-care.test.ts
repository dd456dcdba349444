import { expect, test } from "vitest";
import { readCultureText, readDueText, readPatencyText } from "./index.ts";

const faultsOf = (reading: { readonly kind: string; readonly faults?: readonly { path: string; code: string }[] }) =>
  (reading.faults ?? []).map(({ path, code }) => `${path} ${code}`).sort();

test("a due file: every fault at once, each moment that does not exist and each care after the question", () => {
  const reading = readDueText(
    JSON.stringify({
      asOf: "2025-08-08T12:00+02:00",
      holidays: ["2025-02-30"],
      lines: [
        { name: "a", setting: "ward", dressing: { type: "transparent", doneAt: "2025-08-09T12:00+02:00" } },
        { name: "a ", setting: "home", reviewedAt: "2025-08-01T25:00Z", nextOn: "2025-13-01" },
      ],
    }),
  );
  expect(faultsOf(reading)).toEqual([
    "holidays.0 no-such-date",
    "lines.0.dressing.doneAt out-of-order",
    "lines.1.name twice",
    "lines.1.nextOn no-such-date",
    "lines.1.reviewedAt no-such-date",
  ]);
});

test("what nobody filled in is not asked; a place of digits stays a place", () => {
  const reading = readDueText(
    JSON.stringify({ asOf: "2025-08-08T12:00Z", lines: [{ name: "7", setting: "ward", person: " ", place: "12" }] }),
  );
  expect(reading).toMatchObject({
    kind: "read",
    data: {
      lines: [{ care: { id: "7", place: "12", person: { missing: "not asked" }, dressing: { missing: "not asked" } } }],
    },
  });
});

test("a patency file: doses in order, unknown words named", () => {
  const doses = [{ at: "2025-06-03T11:00Z" }, { at: "2025-06-03T10:00Z" }];
  expect(faultsOf(readPatencyText(JSON.stringify({ asOf: "2025-06-03T12:00Z", lytic: doses })))).toEqual([
    "lytic.1.at out-of-order",
  ]);
  expect(faultsOf(readPatencyText('{"asOf": "2025-06-03T12:00Z", "flushes": "badly"}'))).toEqual([
    "flushes not-in-list",
  ]);
  expect(
    readPatencyText('{"asOf": "2025-06-03T12:00Z", "weightKg": "12,5", "flushes": {"missing": "refused"}}'),
  ).toMatchObject({
    data: { answers: { weightKg: 12.5, flushes: { missing: "refused" }, mechanical: {} } },
  });
});

test("a culture file: a lumen has its name, loading follows the draw, no growth is no moment", () => {
  const bottle = { id: "a", site: "lumen", drawnAt: "2025-06-03T10:00Z", loadedAt: "2025-06-03T09:00Z" };
  expect(faultsOf(readCultureText(JSON.stringify({ bottles: [bottle] })))).toEqual([
    "bottles.0.loadedAt out-of-order",
    "bottles.0.lumen missing-field",
  ]);
  const grown = { ...bottle, lumen: "2", loadedAt: "2025-06-03T10:10Z", flaggedAt: "none" };
  expect(readCultureText(JSON.stringify({ bottles: [grown] }))).toMatchObject({
    data: { bottles: [{ site: { kind: "lumen", lumen: "2" }, flaggedAt: "none", organism: { missing: "not asked" } }] },
  });
});
