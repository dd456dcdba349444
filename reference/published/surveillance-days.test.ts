import { addDays, parseCivilDate, parseInstant, type CivilDate, type Instant } from "../../src/core/calendar/index.ts";
import { judgeMucosalBarrier, judgeSurveillance } from "../../src/core/complication/index.ts";
import { NOON, patientDays, type Moment, type Stay } from "../../src/core/dwell/index.ts";
import { momentOfInstant } from "../../src/audit/index.ts";
import { surveillanceDefinitions } from "../../src/policy/index.ts";
import { checkAgainst } from "../check.ts";

/*
 * The worked examples of the surveillance manual: CDC/NHSN, Patient Safety Component Manual, January 2025, ch. 4, table 5
 * (white cells around a mucosal infection) and table 6 (days of a line in the denominator). The days of a table have no
 * nought: -1 is the day before 1. Hours within a day are ours, the count of the day at noon.
 */
const MANUAL = "CDC/NHSN, Patient Safety Component Manual, January 2025, ch. 4";
const on = (text: string) => parseCivilDate(text) as CivilDate;
const at = (text: string): Moment => momentOfInstant(parseInstant(`${text}+00:00`) as Instant);
const in2024 = (from: string, to?: string): Stay => ({
  patient: "p",
  inserted: at(`2024-${from}`),
  end: to ? { kind: "removed", at: at(`2024-${to}`) } : { kind: "in place", lastKnown: at("2024-04-07T00:00") },
});
const WEEK = { from: on("2024-03-31"), to: on("2024-04-07"), fromOffset: 0, toOffset: 0 };

checkAgainst(
  {
    quantity: "Line-days of a patient in the denominator, one week",
    unit: "days",
    source: `${MANUAL}, table 6, patients A, C and D; two lines at once count one by table 7`,
    kind: "published",
    tolerance: 0,
    comparisons: 4,
  },
  (compare) => {
    const days = (...stays: readonly Stay[]) => patientDays(stays, WEEK, "patient-days at census", NOON).days;
    compare("A", days(in2024("03-31T09:00")), 7);
    compare("C", days(in2024("03-29T09:00", "04-02T09:00"), in2024("04-02T11:00", "04-05T15:00")), 6);
    compare("D", days(in2024("04-01T09:00")), 6);
    compare("A with a second line", days(in2024("03-31T09:00"), in2024("04-02T09:00")), 7);
  },
);

const CELLS: readonly (readonly [string, string, Readonly<Record<number, number>>, number])[] = [
  ["A", "Candida", { [-7]: 100, [-6]: 800, [-5]: 400, [-4]: 300, [-1]: 320, 1: 400, 3: 550, 4: 600 }, 2],
  ["B", "Viridans streptococci", { [-6]: 410, [-5]: 130, [-2]: 120, [-1]: 110, 2: 110, 3: 300, 4: 320 }, 5],
  ["C", "Candida", { [-7]: 100, [-6]: 800, [-5]: 400, [-4]: 300, 1: 600, 2: 230, 4: 400 }, 2],
];

checkAgainst(
  {
    quantity: "Infection of an injured mucosal barrier by few white cells",
    unit: "1 met; days with few cells",
    source: `${MANUAL}, table 5, patients A, B and C`,
    kind: "published",
    tolerance: 0,
    comparisons: 6,
  },
  (compare) => {
    const drawn = on("2024-06-10");
    for (const [name, organism, cells, days] of CELLS) {
      const specimens = (name === "B" ? ["1", "2"] : ["1"]).map((occasion) => ({ drawnOn: drawn, occasion, organism }));
      const event = {
        lines: [{ firstAccess: on("2024-06-01") }],
        specimens,
        signs: [{ kind: "temperature" as const, celsius: 38.5, on: drawn }],
        ageYears: 60,
        secondaryToOtherSite: false,
        earlierEventsOn: [],
      };
      const cellCounts = Object.entries(cells).map(([day, perCubicMm]) => ({
        on: addDays(drawn, Number(day) < 0 ? Number(day) : Number(day) - 1),
        perCubicMm,
      }));
      const facts = { cellCounts, transplantsOn: [], hostDiseaseThisStay: false, diarrhoeaFrom: [] };
      const { flag, findings } = judgeMucosalBarrier(
        judgeSurveillance(event, surveillanceDefinitions),
        specimens,
        facts,
      );
      compare(`${name}, met`, flag === "met" ? 1 : 0, 1);
      const low = findings.find(({ code }) => code === "mucosal-cells")?.values["days"];
      compare(`${name}, days`, typeof low === "number" ? low : Number.NaN, days);
    }
  },
);
