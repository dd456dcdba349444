import { describe, expect, test } from "vitest";
import { missing } from "../missing/index.ts";
import { centimetre, type Centimetre } from "../quantity/index.ts";
import { expectedLength, refusedFormulas, type LengthInput, type SideLengthInput } from "./index.ts";

const none = missing("not asked");
const cm = (value: number | undefined) => (value === undefined ? none : centimetre(value));
const noSide: SideLengthInput = {
  tapeFromCm: none,
  surfaceTapeCm: none,
  secondTapeCm: none,
  lastGoodLengthCm: none,
  lastGoodEntryCm: none,
};
type Numbers<T> = { readonly [Key in keyof T]?: number };
const typed = (
  side: Numbers<SideLengthInput>,
  whole: Numbers<Omit<LengthInput, "sides">> = {},
  from: "right" | "left" = "right",
): LengthInput => ({
  sides: { right: noSide, left: noSide, [from]: { ...noSide, ...side } },
  clavicleCm: cm(whole.clavicleCm),
  sternumCm: cm(whole.sternumCm),
  entryToAxillaryPointCm: cm(whole.entryToAxillaryPointCm),
  creaseBelowEpicondyleCm: cm(whole.creaseBelowEpicondyleCm),
  outsideCm: none,
});
const limits = (agree: number) => ({ agreeWithinCm: centimetre(agree), carinaToJunctionCm: centimetre(4.03) });
const at = (veinEntryCm: number, side: "right" | "left" = "right") => ({ side, veinEntryCm: centimetre(veinEntryCm) });
const adult = { group: "adult", heightCm: centimetre(170) } as const;
const child = (height: number) => ({ group: "child", heightCm: centimetre(height) }) as const;
const codes = (answer: { findings: readonly { code: string }[] }) => answer.findings.map(({ code }) => code);

describe("where the tape began", () => {
  test("an entry three centimetres nearer the shoulder than the tape's mark leaves three centimetres less", () => {
    const tape = typed({ tapeFromCm: 11, surfaceTapeCm: 38, secondTapeCm: 38 });
    expect(expectedLength(tape, at(14), adult, limits(3)).fromVeinEntryCm).toBe(35);
    expect(expectedLength(tape, at(8), adult, limits(3)).fromVeinEntryCm).toBe(41);
  });

  test("a tape whose start nobody wrote down gives no length and one question", () => {
    const answer = expectedLength(typed({ surfaceTapeCm: 38, secondTapeCm: 38 }), at(12), adult, limits(3));
    expect(answer.fromVeinEntryCm).toBeUndefined();
    expect(codes(answer)).toEqual(["tape-start-missing"]);
  });
});

describe("in an adult", () => {
  test("ways that agree give their mean", () => {
    const answer = expectedLength(
      typed({ tapeFromCm: 12, surfaceTapeCm: 38, secondTapeCm: 39 }),
      at(12),
      adult,
      limits(3),
    );
    expect(answer.fromVeinEntryCm).toBe(38.5);
    expect(codes(answer)).toEqual([]);
  });

  test("ways that differ by more than the limit give no length, exactly at it they do", () => {
    const apart = (second: number) =>
      expectedLength(typed({ tapeFromCm: 12, surfaceTapeCm: 38, secondTapeCm: second }), at(12), adult, limits(3));
    expect(apart(41).fromVeinEntryCm).toBe(39.5);
    expect(apart(41.1).fromVeinEntryCm).toBeUndefined();
    expect(codes(apart(41.1))).toEqual(["lengths-disagree"]);
  });

  test("one way alone is a question, and none is another", () => {
    expect(codes(expectedLength(typed({ tapeFromCm: 12, surfaceTapeCm: 38 }), at(12), adult, limits(3)))).toEqual([
      "length-by-one-way",
    ]);
    expect(codes(expectedLength(typed({}), at(12), adult, limits(3)))).toEqual(["length-missing"]);
  });

  // By hand: 44.5 crease to carina, + 4.03 to the junction, - 12 from crease to entry: 36.53.
  test("the crease is taken off and the carina passed", () => {
    const whole = { clavicleCm: 15, sternumCm: 20, creaseBelowEpicondyleCm: 1 };
    const [way] = expectedLength(typed({}, whole), at(11), adult, limits(3)).ways;
    expect(way?.fromVeinEntryCm).toBeCloseTo(36.53, 12);
    expect(way?.target).toBe("junction of cava and atrium");
  });

  test("the last line's length shrinks as the entry moves toward the shoulder", () => {
    const last = typed({ lastGoodLengthCm: 40, lastGoodEntryCm: 10 });
    expect(expectedLength(last, at(12), adult, limits(3)).ways[0]?.fromVeinEntryCm).toBe(38);
    expect(expectedLength(last, at(9), adult, limits(3)).ways[0]?.fromVeinEntryCm).toBe(41);
  });

  test("a tape of the other arm is not used", () => {
    expect(
      codes(expectedLength(typed({ tapeFromCm: 12, surfaceTapeCm: 38 }, {}, "left"), at(12), adult, limits(3))),
    ).toEqual(["length-missing"]);
  });
});

describe("in a child", () => {
  // By hand, 100 cm tall, 4 cm to the armpit: carina at 16.03 right and 17.71 left; allowed up to 4.03 cm past it.
  const whole = { entryToAxillaryPointCm: 4 };
  const tape = (length: number) =>
    expectedLength(typed({ tapeFromCm: 6, surfaceTapeCm: length }, whole), at(6), child(100), limits(1.5));

  test("the formula to the carina checks the tape and never sets the length", () => {
    expect(tape(18).fromVeinEntryCm).toBe(18);
    expect(codes(tape(18))).toEqual([]);
    expect(tape(16.03 + 4.03 + 1.4).fromVeinEntryCm).toBeCloseTo(21.46, 9);
    expect(codes(tape(16.03 + 4.03 + 1.6))).toEqual(["length-against-formula"]);
    expect(codes(tape(16.03 - 1.4))).toEqual([]);
    expect(codes(tape(16.03 - 1.6))).toEqual(["length-against-formula"]);
  });

  test("the formula alone ends at the carina and gives no length to cut", () => {
    const answer = expectedLength(typed({}, whole), at(6), child(100), limits(1.5));
    expect(answer.fromVeinEntryCm).toBeUndefined();
    expect(codes(answer)).toEqual(["length-ends-short"]);
  });

  test("a mirrored arm differs by exactly the formula's side term, 0.020 x height - 0.32", () => {
    for (const height of [60, 75, 100, 140]) {
      const toCarina = (side: "right" | "left") =>
        expectedLength(typed({}, whole, side), at(6, side), child(height), limits(1.5)).ways[0]
          ?.fromVeinEntryCm as Centimetre;
      expect(toCarina("left") - toCarina("right")).toBeCloseTo(0.02 * height - 0.32, 12);
    }
  });

  test("a newborn is held to the newborns' formula, and not to the children's", () => {
    const newborn = { group: "newborn", heightCm: centimetre(47) } as const;
    const ways = expectedLength(
      typed({ tapeFromCm: 5, surfaceTapeCm: 12 }, { entryToAxillaryPointCm: 2.5 }),
      at(5),
      newborn,
      limits(1.5),
    );
    expect(ways.ways.map(({ way }) => way)).toEqual(["surface tape", "newborns' length formula"]);
    expect(ways.ways[1]?.fromVeinEntryCm).toBeCloseTo(11.96, 12);
    expect(ways.fromVeinEntryCm).toBe(12);
  });
});

describe("a way that does not apply", () => {
  test("says why", () => {
    const whole = { clavicleCm: 15, sternumCm: 20, creaseBelowEpicondyleCm: 1, entryToAxillaryPointCm: 4 };
    const reasons = (person: Parameters<typeof expectedLength>[2], side = {}) =>
      expectedLength(typed(side, whole), at(6), person, limits(3)).notUsed;
    expect(reasons(adult)).toEqual([{ way: "children's height formula", reason: "for-children-only" }]);
    expect(reasons(child(100))).toEqual([{ way: "adult tape formula", reason: "for-adults-only" }]);
    expect(reasons({ group: undefined, heightCm: undefined }).map(({ reason }) => reason)).toEqual([
      "for-adults-only",
      "for-children-only",
    ]);
    expect(reasons(adult, { lastGoodLengthCm: 40 })[0]).toEqual({ way: "last good line", reason: "measure-missing" });
    expect(expectedLength(typed({ lastGoodLengthCm: 2, lastGoodEntryCm: 1 }), at(6), adult, limits(3)).notUsed).toEqual(
      [{ way: "last good line", reason: "no-length-left" }],
    );
  });

  test("formulas for neck and chest lines, and those not fully printed, are on the list of refusals", () => {
    expect(refusedFormulas.map(({ reason }) => reason)).toEqual([
      "measure-not-described",
      "coefficients-not-printed",
      "for-chest-lines",
      "for-chest-lines",
      "printed-unit-impossible",
    ]);
  });
});
