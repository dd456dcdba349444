import { describe, expect, test } from "vitest";
import { missing } from "../../core/missing/index.ts";
import { centimetre } from "../../core/quantity/index.ts";
import { correctFilm, TIP_PLACES, type FilmReading } from "../../core/tip/index.ts";
import { defaultPolicyTable, tipPolicyFrom } from "../../policy/index.ts";
import { tipPlateFromFilm } from "./index.ts";

const policy = tipPolicyFrom(defaultPolicyTable);
const film: FilmReading = {
  place: "right atrium",
  filmCm: centimetre(7.3),
  magnification: 1.12,
  unitOnFilmCm: missing("not measured"),
  ageYears: 60,
  arm: "at the side",
  armConfirmedBy: "",
  outsideCm: centimetre(0.5),
  insideCm: centimetre(43.5),
  symptoms: true,
};
const drawn = (change: Partial<FilmReading> = {}, side: "right" | "left" = "right", narrow = false) => {
  const reading = { ...film, ...change };
  const answer = correctFilm(reading, policy);
  const figure = tipPlateFromFilm({ id: "t", side, place: reading.place, answer, grey: true, narrow }, policy);
  if (!figure) throw new Error("nothing drawn");
  return figure;
};
const words = (svg: string) => [...svg.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(([, text]) => String(text));
const number = (svg: string, pattern: RegExp) => Number(pattern.exec(svg)?.[1]);

describe("what is drawn is what is computed", () => {
  test("the tip stands at its depth and the arrow is as long as the withdrawal: 7.3 / 1.12 less 4.03, by hand", () => {
    const { svg, sentence } = drawn();
    const [zero, perCm] = [number(svg, /data-carina-y="([\d.]+)"/), number(svg, /data-per-cm="([\d.]+)"/)];
    const tipY = number(svg, /<circle cx="[\d.]+" cy="([\d.]+)"[^>]*data-part="tip"/);
    const afterY = number(svg, /<circle cx="[\d.]+" cy="([\d.]+)"[^>]*data-part="after"/);
    expect((tipY - zero) / perCm).toBeCloseTo(6.518, 2);
    expect((tipY - afterY) / perCm).toBeCloseTo(2.488, 2);
    expect(sentence).toContain("Read back.");
  });

  test("an arm away, an unknown arm or a refused length leaves the place and not one digit", () => {
    const none: Partial<FilmReading>[] = [
      { arm: "away from the body" },
      { arm: missing("not known") },
      { outsideCm: missing("refused") },
    ];
    for (const change of none) {
      const { svg, sentence, table } = drawn(change);
      expect([...words(svg), sentence, ...table.rows.flat()].join(" ").replaceAll("&#39;", "")).not.toMatch(/\d/);
      expect(svg).not.toContain('data-part="withdrawal"');
    }
  });
});

test("every place has its picture in words without a digit, inside the plate, at either width", () => {
  for (const place of TIP_PLACES)
    for (const side of ["right", "left"] as const)
      for (const narrow of [false, true]) {
        const figure = tipPlateFromFilm({ id: "t", side, place, answer: undefined, grey: true, narrow }, policy);
        const svg = figure?.svg ?? "";
        const said = words(svg).join(" ").replaceAll("&#39;", "");
        expect(said).not.toMatch(/\d/);
        expect(said).toContain(place);
        const [from = 0, , width = 0] = /viewBox="([^"]*)"/.exec(svg)?.[1]?.split(" ").map(Number) ?? [];
        const x = number(svg, /<circle cx="([-\d.]+)"[^>]*data-part="tip"/);
        expect(x > from + 8 && x < from + width - 8, `${place} ${side} at ${x}`).toBe(true);
      }
});

test("the patient's right stands on the right, and on paper there are only greys", () => {
  for (const side of ["right", "left"] as const) {
    const { svg } = drawn({}, side);
    const at = (text: string) => number(svg, new RegExp(`<text x="([\\d.]+)"[^>]*>${text}<`));
    expect(at("patient&#39;s RIGHT")).toBeGreaterThan(at("patient&#39;s LEFT"));
    expect(words(svg)).toContain(side === "right" ? "RIGHT ARM" : "LEFT ARM");
    for (const [, red, green, blue] of svg.matchAll(/#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})/g)) {
      expect(green).toBe(red);
      expect(blue).toBe(red);
    }
  }
});

test("while the sources name two arms the tip is drawn from neither, and the plate says so", () => {
  const film = { id: "t", place: "right atrium", answer: undefined, grey: true } as const;
  const differ = tipPlateFromFilm({ ...film, side: "right", sidesDiffer: true }, policy);
  const unknown = tipPlateFromFilm({ ...film, side: missing("not known") }, policy);
  expect(words(differ?.svg ?? "")).toContain("ARM NOT SETTLED");
  expect(differ?.svg.replaceAll("ARM NOT SETTLED", "ARM NOT KNOWN")).toBe(unknown?.svg);
  expect(differ?.svg).not.toBe(tipPlateFromFilm({ ...film, side: "right" }, policy)?.svg);
});

test("a place nobody read draws nothing", () => {
  const place = missing("not known");
  expect(tipPlateFromFilm({ id: "t", side: "right", place, answer: undefined }, policy)).toBeUndefined();
});
