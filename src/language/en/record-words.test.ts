import { expect, test } from "vitest";
import { eventCatalogue, type Field } from "../../register/index.ts";
import { namedFields, sayField } from "./record-words.ts";

const fieldNames = (fields: Readonly<Record<string, Field>>): string[] =>
  Object.entries(fields).flatMap(([key, field]) => [key, ...(field.kind === "rows" ? fieldNames(field.fields) : [])]);

test("every field that can be asked has a name a person would say, and no name stands for nothing", () => {
  const asked = new Set(Object.values(eventCatalogue).flatMap((types) => Object.values(types).flatMap(fieldNames)));
  expect([...asked].filter((field) => !namedFields.includes(field))).toEqual([]);
  const unused = namedFields.filter((field) => !asked.has(field) && !["event", "field"].includes(field));
  expect(unused).toEqual([]);
  expect(sayField("outsideCm")).toBe("Outside length");
});
