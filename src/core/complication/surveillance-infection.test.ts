import { expect, test } from "vitest";
import { parseCivilDate, type CivilDate } from "../calendar/index.ts";
import { judgeSurveillance, sameCommensal, type SurveillanceDefinition } from "./index.ts";

const on = (text: string) => parseCivilDate(text) as CivilDate;
const definition: SurveillanceDefinition = {
  name: "of this test",
  validFrom: on("2020-01-01"),
  source: "this test",
  eligibleFromLineDay: 3,
  daysAfterRemoval: 1,
  repeatFrameDays: 14,
  daysWithoutLineToRestart: 1,
  windowDaysBefore: 3,
  windowDaysAfter: 3,
  healthcareFromDay: 3,
  feverAboveCelsius: 38,
  hypothermiaBelowCelsius: 36,
  infantToYears: 1,
  commensalDaysApart: 1,
  mucosal: {
    organisms: ["escherichia"],
    commensals: ["rothia"],
    cellsBelow: 500,
    daysBelow: 2,
    cellDaysBefore: 3,
    cellDaysAfter: 3,
    transplantWithinDays: 365,
    gutDaysBefore: 7,
  },
  organisms: {
    pathogens: ["staphylococcus aureus"],
    excluded: ["histoplasma"],
    commensals: [
      { name: "coagulase-negative staphylococci", covers: ["staphylococcus epidermidis", "staphylococcus hominis"] },
    ],
  },
};

test("two species of one group are two; the group's name is either", () => {
  expect(sameCommensal("Staphylococcus epidermidis", "Staphylococcus hominis", definition)).toBe(false);
  expect(sameCommensal("Coagulase-negative staphylococci", "Staphylococcus hominis", definition)).toBe(true);
  expect(sameCommensal("staphylococcus  hominis", "Staphylococcus hominis ", definition)).toBe(true);
});

test("the earliest specimen that meets the criterion dates the event, in any order of input", () => {
  const flag = judgeSurveillance(
    {
      lines: [{ firstAccess: on("2025-06-01") }],
      specimens: [
        { drawnOn: on("2025-06-12"), occasion: "3", organism: "Staphylococcus aureus" },
        { drawnOn: on("2025-06-10"), occasion: "2", organism: "Staphylococcus aureus" },
        { drawnOn: on("2025-06-09"), occasion: "1", organism: "none" },
      ],
      signs: [],
      ageYears: 60,
      secondaryToOtherSite: false,
      earlierEventsOn: [],
    },
    [definition],
  );
  expect(flag).toMatchObject({ flag: "met", criterion: "pathogen", dateOfEvent: "2025-06-10" });
});

test("an event after this one does not make it a repeat", () => {
  const event = {
    lines: [{ firstAccess: on("2025-06-01") }],
    specimens: [{ drawnOn: on("2025-06-10"), occasion: "1", organism: "Staphylococcus aureus" }],
    signs: [],
    ageYears: 60,
    secondaryToOtherSite: false,
  };
  expect(judgeSurveillance({ ...event, earlierEventsOn: [on("2025-06-11")] }, [definition]).flag).toBe("met");
  expect(judgeSurveillance({ ...event, earlierEventsOn: [on("2025-06-10")] }, [definition]).flag).toBe("not met");
});
