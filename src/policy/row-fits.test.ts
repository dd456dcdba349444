import { expect, test } from "vitest";
import { defaultPolicyTable, rowFits } from "./index.ts";

const owned = { howKnown: "local", owner: "Line lead", date: "2026-11-25" };

test("every default row fits its own table", () => {
  for (const [key, row] of Object.entries(defaultPolicyTable)) expect(rowFits(key, row), key).toBe(true);
});

test("a row needs an owner, a real date and a known way of knowing", () => {
  expect(rowFits("ratio.limit", { ...owned, value: 0.4 })).toBe(true);
  expect(rowFits("ratio.limit", { ...owned, value: 0.4, owner: " " })).toBe(false);
  expect(rowFits("ratio.limit", { ...owned, value: 0.4, date: "y" })).toBe(false);
  expect(rowFits("ratio.limit", { ...owned, value: 0.4, howKnown: { a: 1 } })).toBe(false);
});

test("numbers stay in range, lists stay lists of the same kind, and strengths stay strengths", () => {
  for (const value of [1.2, Number.NaN, "0.4", null])
    expect(rowFits("ratio.limit", { ...owned, value }), String(value)).toBe(false);
  for (const value of [[150], [0], [], ["x", null], 45])
    expect(rowFits("needle.angles", { ...owned, value }), JSON.stringify(value)).toBe(false);
  expect(rowFits("needle.angles", { ...owned, value: [40, 50] })).toBe(true);
  expect(rowFits("vein.order", { ...owned, value: [{ a: 1 }] })).toBe(false);
  expect(
    rowFits("vein.order", { ...owned, value: ["cephalic", "basilic", "brachial", "second brachial", "axillary"] }),
  ).toBe(true);
  expect(rowFits("arm-bar.pacemaker", { ...owned, value: "sometimes" })).toBe(false);
  expect(rowFits("arm-bar.pacemaker", { ...owned, value: "bar" })).toBe(true);
});

test("a key of every object is no row of the table", () => {
  for (const key of ["constructor", "__proto__", "toString", "no.such-row"])
    expect(rowFits(key, { ...owned, value: 1 }), key).toBe(false);
});
