import { describe, expect, test } from "vitest";
import { addDays, parseCivilDate, type CivilDate } from "../../src/core/calendar/index.ts";
import {
  classOfOrganism,
  clotCriteria,
  clotScore,
  infectionCriteria,
  judgeClinicalInfection,
  judgeClotImage,
  judgeClotSuspicion,
  judgeMucosalBarrier,
  judgeSkinSigns,
  judgeSurveillance,
  phlebitisGrade,
  type ClinicalInfectionFacts,
  type InfectedLine,
  type MucosalFacts,
  type SurveillanceDefinition,
  type SurveillanceEvent,
} from "../../src/core/complication/index.ts";
import { missing, type Maybe } from "../../src/core/missing/index.ts";
import { centimetre } from "../../src/core/quantity/index.ts";
import { clotScoreSentence, criteriaLines, phlebitisSentence, sayFinding } from "../../src/language/index.ts";
import {
  defaultPolicyTable,
  infectionLimitsFrom,
  removalOrganisms,
  surveillanceDefinitions,
  thrombosisLimitsFrom,
} from "../../src/policy/index.ts";

/** Infections and clots: given the facts, then criteria met, not met or not known, and never a verdict. */
const on = (text: string) => parseCivilDate(text) as CivilDate;
const notAsked = missing("not asked");
const infection = infectionLimitsFrom(defaultPolicyTable);
const clot = thrombosisLimitsFrom(defaultPolicyTable);

const clinical = (more: Partial<ClinicalInfectionFacts> = {}): ClinicalInfectionFacts => ({
  signs: true,
  otherSource: false,
  bloodGrew: true,
  differential: "criterion met",
  quantitative: notAsked,
  tipSameOrganism: notAsked,
  ...more,
});
const surveyed = (more: Partial<SurveillanceEvent> = {}): SurveillanceEvent => ({
  lines: [{ firstAccess: on("2025-06-02") }],
  specimens: [{ drawnOn: on("2025-06-10"), occasion: "1", organism: "Klebsiella pneumoniae" }],
  signs: [],
  ageYears: 60,
  secondaryToOtherSite: false,
  earlierEventsOn: [],
  ...more,
});
const surveillance = (more: Partial<SurveillanceEvent> = {}) =>
  judgeSurveillance(surveyed(more), surveillanceDefinitions);

describe("two flags of one infection", () => {
  test("given one event, the two flags may stand in any of four ways", () => {
    const early = { specimens: [{ drawnOn: on("2025-06-03"), occasion: "1", organism: "Klebsiella pneumoniae" }] };
    const unproven = clinical({ differential: "criterion not met", quantitative: "not met", tipSameOrganism: false });
    const ways = [
      [clinical(), surveillance()],
      [clinical(), surveillance(early)],
      [unproven, surveillance()],
      [unproven, surveillance(early)],
    ] as const;
    expect(ways.map(([facts, other]) => [judgeClinicalInfection(facts).flag, other.flag])).toEqual([
      ["met", "met"],
      ["met", "not met"],
      ["not met", "met"],
      ["not met", "not met"],
    ]);
  });

  test("given an indeterminate proof and nothing else, the clinical flag is not known; another source makes it not met", () => {
    expect(judgeClinicalInfection(clinical({ differential: "indeterminate" })).flag).toBe("not known");
    expect(judgeClinicalInfection(clinical({ otherSource: true })).flag).toBe("not met");
    expect(judgeClinicalInfection(clinical({ otherSource: notAsked })).flag).toBe("not known");
    expect(judgeClinicalInfection(clinical({ differential: notAsked, tipSameOrganism: true })).flag).toBe("met");
  });

  test("given it is secondary to another site, surveillance is not met; not asked, it is not known", () => {
    expect(surveillance({ secondaryToOtherSite: true }).flag).toBe("not met");
    expect(surveillance({ secondaryToOtherSite: notAsked }).flag).toBe("not known");
  });

  test("given an organism on no list, it is asked and never guessed; an excluded one makes no event", () => {
    const grown = (organism: Maybe<string>) =>
      surveillance({ specimens: [{ drawnOn: on("2025-06-10"), occasion: "1", organism }] });
    expect(grown("Planktothrix rubescens")).toMatchObject({ flag: "not known" });
    expect(grown("Planktothrix rubescens").findings.map(sayFinding)[0]).toBe(
      "Planktothrix rubescens: on no list. Pathogen or commensal?",
    );
    expect(grown("Histoplasma capsulatum").flag).toBe("not met");
    expect(grown("none").flag).toBe("not met");
    expect(grown(notAsked).flag).toBe("not known");
  });

  test("given one specimen of a commensal, or no sign, the laboratory criterion is not met; signs not asked, not known", () => {
    const skin = (occasion: string) => ({ drawnOn: on("2025-06-10"), occasion, organism: "Corynebacterium striatum" });
    expect(surveillance({ specimens: [skin("1")] }).flag).toBe("not met");
    expect(surveillance({ specimens: [skin("1"), skin("2")] }).flag).toBe("not met");
    expect(surveillance({ specimens: [skin("1"), skin("2")], signs: notAsked }).flag).toBe("not known");
    const chills = [{ kind: "chills" as const, on: on("2025-06-09") }];
    expect(surveillance({ specimens: [skin("1"), skin("2")], signs: chills })).toMatchObject({
      flag: "met",
      criterion: "commensal",
      dateOfEvent: "2025-06-09",
    });
  });

  test("given an infant's sign, it counts by age; without the age it is not known", () => {
    const specimens = ["1", "2"].map((occasion) => ({
      drawnOn: on("2025-06-10"),
      occasion,
      organism: "Staphylococcus epidermidis",
    }));
    const signs = [{ kind: "apnoea" as const, on: on("2025-06-10") }];
    expect(surveillance({ specimens, signs, ageYears: 0.5 }).criterion).toBe("commensal in an infant");
    expect(surveillance({ specimens, signs, ageYears: 2 }).flag).toBe("not met");
    expect(surveillance({ specimens, signs, ageYears: notAsked }).flag).toBe("not known");
  });

  test("given a line out for a full day and a new one, the day count starts again; out for a night, it runs on", () => {
    const lines = (next: string) => [
      { firstAccess: on("2025-06-01"), removed: on("2025-06-07") },
      { firstAccess: on(next) },
    ];
    expect(surveillance({ lines: lines("2025-06-09") }).flag).toBe("not met");
    expect(surveillance({ lines: lines("2025-06-08") }).flag).toBe("met");
    expect(surveillance({ lines: [] }).flag).toBe("not known");
  });

  test("given definitions of two dates, the specimen's date chooses; before the first there is none", () => {
    const first = surveillanceDefinitions[0] as SurveillanceDefinition;
    const later = { ...first, validFrom: on("2025-06-08"), name: "an invented later row", eligibleFromLineDay: 20 };
    expect(judgeSurveillance(surveyed(), [first, later])).toMatchObject({
      flag: "not met",
      definition: { name: later.name },
    });
    expect(judgeSurveillance(surveyed(), [first]).flag).toBe("met");
    const old = surveyed({ specimens: [{ drawnOn: on("2009-01-01"), occasion: "1", organism: "Candida albicans" }] });
    expect(judgeSurveillance(old, [first])).toMatchObject({ flag: "not known", definition: undefined });
  });

  test("given names, the longest that fits decides the class", () => {
    const first = surveillanceDefinitions[0] as SurveillanceDefinition;
    const classOf = (name: string) => classOfOrganism(name, first);
    expect(classOf("Staphylococcus  AUREUS ")).toBe("pathogen");
    expect(classOf("Corynebacterium jeikeium")).toBe("commensal");
    expect(classOf("Corynebacterium diphtheriae")).toBe("pathogen");
    expect(classOf("Bacillus anthracis")).toBe("pathogen");
    expect(classOf("Staphylococcus")).toBe("not listed");
  });
});

describe("infections of an injured mucosal barrier", () => {
  const specimen = (organism: Maybe<string>) => ({ drawnOn: on("2025-06-10"), occasion: "1", organism });
  const none: MucosalFacts = { cellCounts: [], transplantsOn: [], hostDiseaseThisStay: false, diarrhoeaFrom: [] };
  const few = (...days: readonly string[]): MucosalFacts => ({
    ...none,
    cellCounts: days.map((one) => ({ on: on(one), perCubicMm: 300 })),
  });
  const judged = (organism: Maybe<string>, facts: MucosalFacts, more: Partial<SurveillanceEvent> = {}) => {
    const specimens = [specimen(organism)];
    return judgeMucosalBarrier(surveillance({ specimens, ...more }), specimens, facts);
  };

  test("given a gut organism and few cells on two days of the window, met; on one day, or outside it, not met", () => {
    const answer = judged("Escherichia coli", few("2025-06-08", "2025-06-11"));
    expect(answer.flag).toBe("met");
    expect(answer.findings.map(sayFinding)).toEqual([
      "Escherichia coli: of the gut or mouth alone.",
      "Below 500 cells on 2 days.",
      "No recent transplant with gut disease.",
    ]);
    expect(judged("Escherichia coli", few("2025-06-08", "2025-06-08")).flag).toBe("not met");
    expect(judged("Escherichia coli", few("2025-06-07", "2025-06-13")).flag).toBe("met");
    expect(judged("Escherichia coli", few("2025-06-06", "2025-06-13")).flag).toBe("not met");
    expect(judged("Escherichia coli", few("2025-06-07", "2025-06-14")).flag).toBe("not met");
    const enough = { ...none, cellCounts: [8, 9].map((n) => ({ on: on(`2025-06-0${n}`), perCubicMm: 500 })) };
    expect(judged("Escherichia coli", enough).flag).toBe("not met");
  });

  test("given a transplant within 365 days and diarrhoea from within 7, met without few cells; later or alone, not met", () => {
    const gut = (transplant: string, disease: string): MucosalFacts => ({
      ...none,
      transplantsOn: [on(transplant)],
      diarrhoeaFrom: [on(disease)],
    });
    expect(judged("Candida albicans", gut("2024-06-10", "2025-06-03")).flag).toBe("met");
    expect(judged("Candida albicans", gut("2024-06-09", "2025-06-03")).flag).toBe("not met");
    expect(judged("Candida albicans", gut("2024-06-10", "2025-06-02")).flag).toBe("not met");
    expect(judged("Candida albicans", gut("2024-06-10", "2025-06-11")).flag).toBe("not met");
    // graft-versus-host disease of the gut has no seven days: it counts when it was written in the same stay
    const host = (hostDiseaseThisStay: Maybe<boolean>) =>
      judged("Candida albicans", { ...none, transplantsOn: [on("2025-01-10")], hostDiseaseThisStay }).flag;
    expect([host(true), host(false), host(notAsked)]).toEqual(["met", "not met", "not known"]);
  });

  // CDC/NHSN, Patient Safety Component Manual, January 2025, ch. 4, table 5. Its days have no nought: -1 is the day before 1.
  test.each<readonly [string, string, Readonly<Record<number, number>>, string]>([
    ["A", "Candida albicans", { [-7]: 100, [-6]: 800, [-5]: 400, [-4]: 300, [-1]: 320, 1: 400, 3: 550, 4: 600 }, "met"],
    ["B", "Streptococcus viridans", { [-6]: 410, [-5]: 130, [-2]: 120, [-1]: 110, 2: 110, 3: 300, 4: 320 }, "met"],
    ["C", "Candida albicans", { [-7]: 100, [-6]: 800, [-5]: 400, [-4]: 300, 1: 600, 2: 230, 4: 400 }, "met"],
    ["C without day 4", "Candida albicans", { [-5]: 400, [-4]: 300, 1: 600, 2: 230 }, "not met"],
  ])("the manual's patient %s: %s", (_name, organism, cells, flag) => {
    const twice = organism.startsWith("Streptococcus");
    const specimens = (twice ? ["1", "2"] : ["1"]).map((occasion) => ({ ...specimen(organism), occasion }));
    const signs = [{ kind: "temperature" as const, celsius: 38.5, on: on("2025-06-10") }];
    const cellCounts = Object.entries(cells).map(([day, perCubicMm]) => ({
      on: addDays(on("2025-06-10"), Number(day) < 0 ? Number(day) : Number(day) - 1),
      perCubicMm,
    }));
    expect(judgeMucosalBarrier(surveillance({ specimens, signs }), specimens, { ...none, cellCounts }).flag).toBe(flag);
  });

  test("one commensal beside a gut organism does not undo it, two that match do; nor do viridans streptococci", () => {
    // the manual, "Blood Specimen Collection" 3, "Pathogen Exclusions" 3, and table 2, note 1
    const beside = (...others: readonly string[]) => {
      const specimens = ["Escherichia coli", ...others].map((organism, at) => ({
        ...specimen(organism),
        occasion: `${at}`,
      }));
      return judgeMucosalBarrier(surveillance({ specimens }), specimens, few("2025-06-09", "2025-06-10"));
    };
    expect(beside("Staphylococcus epidermidis").flag).toBe("met");
    expect(beside("Staphylococcus epidermidis", "Staphylococcus epidermidis").flag).toBe("not met");
    expect(beside("Staphylococcus epidermidis", "Staphylococcus hominis").flag).toBe("met");
    expect(beside("Streptococcus mitis", "Streptococcus mitis").flag).toBe("met");
    const odd = beside("Hafnia alvei");
    expect(odd.flag).toBe("not known");
    expect(odd.findings.map(sayFinding)[0]).toBe("Hafnia alvei: on no list. Of the gut, of the skin, or another?");
  });

  test("what the manual excludes makes no event; its anaerobes and Rothia do", () => {
    // the manual, "Pathogen Exclusions" b and c; gut organisms of the criteria of 2013
    const of = (organism: string) => surveillance({ specimens: [specimen(organism)] }).flag;
    for (const name of [
      "Salmonella enterica",
      "Listeria monocytogenes",
      "Clostridioides difficile",
      "Vibrio vulnificus",
    ])
      expect(of(name)).toBe("not met");
    for (const name of ["Clostridium perfringens", "Fusobacterium nucleatum", "Prevotella", "Veillonella parvula"]) {
      expect(of(name)).toBe("met");
      expect(judged(name, few("2025-06-09", "2025-06-10")).flag).toBe("met");
    }
  });

  test("given an organism of another place, not met; not named or not asked, not known; no surveillance event, none", () => {
    const cells = few("2025-06-09", "2025-06-10");
    expect(judged("Staphylococcus aureus", cells).flag).toBe("not met");
    expect(judged("Escherichia coli", { ...none, cellCounts: notAsked })).toMatchObject({ flag: "not known" });
    expect(judged("Escherichia coli", { ...none, diarrhoeaFrom: notAsked }).flag).toBe("not met");
    expect(judged("Escherichia coli", cells, { secondaryToOtherSite: true }).flag).toBe("not met");
    const open = judged(notAsked, cells);
    expect(open.flag).toBe("not known");
    expect(open.findings.map(sayFinding)).toEqual(["Mucosal barrier: first settle the surveillance flag."]);
    const two = [specimen("Escherichia coli"), specimen("Staphylococcus aureus")];
    const mixed = judgeMucosalBarrier(surveillance({ specimens: two }), two, cells);
    expect(mixed.findings.map(sayFinding)[0]).toBe("Staphylococcus aureus: not of the gut or mouth.");
  });

  test("given commensals, only those of the mouth make it", () => {
    const twice = (organism: string) => {
      const specimens = ["1", "2"].map((occasion) => ({ drawnOn: on("2025-06-10"), occasion, organism }));
      const signs = [{ kind: "chills" as const, on: on("2025-06-10") }];
      return judgeMucosalBarrier(surveillance({ specimens, signs }), specimens, few("2025-06-09", "2025-06-10")).flag;
    };
    expect(twice("Streptococcus mitis")).toBe("met");
    expect(twice("Rothia mucilaginosa")).toBe("met");
    expect(twice("Staphylococcus epidermidis")).toBe("not met");
  });
});

describe("skin, phlebitis and clots", () => {
  test("given signs beyond the exit, the tunnel decides the name; nothing asked, nothing named", () => {
    const skin = (reachesCm: number, alongTunnel: Maybe<boolean>) =>
      judgeSkinSigns({ present: true, reachesCm: centimetre(reachesCm), alongTunnel }, infection);
    expect(skin(3, false).findings.map(sayFinding)).toEqual([
      "Signs reach 3.0\u202fcm, no tunnel: neither by definition. Call it cellulitis.",
    ]);
    expect(skin(3, notAsked).kind).toBe("not known");
    expect(judgeSkinSigns({ present: notAsked, reachesCm: notAsked, alongTunnel: notAsked }, infection).kind).toBe(
      "not known",
    );
  });

  test("given a missing sign that could raise the grade, the grade is a range and says what it was made for", () => {
    const signs = { pain: true, redness: true, swelling: false, hardness: notAsked, cord: false, fever: false };
    expect(phlebitisGrade(signs)).toEqual({ grade: undefined, between: [2, 3] });
    expect(phlebitisSentence(phlebitisGrade(signs))).toBe(
      "Phlebitis grade 2 to 3 of 5: look for what is missing. The scale was made for cannulas.",
    );
    expect(phlebitisGrade({ ...signs, hardness: false }).grade).toBe(2);
  });

  const facts = { catheterOrLead: true, localPain: false, oneSidedOedema: false, otherDiagnosisAsLikely: false };

  test("given a line and swelling, a clot is likely and imaged; a line alone without symptom is not scanned", () => {
    const suspicion = (
      more: object,
      symptoms: Maybe<boolean>,
      dDimer: Maybe<"normal" | "raised" | "not done"> = notAsked,
    ) => judgeClotSuspicion({ ...facts, ...more }, symptoms, dDimer, clot).findings.map(sayFinding)[0];
    expect(suspicion({ oneSidedOedema: true }, true)).toBe("Score 2: a clot is likely. Ultrasound first.");
    expect(suspicion({}, false)).toBe("No symptom. The line alone gives 1: no scan for a score alone.");
    expect(suspicion({}, notAsked)).toBe("Is there pain, swelling or a change of colour?");
    expect(suspicion({}, true)).toBe("Score 1, below 2: D-dimer, or ultrasound.");
    // the D-dimer finds 96 in 100 clots (87 to 99; pooled review, PMC7284086): unlikely, never "no clot"
    expect(suspicion({}, true, "normal")).toBe(
      "Score 1, normal D-dimer: a clot is unlikely, as published. Symptoms that stay: ultrasound.",
    );
    expect(suspicion({}, true, "raised")).toBe("D-dimer raised: ultrasound.");
    expect(suspicion({ localPain: notAsked }, true)).toBe("Score 1 to 2: answer what is missing, or image.");
    expect(clotScoreSentence(clotScore({ ...facts, oneSidedOedema: true }))).toBe(
      "Score 2, high: 70 in 100 had a clot in the study.",
    );
  });

  test("given the vein, its imaging criterion is compression, or flow where bone covers it", () => {
    const image = (vein: "brachial" | "subclavian", compresses: Maybe<boolean>, flow: Maybe<"phasic" | "none">) =>
      judgeClotImage({ vein, compresses, fillingDefect: false, flow });
    expect(image("brachial", false, notAsked)).toMatchObject({ flag: "met", depth: "deep" });
    expect(image("brachial", true, notAsked).flag).toBe("not met");
    expect(image("subclavian", false, "phasic").flag).toBe("not met");
    expect(image("subclavian", true, "none").flag).toBe("met");
    expect(image("subclavian", true, notAsked).flag).toBe("not known");
  });
});

describe("keep or remove", () => {
  const infected: InfectedLine = {
    shockOrSevereSepsis: false,
    septicThrombophlebitis: false,
    endocarditis: false,
    tunnelInfectionOrPus: false,
    stillGrowsAfterHours: 0,
    organism: "Staphylococcus epidermidis",
    otherSource: false,
    lineInfectionShown: true,
    needed: true,
    otherAccess: true,
  };
  const met = (more: Partial<InfectedLine>) =>
    infectionCriteria({ ...infected, ...more }, removalOrganisms, infection)
      .forRemoval.filter(({ verdict }) => verdict === "met")
      .map(({ code }) => code);

  test.each([
    ["remove-shock", { shockOrSevereSepsis: true }],
    ["remove-septic-thrombophlebitis", { septicThrombophlebitis: true }],
    ["remove-endocarditis", { endocarditis: true }],
    ["remove-tunnel-or-pus", { tunnelInfectionOrPus: true }],
    ["remove-still-grows", { stillGrowsAfterHours: 72 }],
    ["remove-organism", { organism: "Staphylococcus aureus" }],
    ["remove-not-needed", { needed: false }],
  ] as const)("given %s, that criterion is met and no other", (code, more) => expect(met(more)).toEqual([code]));

  test("given criteria, the words name who decides and hold no verdict", () => {
    const lines = criteriaLines(
      infectionCriteria({ ...infected, organism: notAsked }, removalOrganisms, infection),
      sayFinding,
    );
    expect(lines[0]).toBe("Decided by the treating team with infection specialist.");
    expect(lines).toContain("- not known: Which organism grew?");
    expect(lines.join(" ")).not.toMatch(/\b(should|must|recommended|remove it|keep it|safe)\b/i);
  });

  test("given a clot in a needed working line, every criterion for keeping is met; not needed, one for removal", () => {
    const line = {
      needed: true,
      working: true,
      infected: false,
      symptomsPersistOnTreatment: false,
      bleedingBarsTreatment: false,
    };
    const { forKeeping, forRemoval, decides } = clotCriteria(line, clot);
    expect(forKeeping.every(({ verdict }) => verdict === "met")).toBe(true);
    expect(forRemoval.every(({ verdict }) => verdict === "not met")).toBe(true);
    expect(decides).toBe("treating team with clot specialist");
    expect(
      sayFinding(clotCriteria({ ...line, needed: false }, clot).forRemoval[0] as (typeof forRemoval)[number]),
    ).toBe("Not needed. Guidelines finish at least 3 months of treatment.");
  });
});
