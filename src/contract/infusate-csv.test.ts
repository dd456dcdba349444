import { expect, test } from "vitest";
import { readInfusateCsv } from "./infusate-csv.ts";

const good = `name;osmolarity;pH;class;disputed;against cancer;nutrition;source
"ceftriaxone; 2 g";360,5;6.6;neither;no;no;no;our pharmacy
mitoxantrone;300;;vesicant;yes;yes;;our pharmacy`;

test("a list with semicolons, decimal commas and a quoted name is read whole", () => {
  const reading = readInfusateCsv(good);
  if (reading.kind === "faults") throw new Error(JSON.stringify(reading.faults));
  expect(reading.infusates.map(({ name, osmolarity, tissueClass }) => [name, osmolarity, tissueClass])).toEqual([
    ["ceftriaxone; 2 g", 360.5, "neither"],
    ["mitoxantrone", 300, "vesicant"],
  ]);
  expect(reading.infusates[1]).toMatchObject({
    classDisputed: true,
    againstCancer: true,
    ph: { missing: "not known" },
  });
});

test("every fault is named with its row, and nothing is taken", () => {
  const reading = readInfusateCsv(
    "name,osmolarity,ph,class\na,1.234,6,neither\na,6000,6,poison\n,300,sour,neither\nb,300,6,neither,extra",
  );
  if (reading.kind === "list") throw new Error("taken");
  expect(reading.faults.map(({ path, code }) => `${path}: ${code}`)).toEqual(["row 5: wrong-type"]);
  const whole = readInfusateCsv("name,osmolarity,ph,class\na,1.234,6,neither\na,6000,6,poison\n,300,sour,neither");
  if (whole.kind === "list") throw new Error("taken");
  expect(whole.faults.map(({ path, code }) => `${path}: ${code}`)).toEqual([
    "row 2, osmolarity: thousands-separator",
    "row 3, name: twice",
    "row 3, class: not-in-list",
    "row 3, osmolarity: out-of-range",
    "row 4, name: missing-field",
    "row 4, ph: wrong-type",
  ]);
});

test("a column nobody knows, a missing one and an empty file are faults of the first rows", () => {
  const codes = (text: string) => {
    const reading = readInfusateCsv(text);
    return reading.kind === "faults" ? reading.faults.map(({ code, found }) => `${code} ${found}`) : [];
  };
  expect(codes("name,class,colour\na,neither,x")).toEqual(["unknown-field colour"]);
  expect(codes("name\na")).toContain("missing-field class");
  expect(codes("")).toContain("missing-field no row");
  expect(codes("name,class\n")).toEqual(["header-alone name, class"]);
  expect(codes(`name,class\n${"x".repeat(1_000_001)},neither`)).toEqual(["too-large 1000020 characters"]);
});
