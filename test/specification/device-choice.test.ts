import { describe, expect, test } from "vitest";
import { readReferral, type ReferralFile } from "../../src/contract/index.ts";
import { parseCivilDate, type CivilDate } from "../../src/core/calendar/index.ts";
import { answerReferral, type ReferralAnswer, type ReferralPolicy } from "../../src/core/device-choice/index.ts";
import { deviceSentence, rangeLines, reasonRule, sayFinding, wardLines } from "../../src/language/index.ts";
import { defaultPolicyTable, needPolicyFrom, ruleOrigin, starterInfusates, whyOfRule } from "../../src/policy/index.ts";
import { practiceReferrals } from "../../src/practice/index.ts";

/** Device choice as pages a clinician can read: who, what for, and the sentence that comes back. */
const today = parseCivilDate("2026-11-25") as CivilDate;
const policy = needPolicyFrom(defaultPolicyTable);
const ordinary = practiceReferrals[0]?.referral as ReferralFile;
const adult = { age: { value: 60, unit: "years" }, sex: "male" } as const;

type Change = { readonly [Field in keyof ReferralFile]?: unknown };

function answer(change: Change, under: ReferralPolicy = policy): ReferralAnswer {
  const reading = readReferral({ ...ordinary, patient: adult, ...change }, starterInfusates);
  if (reading.kind === "faults") throw new Error(JSON.stringify(reading.faults));
  return answerReferral(reading.referral, under, today);
}

const sentence = (change: Change, under?: ReferralPolicy) => deviceSentence(answer(change, under).device);

const picc = (change: Change, under?: ReferralPolicy) => {
  const { device } = answer(change, under);
  return device.outcome === "ask" ? device.question : device.picc?.rating;
};

const found = (change: Change, under?: ReferralPolicy) => {
  const { kidney, infusates, notes } = answer(change, under);
  return [...infusates.flatMap((one) => one.findings), ...kidney.findings, ...notes];
};

const codes = (change: Change, under?: ReferralPolicy) => found(change, under).map(({ code }) => code);

describe("an adult on a ward, a drug a small vein tolerates (Chopra 2015, abstract)", () => {
  test.each([
    [4, "Not a PICC: a short cannula."],
    [5, "Not a PICC: a short cannula."],
    [6, "Not a PICC: a long cannula by ultrasound or a midline."],
    [10, "Not a PICC: a long cannula by ultrasound or a midline."],
    [14, "Not a PICC: a long cannula by ultrasound or a midline."],
    [15, "A PICC."],
    [31, "A PICC, a tunnelled cuffed line or an implanted port."],
  ])("%i days: %s", (days, words) => expect(sentence({ days })).toBe(words));

  test("at five days a PICC is inappropriate, at six no longer", () => {
    expect(picc({ days: 5 })).toBe("inappropriate");
    expect(picc({ days: 6 })).toBe("appropriate");
  });

  test("twelve days or sixteen: the range decides, and the team is asked", () => {
    const { device } = answer({ days: { least: 12, likely: 12, most: 16 } });
    expect(device.outcome === "ask" ? [] : rangeLines(device)).toEqual([
      "12 to 14 days: a long cannula by ultrasound or a midline.",
      "15 to 16 days: a PICC.",
      "Ask the team which is real.",
    ]);
  });
});

describe("drugs that need a tip near the heart", () => {
  test("a vesicant against cancer, three days: a PICC is appropriate (Chopra 2015, abstract)", () => {
    expect(picc({ days: 3, cancer: "solid", infusates: ["doxorubicin"] })).toBe("appropriate");
    const { device } = answer({ days: 3, cancer: "solid", infusates: ["doxorubicin"] });
    expect(device.outcome === "ask" ? "" : ruleOrigin(device.picc?.rules[0])).toContain("Chopra V and others 2015");
  });

  test.each([3, 10, 20, 40])(
    "a vesicant by midline at %i days: inappropriate (from memory of the same tables)",
    (days) => {
      const { device } = answer({ days, infusates: ["vincristine"] });
      if (device.outcome === "ask") throw new Error("asked");
      expect(device.ranked.find((one) => one.device === "midline")?.rating).toBe("inappropriate");
    },
  );

  test("osmolarity 700: peripheral under a limit of 900, central under 600 (infusion standards 2016 and 2011)", () => {
    const bag = { name: "mixed bag", osmolarity: 700, ph: 6, tissueClass: "neither" } as const;
    const strict = { ...policy, infusate: { ...policy.infusate, osmolarity: 600 } };
    expect(answer({ infusates: [bag] }).infusates[0]?.route).toBe("peripheral");
    expect(answer({ infusates: [bag] }, strict).infusates[0]?.route).toBe("central");
  });

  test("adult nutrition of 880: within 900 (Boullata 2014), above 850 (ESPEN 2009, from memory)", () => {
    const bag = { name: "nutrition", osmolarity: 880, ph: 6, tissueClass: "neither", nutrition: true } as const;
    const older = { ...policy, infusate: { ...policy.infusate, nutritionOsmolarityAdult: 850 } };
    expect(answer({ infusates: [bag] }).infusates[0]?.route).toBe("peripheral");
    expect(answer({ infusates: [bag] }, older).infusates[0]?.route).toBe("central");
  });

  test("a compounded bag is added up from its parts: 40 g amino acid, 100 g glucose, 50 mmol salts in a litre is 1,000", () => {
    const bag = { volumeMl: 1000, aminoAcidG: 40, glucoseG: 100, monovalentSaltsMmol: 50 };
    const [judged] = answer({ infusates: [{ name: "parenteral nutrition", bag }] }).infusates;
    expect(judged?.infusate.osmolarity).toBe(1000);
    expect(judged?.route).toBe("central");
    expect(judged?.findings.map(sayFinding)).toContain("parenteral nutrition: 1000 mOsm/L, above the 900 set here.");
  });

  test("pH 4.5: asked about under 5 to 9 (oncology standards 2017), not under 4 to 9 (Manrique-Rodriguez 2021)", () => {
    const drug = { name: "drug", osmolarity: 300, ph: 4.5, tissueClass: "neither" } as const;
    const wide = { ...policy, infusate: { ...policy.infusate, phFrom: 4 } };
    expect(codes({ infusates: [drug] })).toContain("infusate-ph-outside");
    expect(codes({ infusates: [drug] }, wide)).not.toContain("infusate-ph-outside");
  });

  test("bendamustine is held as a vesicant and oxaliplatin on the stricter side, both marked as disputed", () => {
    for (const name of ["bendamustine", "oxaliplatin"])
      expect(codes({ infusates: [name] })).toEqual(
        expect.arrayContaining(["infusate-vesicant", "infusate-class-disputed"]),
      );
  });

  test("a drug nobody knows is asked about, and a PICC is not named meanwhile", () => {
    expect(codes({ infusates: ["compound 7"] })).toContain("infusate-class-not-known");
    expect(sentence({ days: 20, infusates: ["compound 7"] })).toBe(
      "PICC not excluded. Still to ask before it is chosen.",
    );
  });
});

describe("critical illness and blood samples (summary of the 2015 panel)", () => {
  test("unstable, ten days, central drug: a short-term central line before a PICC", () => {
    expect(sentence({ days: 10, criticallyIll: "yes", setting: "intensive care", infusates: ["noradrenaline"] })).toBe(
      "Not a PICC: a short-term central line.",
    );
  });

  test("monitoring for fifteen days or more: a PICC may be considered", () => {
    const monitoring = { criticallyIll: "yes", purpose: "monitoring", infusates: ["noradrenaline"] } as const;
    expect(picc({ ...monitoring, days: 14 })).toBe("inappropriate");
    expect(picc({ ...monitoring, days: 15 })).toBe("appropriate");
  });

  test("blood every eight hours for six days: appropriate, and a midline first", () => {
    expect(picc({ days: 6, sampleEveryHours: 8 })).toBe("appropriate");
    expect(sentence({ days: 6, sampleEveryHours: 8 })).toBe("Not a PICC: a midline.");
  });

  test("blood every twelve hours from good veins is no reason (from memory)", () => {
    expect(picc({ days: 6, sampleEveryHours: 12, purpose: "sampling only" })).toBe("inappropriate");
  });
});

describe("the kidney (Chopra 2022; National Kidney Foundation 2006; Hoggard 2008)", () => {
  const value = (filtration: number) => ({ days: 20, kidney: { replacement: "none", filtration } }) as const;

  test("44 keeps both arms, 45 does not", () => {
    expect(picc(value(44))).toBe("barred");
    expect(picc(value(45))).toBe("uncertain");
  });

  test("59: the veins are assessed with the kidney team first; 60 has no objection", () => {
    expect(codes(value(59))).toContain("kidney-assess-veins");
    expect(codes(value(60))).toContain("kidney-open");
  });

  test("under the 2006 limit of 30, 29 bars and 44 does not", () => {
    const older = { ...policy, kidney: { ...policy.kidney, barBelow: 30 } };
    expect(picc(value(29), older)).toBe("barred");
    expect(picc(value(44), older)).toBe("uncertain");
  });

  test("on dialysis with no number: barred, not unknown", () => {
    const { kidney } = answer({ days: 20, kidney: { replacement: "dialysis" } });
    expect(kidney.standing).toBe("barred");
    expect(sentence({ days: 20, kidney: { replacement: "dialysis" } })).toBe(
      "Not a PICC: a small tunnelled line in the neck.",
    );
  });

  test("168 µmol/L and 1.9 mg/dL are one value, and both are shown", () => {
    const patient = { age: { value: 58, unit: "years" }, sex: "female" } as const;
    for (const creatinine of [
      { value: 168, unit: "umol/L", on: "2026-11-24" },
      { value: 1.9, unit: "mg/dL", on: "2026-11-24" },
    ] as const) {
      const change = { patient, kidney: { replacement: "none", creatinines: [creatinine] } } as const;
      const said = found(change).map(sayFinding).join(" ");
      expect(said).toMatch(/1\.90\smg\/dL, which is 168\sµmol\/L/);
      expect(answer(change).kidney.filtration).toBeCloseTo(30.2, 0);
    }
  });

  test("acutely ill with one value: what was it before?", () => {
    const kidney = {
      replacement: "none",
      creatinines: [{ value: 1.2, unit: "mg/dL", on: "2026-11-24" }],
    } as const;
    expect(codes({ kidney, criticallyIll: "yes" })).toContain("creatinine-baseline-missing");
    expect(codes({ kidney, criticallyIll: "no" })).not.toContain("creatinine-baseline-missing");
  });

  test("48, then 39 a year later: falling 9 a year, a rough line and no forecast", () => {
    const of = (value: number, on: string) => ({ value, unit: "mg/dL", on }) as const;
    const { kidney } = answer({
      kidney: { replacement: "none", creatinines: [of(1.7, "2026-11-20"), of(1.43, "2025-11-20")] },
    });
    expect(kidney.trendPerYear).toBeLessThan(-5);
    expect(kidney.findings.map(sayFinding).join(" ")).toContain("A rough line, not a forecast.");
  });
});

describe("cancer (panel of 2025, abstract and snapshot)", () => {
  test("a solid tumour, nine months, not urgent: port or tunnelled line, one lumen, a PICC not first", () => {
    const change = { days: 270, cancer: "solid", urgent: "no", infusates: ["paclitaxel"] } as const;
    expect(sentence(change)).toBe("Not a PICC: a tunnelled cuffed line or an implanted port.");
    const { device } = answer(change);
    expect(device.outcome === "ask" ? 0 : device.lumens).toBe(1);
  });

  test("acute leukaemia, urgent: a double-lumen PICC or a tunnelled line, no port", () => {
    const { device } = answer({ days: 60, cancer: "blood", urgent: "yes", infusates: ["daunorubicin"] });
    if (device.outcome === "ask") throw new Error("asked");
    expect(deviceSentence(device)).toBe("A PICC or a tunnelled cuffed line.");
    expect(device.lumens).toBe(2);
    expect(device.ranked.find((one) => one.device === "implanted port")?.rating).toBe("inappropriate");
  });
});

describe("children and newborns have their own tables (Ullman 2020, companion paper S298)", () => {
  const child = { patient: { age: { value: 7, unit: "years" }, sex: "male", heightCm: 122 } } as const;
  test.each([
    [7, "inappropriate"],
    [8, "uncertain"],
    [14, "uncertain"],
    [15, "appropriate"],
  ])("a child of seven on ceftriaxone for %i days: %s", (days, rating) => {
    expect(picc({ ...child, days })).toBe(rating);
  });

  test("a newborn's nutrition goes through a central catheter (NICE NG154 2020)", () => {
    const newborn = { patient: { age: { value: 6, unit: "days" } } } as const;
    expect(picc({ ...newborn, days: 10, infusates: ["parenteral nutrition"] })).toBe("appropriate");
  });

  test("no age, no rule: the age is asked", () => {
    expect(sentence({ patient: {} })).toBe("How old is the patient? Without the age no rule applies.");
  });
});

describe("do not place, and the note for the ward", () => {
  const note = (id: string) => {
    const file = practiceReferrals.find((one) => one.id === id)?.referral as ReferralFile;
    const one = answer(file);
    const rule = one.device.outcome === "ask" ? undefined : one.device.picc?.rules[0];
    return wardLines(one, whyOfRule(rule) ?? "");
  };

  test("four days", () =>
    expect(note("four-days")).toEqual([
      "Thank you for the referral. For 4 days we suggest a short cannula, not a PICC. A few days of a drug a peripheral vein tolerates do not need a PICC.",
      "If the days, the drugs or the kidney value are different, please call us again.",
    ]));
  test("dialysis", () =>
    expect(note("on-dialysis")?.[0]).toBe(
      "Thank you for the referral. For 42 days we suggest a small tunnelled line in the neck, not a PICC. The arm veins are kept for dialysis.",
    ));
  test("nobody to flush it", () =>
    expect(note("nobody-at-home")?.[0]).toBe(
      "Thank you for the referral. For 21 days we suggest no line: a day unit, tablets or a stay, not a PICC. A line that nobody flushes and dresses blocks, or infects.",
    ));
});

describe("a first answer after four fields: age, days, drug, kidney", () => {
  const four = {
    patient: adult,
    days: 20,
    infusates: ["ceftriaxone"],
    kidney: { replacement: "none", filtration: 90 },
  };
  const of = (file: unknown) => {
    const reading = readReferral(file, starterInfusates);
    if (reading.kind === "faults") throw new Error(JSON.stringify(reading.faults));
    return answerReferral(reading.referral, policy, today).device;
  };

  test("never PICC: not excluded, and the arms are still to ask", () => {
    const device = of(four);
    expect(device.outcome).toBe("not excluded");
    expect(device.outcome === "ask" ? [] : device.stillToAsk).toEqual(["armBars"]);
  });

  test("of a woman of thirty, pregnancy is asked too", () => {
    const device = of({ ...four, patient: { age: { value: 30, unit: "years" }, sex: "female" } });
    expect(device.outcome === "ask" ? [] : device.stillToAsk).toEqual(["pregnancy", "armBars"]);
  });

  test("but not a PICC is said at once", () => expect(of({ ...four, days: 4 }).outcome).toBe("instead"));

  test("each of the four missing in turn never yields a PICC", () => {
    for (const field of ["patient", "days", "infusates", "kidney"]) {
      const less = { ...four, armBars: "none", [field]: field === "patient" ? {} : undefined };
      expect(of(JSON.parse(JSON.stringify(less))).outcome, field).not.toBe("PICC");
    }
  });
});

describe("what must not slip through", () => {
  const creatinine = (on: string, value = 1) => ({ replacement: "none", creatinines: [{ value, unit: "mg/dL", on }] });

  test("a kidney value that is old, of a day to come, or without its baseline never says nothing is in the way", () => {
    const doubtful: Change[] = [
      { days: 20, kidney: creatinine("2025-01-01") },
      { days: 20, kidney: creatinine("2030-01-01") },
      { days: 20, kidney: creatinine("2026-11-24"), criticallyIll: "yes", setting: "intensive care" },
      { days: 20, kidney: { replacement: "none", filtration: 80, filtrationOn: "2025-01-01" } },
    ];
    for (const change of doubtful) {
      expect(sentence(change)).toBe("PICC not excluded. Still to ask before it is chosen.");
      expect(codes(change)).not.toContain("kidney-open");
    }
    // but an old bad value still bars
    expect(picc({ days: 20, kidney: creatinine("2025-01-01", 4) })).toBe("barred");
  });

  test("eGFR 50 puts no midline into the vein it spares from a PICC: the team decides", () => {
    const kidney = { replacement: "none", filtration: 50 };
    expect(sentence({ days: 10, kidney })).toBe(
      "The team decides: a long cannula by ultrasound, a midline or a PICC. No rule settles it.",
    );
    expect(picc({ days: 10, kidney, cancer: "solid", infusates: ["doxorubicin"] })).toBe("uncertain");
    expect(picc({ days: 20, kidney, endOfLife: "yes" })).toBe("uncertain");
  });

  test("once the team has agreed, a PICC may be planned", () => {
    const change = { days: 20, patient: { age: { value: 6, unit: "days" } }, infusates: ["noradrenaline"] };
    expect(sentence(change)).toBe("The team decides: a PICC. No rule settles it.");
    expect(sentence({ ...change, teamAgreed: "yes" })).toBe("A PICC.");
  });

  test("a newborn's glucose 10 % asks the newborn unit; adult lists of irritants decide nothing", () => {
    const newborn = { patient: { age: { value: 6, unit: "days" } }, days: 2, infusates: ["glucose 10 %"] };
    expect(codes(newborn)).toContain("infusate-irritant-in-newborn");
    expect(sentence(newborn)).not.toContain("A PICC.");
  });

  test("urgent blood cancer without a drug against it follows the days: four days, a cannula", () => {
    expect(sentence({ days: 4, cancer: "blood", urgent: "yes" })).toBe("Not a PICC: a short cannula.");
  });

  test("on dialysis and critically ill, two days of noradrenaline: a short-term line", () => {
    const change = { days: 2, criticallyIll: "yes", kidney: { replacement: "dialysis" }, infusates: ["noradrenaline"] };
    expect(sentence(change)).toBe("Not a PICC: a short-term central line.");
    expect(codes(change)).toContain("give-at-dialysis");
    expect(codes(change)).not.toContain("creatinine-missing");
  });

  test("nobody to flush: a port that the centre flushes may stand, every other line is barred", () => {
    const alone = { setting: "home", carer: "nobody", infusates: ["doxorubicin"] };
    expect(sentence({ ...alone, days: 200, cancer: "solid" })).toBe("Not a PICC: an implanted port.");
    expect(sentence({ ...alone, days: 20, kidney: { replacement: "dialysis" } })).toBe("Not a PICC: no line.");
    expect(sentence({ ...alone, setting: "no fixed place", days: 20 })).toBe("Not a PICC: no line.");
  });

  test("noradrenaline cannot be swallowed, and nothing to give is asked about", () => {
    expect(sentence({ days: 3, criticallyIll: "yes", oral: "possible", infusates: ["noradrenaline"] })).toBe(
      "Not a PICC: a short-term central line.",
    );
    expect(sentence({ days: 20, infusates: [] })).toBe("Nothing is to be given through it. What is it for?");
  });

  test("in pregnancy every central line is uncertain: the team decides", () => {
    const change = {
      patient: { age: { value: 30, unit: "years" }, sex: "female" },
      pregnancy: "yes",
      days: 40,
      infusates: ["ceftriaxone"],
    };
    expect(sentence(change)).toContain("The team decides:");
  });

  test("the reason sent to the ward never praises what is not suggested", () => {
    const one = answer({ days: 3, endOfLife: "yes" });
    if (one.device.outcome === "ask") throw new Error("asked");
    expect(whyOfRule(reasonRule(one.device))).not.toContain("acceptable");
  });

  test("a child's nutrition of exactly 900 is not below 900", () => {
    const bag = { name: "nutrition", osmolarity: 900, ph: 6, tissueClass: "neither", nutrition: true };
    const child = { patient: { age: { value: 7, unit: "years" }, sex: "male", heightCm: 122 } };
    expect(answer({ ...child, infusates: [bag] }).infusates[0]?.route).toBe("central");
    expect(answer({ infusates: [bag] }).infusates[0]?.route).toBe("peripheral");
  });
});

describe("bleeding and cultures are notes and asks, never verdicts (Patel 2019, low-risk procedures)", () => {
  test.each([
    [{ inr: 2.8, platelets: 35 }, ["inr-within", "platelets-within", "platelets-trial-disagrees"]],
    [{ inr: 3.4 }, ["inr-above"]],
    [{ platelets: 20 }, ["platelets-within", "platelets-trial-disagrees"]],
    [{ platelets: 19 }, ["platelets-below", "platelets-trial-disagrees"]],
    [{ clopidogrel: true }, ["clopidogrel-continues"]],
  ])("%j", (bleeding, expected) => {
    expect(answer({ bleeding }).notes.map(({ code }) => code)).toEqual(expected);
    expect(answer({ bleeding }).notes.every(({ level }) => level !== "stop")).toBe(true);
  });

  test("platelets of 30 show the trial: 4.8 with platelets, 11.9 % without (van Baarle 2023)", () => {
    expect(
      answer({ bleeding: { platelets: 30 } })
        .notes.map(sayFinding)
        .join(" "),
    ).toMatch(/4\.8 .* 11\.9/);
  });

  test("twenty hours after the first negative culture, 28 of the usual 48 are left", () => {
    const notes = answer({ culture: { state: "negative", hoursSinceNegative: 20 } }).notes;
    expect(notes.map(sayFinding)).toEqual(["28 hours left of the usual 48. Custom, not a trial."]);
  });
});

describe("what two fields say against each other is asked about, and neither is dropped", () => {
  const faults = (change: Change) => {
    const reading = readReferral({ ...ordinary, patient: adult, ...change }, starterInfusates);
    return reading.kind === "faults" ? reading.faults.map(({ path, code }) => `${path} ${code}`) : [];
  };
  const creatinine = (value: number, on: string) => ({ value, unit: "mg/dL", on });

  test.each([
    [{ pregnancy: "yes" }, "pregnancy contradicts"],
    [
      { kidney: { replacement: "none", filtration: 85, creatinines: [creatinine(8, "2025-11-20")] } },
      "kidney.filtration contradicts",
    ],
    [
      { kidney: { replacement: "none", creatinines: [creatinine(1, "2026-11-20"), creatinine(8, "2026-11-20")] } },
      "kidney.creatinines.1.value contradicts",
    ],
    [
      { infusates: [{ name: "bag", osmolarity: 1800, bag: { volumeMl: 2000, glucoseG: 100 } }] },
      "infusates.0.osmolarity contradicts",
    ],
    [{ infusates: [{ name: "bag", bag: { volumeMl: 2000 } }] }, "infusates.0.bag missing-field"],
    [{ patient: { age: { value: 10, unit: "days" }, correctedAgeDays: 1400 } }, "patient.correctedAgeDays contradicts"],
    [{ patient: { age: { value: 1500, unit: "years" } } }, "patient.age.value out-of-range"],
  ])("%j", (change, fault) => expect(faults(change)).toEqual([fault]));

  test("a unit slip of creatinine, 0.9 in µmol/L, is hardly possible and clears nothing", () => {
    const kidney = { replacement: "none", creatinines: [{ value: 0.9, unit: "umol/L", on: "2026-11-24" }] };
    expect(codes({ days: 20, kidney })).toContain("creatinine-implausible");
    expect(sentence({ days: 20, kidney })).toBe("PICC not excluded. Still to ask before it is chosen.");
  });

  test("a local list that calls a vesicant harmless holds, and the other list is named", () => {
    const said = found({ infusates: [{ name: "doxorubicin", tissueClass: "neither", osmolarity: 300, ph: 6 }] });
    expect(said.map(sayFinding)).toContain("doxorubicin: here neither; another list says vesicant. Ask pharmacy.");
  });

  test("at 29 days whether the child was born before term decides the table, and is asked first", () => {
    const child = { age: { value: 29, unit: "days" } };
    expect(sentence({ patient: child })).toBe("Was this child born before term, and how old is it from term?");
    expect(sentence({ patient: { ...child, bornPreterm: false } })).not.toContain("born before term");
  });

  test("360 months is thirty years: pregnancy is asked", () => {
    const { device } = answer({
      patient: { age: { value: 360, unit: "months" }, sex: "female" },
      pregnancy: undefined,
      days: 20,
    });
    expect(device.outcome === "ask" ? [] : device.stillToAsk).toEqual(["pregnancy"]);
  });
});
