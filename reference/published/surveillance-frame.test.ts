import { addDays, midnightsBetween, parseCivilDate, type CivilDate } from "../../src/core/calendar/index.ts";
import {
  attributionPeriod,
  dateOfEvent,
  dateOnAdmission,
  isHealthcareAssociated,
  lineRuns,
  mergeRepeats,
  surveillanceEligibility,
  wardOfEvent,
} from "../../src/core/dwell/index.ts";
import { surveillanceDefinitions } from "../../src/policy/index.ts";
import { checkAgainst } from "../check.ts";
import { expect, test } from "vitest";

const rule = surveillanceDefinitions[0] as (typeof surveillanceDefinitions)[number];
const march = (day: number) => addDays(parseCivilDate("2025-03-01") as CivilDate, day - 1);
const yes = (value: boolean) => Number(value);

checkAgainst(
  {
    quantity: "Surveillance by the calendar, with the definition in force",
    unit: "days, or 1 when so",
    source: "CDC/NHSN, Patient Safety Component Manual, ch. 2 and 4 (cdc.gov/nhsn/faqs; marked parts from memory)",
    kind: "published",
    tolerance: 0,
    comparisons: 31,
  },
  (compare) => {
    const line = { firstAccess: march(3), removed: march(10) };
    const eligible = (day: number, run = line) => yes(surveillanceEligibility(run, march(day), rule) === "eligible");
    for (const [day, is] of [
      [4, 0],
      [5, 1],
      [10, 1],
      [11, 1],
      [12, 0],
    ] as const)
      compare(`placed 3, removed 10 March: eligible on ${day}`, eligible(day), is);
    compare("removed on day 2, event the day after", eligible(5, { firstAccess: march(3), removed: march(4) }), 0);
    const kept = mergeRepeats([3, 10, 16, 17, 32].map(march), rule).map((event) => event.kept);
    compare("repeats kept", kept.length, 3);
    for (const [at, day] of [3, 17, 32].entries())
      compare(`kept ${at + 1}`, midnightsBetween(kept[at] as CivilDate, march(day)), 0);
    // the window is seven days: three before, the day, three after
    const first = (day: number) => yes(dateOfEvent(march(10), [march(day)], rule) === march(day));
    for (const [day, is] of [
      [6, 0],
      [7, 1],
      [9, 1],
    ] as const)
      compare(`an element on ${day} March sets the date`, first(day), is);
    compare("no element: the specimen's", midnightsBetween(dateOfEvent(march(10), [], rule), march(10)), 0);
    for (const [day, is] of [
      [1, 0],
      [2, 0],
      [3, 1],
    ] as const)
      compare(`admitted 1 March, of care on ${day}`, yes(isHealthcareAssociated(march(1), march(day), rule)), is);
    // two days before admission count as the day of admission
    const moved = (day: number) => dateOnAdmission(march(day), march(10), 2);
    compare("fever two days before", midnightsBetween(moved(8) as CivilDate, march(10)), 0);
    compare("fever three days before", yes(moved(7) === undefined), 1);
    compare("fever the day after", midnightsBetween(moved(11) as CivilDate, march(11)), 0);
    // a full day without a line restarts the days of the line (from memory)
    const runs = (next: number) =>
      lineRuns([{ firstAccess: march(1), removed: march(4) }, { firstAccess: march(next) }], rule).length;
    compare("new line the next day: runs", runs(5), 1);
    compare("a full day between: runs", runs(6), 2);
    // window and frame together: 14 to 17 days (length from memory)
    for (const [before, days] of [
      [3, 14],
      [2, 15],
      [1, 16],
      [0, 17],
    ] as const) {
      const { from, to } = attributionPeriod(march(10), march(10 - before), rule);
      compare(`put down to another site, event ${before} days before`, midnightsBetween(from, to) + 1, days);
    }
    // the ward left on the day or the day before holds the event; after discharge the day and the next
    const stays = [
      { ward: "A", from: march(1), to: march(5) },
      { ward: "B", from: march(5), to: march(20) },
    ];
    const ward = (day: number) => wardOfEvent(stays, march(day), 1);
    compare("the day of the move", yes(ward(5) === "A"), 1);
    compare("the day after", yes(ward(6) === "A"), 1);
    compare("two days after", yes(ward(7) === "B"), 1);
    compare("the day after discharge", yes(ward(21) === "B"), 1);
    compare("two days after discharge", yes(ward(22) === undefined), 1);
  },
);

test("two moves in one day put the event to the first ward left, and an event outside the window has no period", () => {
  const stays = [
    { ward: "C", from: march(6) },
    { ward: "A", from: march(1), to: march(6) },
    { ward: "B", from: march(6), to: march(6) },
  ];
  expect(wardOfEvent(stays, march(6), 1)).toBe("A");
  expect(wardOfEvent(stays, march(9), 1)).toBe("C");
  expect(() => attributionPeriod(march(10), march(6), rule)).toThrow("outside the window");
  expect(() => attributionPeriod(march(10), march(11), rule)).toThrow("outside the window");
});
