import { describe, expect, test } from "vitest";
import { runCommandLine } from "../../src/cli/run.ts";
import { commandDesk, samplesOf } from "../command-desk.ts";

const sample = samplesOf("read-a-film");
const call = (words: string[], file: unknown = {}) => runCommandLine(words, commandDesk(JSON.stringify(file)));
const said = (output: string) => output.replaceAll("\u202f", " ");

describe("film", () => {
  test("7.3 cm at 1.12, target 4.03: three numbers and a read-back, with the spread in print", async () => {
    const { exit, output } = await call(["film", "-"], sample("film"));
    expect(exit).toBe(0);
    expect(said(output)).toContain(
      "Withdraw by 2.5 cm. Outside length will be 3.0 cm. Inside will be 41.0 cm. Read back.",
    );
    expect(said(output)).toContain("5.43 cm, SD 0.97: Song 2015");
  });

  test("arm away asks, a tip outside the cava is refused, readers 3 cm apart are refused: no number", async () => {
    const film = sample("film");
    for (const [more, exit] of [
      [{ arm: "away from the body" }, 2],
      [{ place: "neck vein" }, 3],
      [{ secondFilmCm: 4.3 }, 3],
    ] as const) {
      const answer = await call(["film", "-"], { ...film, ...more });
      expect(answer.exit).toBe(exit);
      expect(answer.output).not.toContain("Withdraw by");
    }
    // 25 films, 23 radiologists, PMC5124912: 2 cm apart is within print; 5.3 / 1.12 less 4.03, by hand
    const two = await call(["film", "-", "--json"], { ...film, secondFilmCm: 5.3 });
    expect((JSON.parse(two.output) as { withdrawCm: number }).withdrawCm).toBeCloseTo(0.702, 3);
  });

  test("every fault of a file at once", async () => {
    const answer = await call(["film", "-"], { place: "ear", filmCm: 99, more: 1 });
    expect(answer.exit).toBe(65);
    expect(answer.output).toContain("3 faults");
  });
});

describe("tip", () => {
  test("out from 2 to 5 cm from the junction: mid cava, image first, hold, never confirmed", async () => {
    const { exit, output } = await call(["tip", "-"], sample("tip"));
    expect(exit).toBe(3);
    for (const part of ["at most 1.0 cm below", "middle of the cava", "2.5 to 4.4 cm short", "Image first.", "Hold:"])
      expect(said(output)).toContain(part);
    expect(output).toContain("not confirmed");
    // Forauer 2000: 21 mm, 2 to 53
    expect(said(output)).toContain("expect 2.1 cm deeper (0.2 to 5.3)");
  });

  test("a newborn's cephalic tip goes out as the arm comes in (Nadroo 2002); an empty file is a fault", async () => {
    const age = { value: 5, unit: "days" };
    const arm = { vein: "cephalic", broughtInDegree: 90 };
    expect((await call(["tip", "-"], { age, bornPreterm: false, arm })).output).toContain("the tip moves out");
    expect((await call(["tip", "-"], { age })).exit).toBe(65);
  });
});
