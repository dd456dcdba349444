import { describe, expect, test } from "vitest";
import { type StoredEvent } from "../event/index.ts";
import { measured, type Entry } from "../field/index.ts";
import { unseenDecisions } from "./unseen-decision.ts";
import { inventedEntry, keptEntry } from "../../../test/invented-entry.ts";

let version = 0;
function stored(
  type: string,
  device: string,
  seen: number,
  at: string,
  data: Entry | object,
  id = `e${version + 1}`,
): StoredEvent {
  version += 1;
  return keptEntry(
    inventedEntry({ id, subject: "line:a", type, at: `2026-11-25T${at}Z`, device, seen, data }),
    version,
  );
}

function history(...events: readonly (() => StoredEvent)[]) {
  version = 0;
  return { subject: "line:a" as const, version: events.length, events: events.map((make) => make()) };
}

const placed = () => stored("LineInserted", "room", 0, "08:00", { arm: measured("right") });
const film = () => stored("TipRead", "room", 1, "08:30", { arm: measured("right"), tipPlace: measured("lower third") });
const moved = () => stored("CareGiven", "ward", 2, "09:00", { outsideCm: measured(3) });
const release = () =>
  stored("LineReleased", "room", 2, "09:05", {
    uses: measured(["fluids"]),
    releasedBy: measured("Ann"),
    toldTo: measured("Ben"),
  });

describe("a decision made without knowing what another device had written", () => {
  test("is listed with what was not seen, and stays", () => {
    const [marked, ...others] = unseenDecisions(history(placed, film, moved, release));
    expect(others).toEqual([]);
    expect(marked?.decision.type).toBe("LineReleased");
    expect(marked?.unseen.map(({ type }) => type)).toEqual(["CareGiven"]);
    expect(marked?.refusal).toBeUndefined();
  });

  test("says by which rule it would not be written today", () => {
    const out = () => stored("LineRemoved", "ward", 2, "09:00", { reason: measured("came out") });
    const [marked] = unseenDecisions(history(placed, film, out, release));
    expect(marked?.refusal).toBe("line-already-out");
  });

  test("a fact written unseen is no decision and is not listed", () => {
    const late = () => stored("CareGiven", "home", 2, "09:10", { outsideCm: measured(0) });
    expect(unseenDecisions(history(placed, film, moved, late))).toEqual([]);
  });

  test("what the same device wrote was seen; a printed paper changes no decision", () => {
    const own = () => stored("CareGiven", "room", 2, "09:00", { outsideCm: measured(3) });
    const paper = () => stored("PaperIssued", "ward", 2, "09:00", { issue: measured(1) });
    expect(unseenDecisions(history(placed, film, own, release))).toEqual([]);
    expect(unseenDecisions(history(placed, film, paper, release))).toEqual([]);
  });

  test("a release by someone who had seen it settles it; so does a void of either", () => {
    const again = () => stored("LineReleased", "room", 4, "10:00", { uses: measured(["fluids"]) });
    const unaware = () => stored("LineReleased", "room", 2, "10:00", { uses: measured(["fluids"]) });
    const voids = (event: string) => () => stored("EventVoided", "room", 4, "10:00", { event, why: "wrong line" });
    expect(unseenDecisions(history(placed, film, moved, release, again))).toEqual([]);
    expect(unseenDecisions(history(placed, film, moved, release, unaware))).toHaveLength(2);
    expect(unseenDecisions(history(placed, film, moved, release, voids("e3")))).toEqual([]);
    expect(unseenDecisions(history(placed, film, moved, release, voids("e4")))).toEqual([]);
  });
});
