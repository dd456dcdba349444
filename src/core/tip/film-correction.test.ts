import { describe, expect, test } from "vitest";
import { defaultPolicyTable, tipPolicyFrom } from "../../policy/index.ts";
import { missing } from "../missing/index.ts";
import { centimetre } from "../quantity/index.ts";
import { correctFilm, type FilmReading } from "./index.ts";

// What a film must not be read as: common practice, no source; the arm, Forauer 2000.
const policy = tipPolicyFrom(defaultPolicyTable);
const none = missing("not known");
const film = (more: Partial<FilmReading>, by = policy) =>
  correctFilm(
    {
      place: "right atrium",
      filmCm: centimetre(7.3),
      magnification: 1.12,
      unitOnFilmCm: none,
      ageYears: 40,
      arm: "at the side",
      armConfirmedBy: "",
      outsideCm: centimetre(0.5),
      insideCm: centimetre(43.5),
      symptoms: none,
      ...more,
    },
    by,
  );
const codes = (more: Partial<FilmReading>) => film(more).findings.map(({ code }) => code);

describe("a film gives no number", () => {
  test("with the arm away, and nothing to subtract one from", () => {
    const away = film({ arm: "away from the body" });
    expect(away).toMatchObject({ kind: "no number", targets: [] });
    expect(away).not.toHaveProperty("trueDepthCm");
    expect(film({ arm: none }).kind).toBe("no number");
    expect(film({ arm: none, armConfirmedBy: "M. Kolm" }).kind).toBe("withdraw");
    expect(film({ arm: "away from the body", armConfirmedBy: "M. Kolm" }).kind).toBe("no number");
  });

  test("while a current length is missing: it is asked for", () => {
    expect(codes({ outsideCm: none })).toContain("film-outside-missing");
    expect(codes({ insideCm: none })).toContain("film-inside-missing");
  });

  test("of a child without a vertebra's length: that is asked for, and the policy is not blamed", () => {
    expect(codes({ ageYears: 6 })).toContain("film-unit-missing");
    expect(codes({ ageYears: none })).toContain("film-age-missing");
  });

  test("for a tip outside the cava", () => {
    expect(film({ place: "azygos vein" })).toMatchObject({ kind: "picture", place: "azygos vein" });
  });
});

test("a tip no deeper than the target is left where it is", () => {
  expect(film({ filmCm: centimetre(4) }).kind).toBe("leave");
  expect(film({ filmCm: centimetre(-2) }).kind).toBe("leave");
});

test("with more series enabled the least of their withdrawals is asked for", () => {
  const wide = { ...policy, enabled: ["Mahlon 2007", "Song 2015"] };
  const answer = film({}, wide);
  // 6.518 less 5.43 and not less 4.03
  expect(answer.kind === "withdraw" ? answer.withdrawCm : Number.NaN).toBeCloseTo(1.088, 3);
});
