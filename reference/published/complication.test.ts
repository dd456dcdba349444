import { addDays, parseCivilDate, parseInstant, type CivilDate, type Instant } from "../../src/core/calendar/index.ts";
import {
  clotCriteria,
  clotScore,
  differentialTime,
  infectionCriteria,
  judgeClotSuspicion,
  judgeQuantitative,
  judgeSkinSigns,
  judgeSurveillance,
  judgeTipCulture,
  phlebitisGrade,
  signCounts,
  timeToPositivityMin,
  veinDepthClass,
  type CultureBottle,
  type PhlebitisSign,
  type SurveillanceDefinition,
  type SurveillanceEvent,
} from "../../src/core/complication/index.ts";
import { missing } from "../../src/core/missing/index.ts";
import { centimetre, millilitre } from "../../src/core/quantity/index.ts";
import {
  cultureLimitsFrom,
  defaultPolicyTable,
  infectionLimitsFrom,
  removalOrganisms,
  surveillanceDefinitions,
  thrombosisLimitsFrom,
} from "../../src/policy/index.ts";
import { checkAgainst } from "../check.ts";

const at = (text: string) => parseInstant(text) as Instant;
const on = (text: string) => parseCivilDate(text) as CivilDate;
const culture = cultureLimitsFrom(defaultPolicyTable);
const infection = infectionLimitsFrom(defaultPolicyTable);
const clot = thrombosisLimitsFrom(defaultPolicyTable);
const definition = surveillanceDefinitions[0] as SurveillanceDefinition;
const yes = (fact: boolean): number => (fact ? 1 : 0);

const bottle = (site: CultureBottle["site"], drawn: string, loaded: string, flagged: string): CultureBottle => ({
  id: site.kind,
  site,
  medium: missing("not asked"),
  drawnAt: at(drawn),
  loadedAt: at(loaded),
  flaggedAt: at(flagged),
  organism: "Staphylococcus epidermidis",
  volumeMl: millilitre(10),
});
const peripheral = { kind: "peripheral" } as const;
const lumen = { kind: "lumen", lumen: "1" } as const;

checkAgainst(
  {
    quantity: "Time to positivity and its differential",
    unit: "min",
    source: "by the clock: loaded 10:20, flagged 19:05; loaded 13:50, flagged 00:20 the next day",
    kind: "by-hand",
    tolerance: 0,
    comparisons: 3,
  },
  (compare) => {
    const line = bottle(lumen, "2025-06-03T10:00+02:00", "2025-06-03T10:20+02:00", "2025-06-03T19:05+02:00");
    const other = bottle(peripheral, "2025-06-03T10:00+02:00", "2025-06-03T13:50+02:00", "2025-06-04T00:20+02:00");
    compare("line", timeToPositivityMin(line) ?? Number.NaN, 525);
    compare("peripheral", timeToPositivityMin(other) ?? Number.NaN, 630);
    compare("differential", differentialTime(line, other, false, culture).differentialMin ?? Number.NaN, 105);
  },
);

checkAgainst(
  {
    quantity: "Criterion by time to positivity",
    unit: "0 not met, 1 met, 2 indeterminate",
    source: "Mermel LA and others 2009, Clin Infect Dis 49:1: 120 min; loading together from memory",
    kind: "published",
    tolerance: 0,
    comparisons: 4,
  },
  (compare) => {
    const outcomes = ["criterion not met", "criterion met", "indeterminate"];
    const line = bottle(lumen, "2025-06-03T10:00+02:00", "2025-06-03T10:20+02:00", "2025-06-03T19:00+02:00");
    const of = (loaded: string, flagged: string) =>
      outcomes.indexOf(
        differentialTime(line, bottle(peripheral, "2025-06-03T10:00+02:00", loaded, flagged), false, culture).outcome,
      );
    compare("119 min", of("2025-06-03T10:20+02:00", "2025-06-03T20:59+02:00"), 0);
    compare("120 min", of("2025-06-03T10:20+02:00", "2025-06-03T21:00+02:00"), 1);
    compare("120 min by the incubator, loaded 10 min apart", of("2025-06-03T10:30+02:00", "2025-06-03T21:10+02:00"), 1);
    compare("loaded 90 min apart", of("2025-06-03T11:50+02:00", "2025-06-03T23:50+02:00"), 2);
  },
);

checkAgainst(
  {
    quantity: "Paired quantitative cultures, line 300 and peripheral 100 CFU/mL",
    unit: "fold, and 1 where the criterion is met",
    source: "Mermel LA and others 2009, Clin Infect Dis 49:1 (three-fold); 2001, Clin Infect Dis 32:1249 (five-fold)",
    kind: "published",
    tolerance: 1e-12,
    comparisons: 3,
  },
  (compare) => {
    const { fold, findings } = judgeQuantitative(
      { lineCfuPerMl: 300, otherCfuPerMl: 100, other: "peripheral" },
      culture,
    );
    compare("fold", fold ?? Number.NaN, 3);
    compare("three-fold", yes(findings.find(({ code }) => code === "quantitative-fold")?.verdict === "met"), 1);
    compare("five-fold", yes(findings.find(({ code }) => code === "quantitative-fold-older")?.verdict === "met"), 0);
  },
);

checkAgainst(
  {
    quantity: "Colonised catheter tip",
    unit: "1 when colonised",
    source:
      "Mermel LA and others 2009, Clin Infect Dis 49:1: more than 15 CFU by roll-plate, more than 100 by sonication",
    kind: "published",
    tolerance: 0,
    comparisons: 5,
  },
  (compare) => {
    const colonised = (method: "roll-plate" | "sonication", cfu: number, limits = culture) =>
      yes(judgeTipCulture(method, cfu, limits).verdict === "met");
    compare("roll-plate 15", colonised("roll-plate", 15), 0);
    compare("roll-plate 16", colonised("roll-plate", 16), 1);
    compare("sonication 100", colonised("sonication", 100), 0);
    compare("sonication 101", colonised("sonication", 101), 1);
    // O'Grady NP and others 2002 print 1,000 for the quantitative tip: a hospital that sets it gets its answer
    compare("sonication 101 under 1,000", colonised("sonication", 101, { ...culture, sonicationCfu: 1000 }), 0);
  },
);

const SKIN = ["none", "exit-site infection", "tunnel infection", "beyond the exit, no tunnel", "not known"];

checkAgainst(
  {
    quantity: "Name of skin signs by their distance from the exit",
    unit: "index of none, exit site, tunnel, neither, not known",
    source: "Mermel LA and others 2009, Clin Infect Dis 49:1, table of definitions: 2 cm",
    kind: "published",
    tolerance: 0,
    comparisons: 4,
  },
  (compare) => {
    const of = (reachesCm: number, alongTunnel: boolean) =>
      SKIN.indexOf(judgeSkinSigns({ present: true, reachesCm: centimetre(reachesCm), alongTunnel }, infection).kind);
    compare("1.5 cm", of(1.5, false), 1);
    compare("2.0 cm", of(2, false), 1);
    compare("3 cm, no tunnel: call it cellulitis", of(3, false), 3);
    compare("3 cm along a tunnel", of(3, true), 2);
  },
);

const event = (specimenOn: string, more: Partial<SurveillanceEvent> = {}): SurveillanceEvent => ({
  lines: [{ firstAccess: on("2025-06-02") }],
  specimens: [{ drawnOn: on(specimenOn), occasion: "1", organism: "Staphylococcus aureus" }],
  signs: [],
  ageYears: 60,
  secondaryToOtherSite: false,
  earlierEventsOn: [],
  ...more,
});
const flagged = (one: SurveillanceEvent) => yes(judgeSurveillance(one, surveillanceDefinitions).flag === "met");

checkAgainst(
  {
    quantity: "Surveillance flag of a bloodstream infection by the day of the line",
    unit: "1 when flagged",
    source: "CDC/NHSN, Patient Safety Component Manual, ch. 2 and 4: line day 3 to the day after removal, 14-day frame",
    kind: "published",
    tolerance: 0,
    comparisons: 9,
  },
  (compare) => {
    // 2 June 2025 was a Monday
    compare("in Monday, event Tuesday: line day 2", flagged(event("2025-06-03")), 0);
    compare("event Wednesday: line day 3", flagged(event("2025-06-04")), 1);
    const stay = [{ firstAccess: on("2025-06-03"), removed: on("2025-06-17") }];
    for (const [day, expected] of [
      ["2025-06-04", 0],
      ["2025-06-05", 1],
      ["2025-06-18", 1],
      ["2025-06-19", 0],
    ] as const)
      compare(`in 3 June, out 17 June, event ${day}`, flagged(event(day, { lines: stay })), expected);
    const march = [{ firstAccess: on("2025-02-20") }];
    const repeat = (day: string) => flagged(event(day, { lines: march, earlierEventsOn: [on("2025-03-03")] }));
    compare("day 14 of the frame of 3 March", repeat("2025-03-16"), 0);
    compare("day 15", repeat("2025-03-17"), 1);
    compare(
      "removed on day 2, event the day after",
      flagged(event("2025-06-04", { lines: [{ firstAccess: on("2025-06-02"), removed: on("2025-06-03") }] })),
      0,
    );
  },
);

checkAgainst(
  {
    quantity: "Surveillance flag where a commensal grew",
    unit: "1 when flagged",
    source:
      "CDC/NHSN, Patient Safety Component Manual, ch. 4: same commensal, separate occasions, same or next day, a sign in the window; infant under 36.0 from memory",
    kind: "published",
    tolerance: 0,
    comparisons: 10,
  },
  (compare) => {
    const twice = (
      second: string,
      occasion: string,
      organism: string,
      signs: SurveillanceEvent["signs"],
      ageYears = 60,
    ) =>
      flagged(
        event("2025-06-10", {
          specimens: [
            { drawnOn: on("2025-06-10"), occasion: "1", organism: "Staphylococcus epidermidis" },
            { drawnOn: on(second), occasion, organism },
          ],
          signs,
          ageYears,
        }),
      );
    const fever = (celsius: number, day: string) => [{ kind: "temperature" as const, celsius, on: on(day) }];
    const same = "Staphylococcus epidermidis";
    compare("next day, fever 38.1", twice("2025-06-11", "2", same, fever(38.1, "2025-06-10")), 1);
    compare("fever of 38.0 is none", twice("2025-06-11", "2", same, fever(38, "2025-06-10")), 0);
    compare("two days apart", twice("2025-06-12", "2", same, fever(39, "2025-06-10")), 0);
    compare("one draw, two bottles", twice("2025-06-10", "1", same, fever(39, "2025-06-10")), 0);
    compare("another species", twice("2025-06-11", "2", "Staphylococcus hominis", fever(39, "2025-06-10")), 0);
    compare(
      "the group's name and a species",
      twice("2025-06-11", "2", "coagulase-negative staphylococci", fever(39, "2025-06-10")),
      1,
    );
    compare("fever 3 days before", twice("2025-06-11", "2", same, fever(39, "2025-06-07")), 1);
    compare("fever 4 days before", twice("2025-06-11", "2", same, fever(39, "2025-06-06")), 0);
    compare("infant at 35.9", twice("2025-06-11", "2", same, fever(35.9, "2025-06-10"), 0.5), 1);
    compare("infant at 36.5", twice("2025-06-11", "2", same, fever(36.5, "2025-06-10"), 0.5), 0);
  },
);

checkAgainst(
  {
    quantity: "Low temperature of an infant",
    unit: "1 when it counts",
    source: "CDC/NHSN, Patient Safety Component Manual, ch. 4: under 36.0 (from memory); an older copy prints under 37",
    kind: "published",
    tolerance: 0,
    comparisons: 3,
  },
  (compare) => {
    const counts = (celsius: number, years: number, row = definition) =>
      yes(signCounts({ kind: "temperature", celsius, on: on("2025-06-10") }, years, row) === "in an infant");
    compare("36.5", counts(36.5, 0.5), 0);
    compare("36.5 under the older copy's row", counts(36.5, 0.5, { ...definition, hypothermiaBelowCelsius: 37 }), 1);
    compare("35.9 at 2 years", counts(35.9, 2), 0);
  },
);

checkAgainst(
  {
    quantity: "Date of the surveillance event",
    unit: "days after 10 June 2025",
    source: "CDC/NHSN, Patient Safety Component Manual, ch. 2: first element in the 7-day window",
    kind: "published",
    tolerance: 0,
    comparisons: 2,
  },
  (compare) => {
    const specimens = ["1", "2"].map((occasion) => ({
      drawnOn: on("2025-06-10"),
      occasion,
      organism: "Micrococcus luteus",
    }));
    const dated = (feverOn: string) =>
      judgeSurveillance(
        event("2025-06-10", { specimens, signs: [{ kind: "chills", on: on(feverOn) }] }),
        surveillanceDefinitions,
      ).dateOfEvent;
    compare("chills on the 8th", yes(dated("2025-06-08") === addDays(on("2025-06-10"), -2)), 1);
    compare("chills on the 12th: the specimen's day", yes(dated("2025-06-12") === on("2025-06-10")), 1);
  },
);

checkAgainst(
  {
    quantity: "Score of an arm-vein clot",
    unit: "points, and clots in each hundred",
    source: "Constans J and others 2008, Thromb Haemost 99:202: 12, 20 and 70 % at 0, 1 and 2 points",
    kind: "published",
    tolerance: 0,
    comparisons: 8,
  },
  (compare) => {
    const facts = (line: boolean, pain: boolean, oedema: boolean, other: boolean) =>
      clotScore({ catheterOrLead: line, localPain: pain, oneSidedOedema: oedema, otherDiagnosisAsLikely: other });
    compare("line and oedema", facts(true, false, true, false).least, 2);
    compare("line and oedema, of a hundred", facts(true, false, true, false).percent ?? 0, 70);
    compare("line only", facts(true, false, false, false).least, 1);
    compare("line only, of a hundred", facts(true, false, false, false).percent ?? 0, 20);
    compare("nothing, another diagnosis", facts(false, false, false, true).least, -1);
    compare("nothing, of a hundred", facts(false, false, false, true).percent ?? 0, 12);
    compare("everything", facts(true, true, true, false).least, 3);
    const alone = judgeClotSuspicion(
      { catheterOrLead: true, localPain: false, oneSidedOedema: false, otherDiagnosisAsLikely: false },
      false,
      missing("not asked"),
      clot,
    );
    compare("line only, no symptom: no scan for the score", yes(alone.findings[0]?.code === "clot-no-symptom"), 1);
  },
);

checkAgainst(
  {
    quantity: "Criteria for a line with a clot",
    unit: "criteria met, months",
    source:
      "Rajasekhar A and Streiff MB 2017, Blood 129:2727: at least 3 months or while the line is in; removal when not needed, infected or symptoms persist",
    kind: "published",
    tolerance: 0,
    comparisons: 4,
  },
  (compare) => {
    const of = (needed: boolean) =>
      clotCriteria(
        { needed, working: true, infected: false, symptomsPersistOnTreatment: false, bleedingBarsTreatment: false },
        clot,
      );
    const met = (list: readonly { readonly verdict: string }[]) =>
      list.filter(({ verdict }) => verdict === "met").length;
    compare("needed, working, no infection: for keeping", met(of(true).forKeeping), 3);
    compare("for removal", met(of(true).forRemoval), 0);
    compare("not needed: for removal", met(of(false).forRemoval), 1);
    compare("months", Number(of(false).forRemoval[0]?.values["months"]), 3);
  },
);

checkAgainst(
  {
    quantity: "Organisms that speak for removal",
    unit: "1 when listed",
    source: "Mermel LA and others 2009, Clin Infect Dis 49:1, removal of long-term catheters (from memory)",
    kind: "published",
    tolerance: 0,
    comparisons: 5,
  },
  (compare) => {
    const listed = (organism: string) =>
      yes(
        infectionCriteria(
          {
            shockOrSevereSepsis: false,
            septicThrombophlebitis: false,
            endocarditis: false,
            tunnelInfectionOrPus: false,
            stillGrowsAfterHours: 0,
            organism,
            otherSource: false,
            lineInfectionShown: true,
            needed: true,
            otherAccess: true,
          },
          removalOrganisms,
          infection,
        ).forRemoval.find(({ code }) => code === "remove-organism")?.verdict === "met",
      );
    compare("Staphylococcus aureus", listed("Staphylococcus aureus"), 1);
    compare("Pseudomonas aeruginosa", listed("Pseudomonas aeruginosa"), 1);
    compare("a yeast", listed("Candida albicans"), 1);
    compare("a mycobacterium", listed("Mycobacterium chelonae"), 1);
    compare("Staphylococcus epidermidis", listed("Staphylococcus epidermidis"), 0);
  },
);

checkAgainst(
  {
    quantity: "Grade of phlebitis",
    unit: "grade",
    source:
      "Jackson A 1998, Nurs Times 94(4):68 (from memory), steps as printed in Ray-Barruel G and others 2014, J Eval Clin Pract 20:191",
    kind: "published",
    tolerance: 0,
    comparisons: 6,
  },
  (compare) => {
    const grade = (...present: PhlebitisSign[]) => {
      const has = (sign: PhlebitisSign) => present.includes(sign);
      return (
        phlebitisGrade({
          pain: has("pain"),
          redness: has("redness"),
          swelling: has("swelling"),
          hardness: has("hardness"),
          cord: has("cord"),
          fever: has("fever"),
        }).grade ?? Number.NaN
      );
    };
    compare("nothing", grade(), 0);
    compare("redness", grade("redness"), 1);
    compare("pain and swelling", grade("pain", "swelling"), 2);
    compare("pain, redness, hardness", grade("pain", "redness", "hardness"), 3);
    compare("and a cord", grade("pain", "redness", "hardness", "cord"), 4);
    compare("and fever", grade("pain", "redness", "hardness", "cord", "fever"), 5);
  },
);

checkAgainst(
  {
    quantity: "Deep and superficial veins of the arm",
    unit: "1 when deep",
    source: "anatomy handbooks, from memory: brachial, axillary, subclavian and brachiocephalic are deep",
    kind: "trade",
    tolerance: 0,
    comparisons: 6,
  },
  (compare) => {
    for (const [vein, deep] of [
      ["basilic", 0],
      ["cephalic", 0],
      ["brachial", 1],
      ["axillary", 1],
      ["subclavian", 1],
      ["brachiocephalic", 1],
    ] as const)
      compare(vein, yes(veinDepthClass(vein) === "deep"), deep);
  },
);
