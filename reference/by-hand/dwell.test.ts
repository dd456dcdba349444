import { addDays, dayNumber, parseCivilDate, type CivilDate } from "../../src/core/calendar/index.ts";
import {
  lineDays,
  LINE_CLOCKS,
  momentOf,
  patientDays,
  PATIENT_CLOCKS,
  type Moment,
  type Stay,
} from "../../src/core/dwell/index.ts";
import { checkAgainst } from "../check.ts";
import { seededNumbers } from "./seeded-numbers.ts";

const date = (text: string) => parseCivilDate(text) as CivilDate;
const march = { from: date("2025-03-01"), to: date("2025-04-01"), fromOffset: 0, toOffset: 0 };
const at = (month: number, dayOfMonth: number, hour: number, minuteOfHour: number): Moment =>
  momentOf(addDays(date(`2025-0${month}-01`), dayOfMonth - 1), hour * 60 + minuteOfHour, 0);
const line = (patient: number, inserted: Moment, removed: Moment): Stay => ({
  patient: `${patient}`,
  inserted,
  end: { kind: "removed", at: removed },
});

/** Seven invented lines; the days under each clock were counted on paper. */
const table: readonly (readonly [string, Stay, number, number, number, number])[] = [
  ["A", line(1, at(3, 3, 9, 30), at(3, 10, 16, 45)), 7.302083, 8, 7, 8],
  ["B", line(2, at(3, 4, 14, 0), at(3, 4, 22, 0)), 0.333333, 1, 0, 0],
  ["C", line(3, at(3, 5, 8, 0), at(3, 6, 7, 59)), 0.999306, 2, 1, 1],
  ["D", line(4, at(3, 28, 11, 15), at(4, 3, 10, 0)), 3.53125, 4, 4, 4],
  ["E", line(5, at(3, 6, 10, 0), at(3, 20, 12, 0)), 14.083333, 15, 14, 14],
  ["F", line(5, at(3, 15, 10, 0), at(3, 25, 9, 0)), 9.958333, 11, 10, 10],
  [
    "G",
    { patient: "6", inserted: at(3, 30, 15, 20), end: { kind: "in place", lastKnown: at(4, 9, 12, 0) } },
    1.361111,
    2,
    2,
    1,
  ],
];

checkAgainst(
  {
    quantity: "Days of seven lines on four clocks",
    unit: "days",
    source: "counted on paper",
    kind: "by-hand",
    tolerance: 1e-6,
    comparisons: 34,
  },
  (compare) => {
    for (const [name, stay, ...days] of table)
      LINE_CLOCKS.forEach((clock, column) =>
        compare(`${name}, ${clock}`, lineDays([stay], march, clock, 720).days, days[column] as number),
      );
    const stays = table.map((row) => row[1]);
    [37.56875, 43, 38, 38].forEach((total, column) => {
      const clock = LINE_CLOCKS[column] as (typeof LINE_CLOCKS)[number];
      compare(`all, ${clock}`, lineDays(stays, march, clock, 720).days, total);
    });
    compare("all, calendar patient-days", patientDays(stays, march, "calendar patient-days", 720).days, 37);
    compare("all, patient-days at census", patientDays(stays, march, "patient-days at census", 720).days, 33);
  },
);

/** The slow twin walks every minute of the window, and asks of each whether the line is in. */
function walked(stays: readonly Stay[], zone: number, census: number): Record<string, number> {
  const minutes = (moment: Moment) => (moment.precision === "minute" ? moment.utc + zone : Number.NaN);
  const ends = stays.map((stay) => ({
    patient: stay.patient,
    from: minutes(stay.inserted),
    to: minutes(stay.end.kind === "removed" ? stay.end.at : stay.end.lastKnown),
  }));
  const sums = { exact: 0, calendar: 0, midnight: 0, census: 0, patientCalendar: 0, patientCensus: 0 };
  for (let on = dayNumber(march.from); on < dayNumber(march.to); on += 1) {
    const touched = ends.filter(({ from, to }) => from < (on + 1) * 1440 && to >= on * 1440);
    const present = ends.filter(({ from, to }) => from <= on * 1440 + census && on * 1440 + census < to);
    // a midnight is passed when the line is in on this date and still on the next
    sums.midnight += touched.filter(({ to }) => to >= (on + 1) * 1440).length;
    sums.calendar += touched.length;
    sums.census += present.length;
    sums.patientCalendar += new Set(touched.map(({ patient }) => patient)).size;
    sums.patientCensus += new Set(present.map(({ patient }) => patient)).size;
    for (let now = on * 1440; now < (on + 1) * 1440; now += 1)
      for (const { from, to } of ends) if (from <= now && now < to) sums.exact += 1 / 1440;
  }
  return {
    "exact line-days": sums.exact,
    "calendar line-days, both ends": sums.calendar,
    "line-days by date difference": sums.midnight,
    "line-days at census": sums.census,
    "calendar patient-days": sums.patientCalendar,
    "patient-days at census": sums.patientCensus,
  };
}

checkAgainst(
  {
    quantity: "Days of generated lines on six clocks",
    unit: "days",
    source: "walking every minute",
    kind: "by-hand",
    tolerance: 1e-8,
    comparisons: 90,
  },
  (compare) => {
    const { whole } = seededNumbers(71);
    for (let trial = 0; trial < 15; trial += 1) {
      const zone = whole(-10, 12) * 60;
      const census = whole(0, 1439);
      const stays = Array.from({ length: 12 }, () => {
        const from = addDays(march.from, whole(-15, 28));
        return line(
          whole(1, 5),
          momentOf(from, whole(0, 700), zone),
          momentOf(addDays(from, whole(0, 20)), whole(701, 1439), zone),
        );
      });
      const slow = walked(stays, zone, census);
      const window = { ...march, fromOffset: zone, toOffset: zone };
      for (const clock of LINE_CLOCKS)
        compare(`trial ${trial}, ${clock}`, lineDays(stays, window, clock, census).days, slow[clock] as number);
      for (const clock of PATIENT_CLOCKS)
        compare(`trial ${trial}, ${clock}`, patientDays(stays, window, clock, census).days, slow[clock] as number);
    }
  },
);

checkAgainst(
  {
    quantity: "What dates without times cost: mean and spread of the error of a line's days",
    unit: "days",
    source: "two ends uniform in their days: mean 0, SD sqrt(1/6) = 0.408248",
    kind: "by-hand",
    tolerance: 1e-4,
    comparisons: 2,
  },
  (compare) => {
    const dated: Stay = {
      patient: "1",
      inserted: { precision: "date", date: date("2025-03-03") },
      end: { kind: "removed", at: { precision: "date", date: date("2025-03-10") } },
    };
    const days = lineDays([dated], march, "exact line-days", 720).days;
    // every pair of minutes 15 apart, each in the middle of its quarter of an hour
    const minutes = Array.from({ length: 96 }, (_, k) => 15 * k + 7);
    const errors = minutes.flatMap((from) =>
      minutes.map(
        (to) => days - lineDays([line(1, at(3, 3, 0, from), at(3, 10, 0, to))], march, "exact line-days", 720).days,
      ),
    );
    const mean = errors.reduce((sum, error) => sum + error, 0) / errors.length;
    compare("mean", mean, 0);
    compare("SD", Math.sqrt(errors.reduce((sum, error) => sum + (error - mean) ** 2, 0) / errors.length), 0.408248);
  },
);
