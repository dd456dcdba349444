import { describe, expect, test } from "vitest";
import { canonicalJson } from "./canonical-json.ts";

// RFC 8785, section 3.2.2 (serialisation), 3.2.3 (order of keys) and appendix B (numbers).
describe("canonical JSON", () => {
  test("the example of section 3.2.2 and 3.2.4", () => {
    const value = {
      numbers: [Number("333333333.33333329"), 1e30, 4.5, 2e-3, 0.000_000_000_000_000_000_000_000_001],
      string: '€$\u000f\nA\'B"\\\\"/',
      literals: [null, true, false],
    };
    expect(canonicalJson(value)).toBe(
      '{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],' +
        '"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}',
    );
  });

  test("keys stand in the order of their UTF-16 code units, section 3.2.3", () => {
    const value = {
      "€": "Euro Sign",
      "\r": "Carriage Return",
      "\ufb33": "Hebrew Letter Dalet With Dagesh",
      1: "One",
      "😀": "Emoji: Grinning Face",
      "\u0080": "Control",
      ö: "Latin Small Letter O With Diaeresis",
    };
    const order = [...canonicalJson(value).matchAll(/:"([^"]*)"/g)].map((found) => found[1]);
    expect(order).toEqual([
      "Carriage Return",
      "One",
      "Control",
      "Latin Small Letter O With Diaeresis",
      "Euro Sign",
      "Emoji: Grinning Face",
      "Hebrew Letter Dalet With Dagesh",
    ]);
  });

  test.each([
    [-0, "0"],
    [5e-324, "5e-324"],
    [1.797_693_134_862_315_7e308, "1.7976931348623157e+308"],
    [9_007_199_254_740_992, "9007199254740992"],
    [295_147_905_179_352_830_000, "295147905179352830000"],
    [1e21, "1e+21"],
    [999_999_999_999_999_900_000, "999999999999999900000"],
    [1e-7, "1e-7"],
    [0.000_001, "0.000001"],
  ])("appendix B: %d is %s", (number, text) => expect(canonicalJson(number)).toBe(text));

  test.each([[Number.NaN], [Infinity], ["\ud83d"], [undefined], [() => 1]])("%s has no canonical form", (value) => {
    expect(() => canonicalJson(value)).toThrow(RangeError);
  });
});
