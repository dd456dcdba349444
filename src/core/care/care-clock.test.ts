import { expect, test } from "vitest";
import { instantAfter, instantMs, parseInstant, type Instant } from "../calendar/index.ts";
import { missing } from "../missing/index.ts";
import { careClock, careDue, nextDue, SET_KINDS, type CareLimits, type DueItem, type LineCare } from "./index.ts";

const at = (text: string) => parseInstant(text) as Instant;
const limits: CareLimits = {
  dressingTransparentDays: 7,
  dressingGauzeDays: 2,
  connectorLeastHours: 96,
  connectorDueHours: 168,
  flushIdleDays: 7,
  setContinuousLeastHours: 96,
  setDueHours: {
    continuous: 168,
    intermittent: 24,
    nutrition: 24,
    "nutrition with lipid": 24,
    lipid: 12,
    blood: 4,
    propofol: 12,
  },
  reviewWardDays: 1,
  reviewHomeDays: 7,
  coveredWeekdays: [5, 6, 0],
};

/** A small generator with a seed: the same lines in every run. */
function numbers(seed: number): (most: number) => number {
  let state = seed;
  return (most) => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return Math.floor((state / 2 ** 32) * most);
  };
}

const now = at("2025-08-08T12:00+05:30");
const next = numbers(7);

function someLine(): LineCare {
  const ago = () => instantAfter(now, -next(20 * 1440));
  const or = <Value>(value: Value) => (next(10) === 0 ? missing("not known") : value);
  return {
    id: "line",
    setting: next(2) === 0 ? "ward" : "home",
    person: "a nurse",
    place: "ward 3",
    nextOn: missing("not asked"),
    dressing: or({
      type: next(2) === 0 ? "gauze" : "transparent",
      doneAt: ago(),
      state: next(4) === 0 ? "wet" : "sound",
    }),
    connector: or({ changedAt: ago(), reason: next(4) === 0 ? "blood" : "none" }),
    flushedAt: or(ago()),
    sets: Array.from({ length: next(3) }, () => ({
      kind: SET_KINDS[next(SET_KINDS.length)] ?? "blood",
      startedAt: ago(),
    })),
    reviewedAt: or(ago()),
  };
}

/** The first minute of a care on this wall, or before everything where nobody wrote the last one down. */
function startMin({ dueOn, dueAt }: DueItem): number {
  if (dueAt !== undefined) return instantMs(dueAt) / 60_000;
  return dueOn === undefined ? -Infinity : instantMs(at(`${dueOn}T00:00+05:30`)) / 60_000;
}

test("the earliest due in numbers is the earliest of the list in words, for a thousand lines", () => {
  for (let turn = 0; turn < 1000; turn += 1) {
    const line = someLine();
    const list = careDue(line, now, limits);
    const least = Math.min(...list.map(startMin));
    const { item, dueMin } = nextDue(careClock(line, now), limits);
    expect(dueMin).toBe(least);
    expect(list.filter((one) => startMin(one) === least).map((one) => one.item)).toContain(item);
  }
});

test("a care is overdue only after its day or minute, and says by how much", () => {
  for (let turn = 0; turn < 1000; turn += 1)
    for (const one of careDue(someLine(), now, limits)) {
      const late = one.overdueDays > 0 || one.overdueMin > 0;
      expect(one.state === "overdue").toBe(late);
      if (one.state === "not before") expect(startMin(one)).toBeGreaterThan(instantMs(now) / 60_000);
    }
});

test("the clock keeps the day on the wall where the care was done", () => {
  const line = {
    ...someLine(),
    dressing: { type: "gauze", doneAt: at("2025-08-06T23:55-07:00"), state: "sound" } as const,
  };
  const clock = careClock(line, at("2025-08-07T09:00-07:00"));
  expect(clock.offsetMin).toBe(-420);
  expect(careDue(line, at("2025-08-07T09:00-07:00"), limits)[0]?.dueOn).toBe("2025-08-08");
});
