import { describe, expect, test } from "vitest";
import { centimetre, millimetre } from "../quantity/index.ts";
import { bandAt, borderWithinTapeError, thirdsOf } from "./index.ts";

// Common practice, no source: a 21 cm arm has thirds of 7 cm and its preferred half from 10.5 to 14.
const arm = thirdsOf(centimetre(21));
const tape = millimetre(5);

describe("the thirds of a 21 cm arm", () => {
  test("meet at 7 and 14 cm, with the preferred half from 10.5", () => {
    expect([arm.middleFromCm, arm.preferredFromCm, arm.upperFromCm]).toEqual([7, 10.5, 14]);
  });

  test("are closed below and open above", () => {
    expect(bandAt(arm, centimetre(6.999))).toBe("lower third");
    expect(bandAt(arm, centimetre(7))).toBe("lower half of the middle third");
    expect(bandAt(arm, centimetre(10.5))).toBe("preferred half");
    expect(bandAt(arm, centimetre(14))).toBe("upper third");
  });

  test("a point nearer a border than the tape can tell names the border", () => {
    expect(borderWithinTapeError(arm, centimetre(7.4), tape)).toBe("lower border of the middle third");
    expect(borderWithinTapeError(arm, centimetre(14.4), tape)).toBe("upper border of the middle third");
    expect(borderWithinTapeError(arm, centimetre(7.5), tape)).toBeUndefined();
    expect(borderWithinTapeError(arm, centimetre(10.5), tape)).toBeUndefined();
  });
});
