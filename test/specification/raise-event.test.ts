import { describe, expect, test } from "vitest";
import { raiseEvent, type RaiseTable } from "../../src/register/index.ts";
import { inventedEvent } from "../store-contract/invented-event.ts";

// Two invented shapes of the past: shape 1 wrote a length in centimetres, shape 2 in millimetres without its origin.
const table: RaiseTable = {
  LineCared: {
    1: ({ says, ...rest }) => ({ ...rest, lengthMm: Number(says) * 10 }),
    2: ({ lengthMm, ...rest }) => ({ ...rest, length: { mm: lengthMm ?? null, origin: "not asked" } }),
  },
};

describe("an event written in a shape of the past", () => {
  const written = inventedEvent("line:a", "e1", 4);

  test("is read in the shape of today, one step after the other", () => {
    const read = raiseEvent(written, table);
    expect(read.shape).toBe(3);
    expect(read.data).toMatchObject({ length: { mm: 40, origin: "not asked" } });
    expect(read.data).not.toHaveProperty("says");
  });

  test("keeps who, when and the seal of what was written", () => {
    const { shape: _shape, data: _data, ...stamp } = written;
    expect(raiseEvent(written, table)).toMatchObject(stamp);
    expect(written.data).toMatchObject({ says: 4 });
  });

  test("stays as it is when its shape is today's, or when the type never had another", () => {
    expect(raiseEvent({ ...written, shape: 3 }, table)).toMatchObject({ shape: 3, data: written.data });
    expect(raiseEvent({ ...written, type: "constructor" }, table)).toMatchObject({ shape: 1, data: written.data });
    expect(raiseEvent(written)).toBe(written);
  });
});
