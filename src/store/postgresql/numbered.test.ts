import { expect, test } from "vitest";
import { numbered } from "./numbered.ts";

// PostgreSQL's manual, "Positional Parameters" and "String Constants" (a quote inside is written twice).
test("question marks are numbered, those in quotes are kept", () => {
  expect(numbered("SELECT a FROM t WHERE a = ? AND b IN (?, ?)")).toBe(
    "SELECT a FROM t WHERE a = $1 AND b IN ($2, $3)",
  );
  expect(numbered("SELECT 'why? it''s?' WHERE a = ?")).toBe("SELECT 'why? it''s?' WHERE a = $1");
});
