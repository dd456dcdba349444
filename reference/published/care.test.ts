import { minutesBetween, parseInstant, type Instant } from "../../src/core/calendar/index.ts";
import {
  careDue,
  daysSaved,
  judgeArmCircumference,
  judgeRemoval,
  lyticDose,
  nextPatencyStep,
  nextResistanceStep,
  occlusionKind,
  type DueItem,
  type LineCare,
} from "../../src/core/care/index.ts";
import { missing } from "../../src/core/missing/index.ts";
import { centimetre, kilogram, millilitre } from "../../src/core/quantity/index.ts";
import {
  armLimitsFrom,
  careLimitsFrom,
  defaultPolicyTable,
  idleLimitsFrom,
  patencyLimitsFrom,
  removalLimitsFrom,
} from "../../src/policy/index.ts";
import { checkAgainst } from "../check.ts";
import { blockedLine } from "../blocked-line.ts";

const at = (text: string) => parseInstant(text) as Instant;
const notKnown = missing("not known");
const care = careLimitsFrom(defaultPolicyTable);
const patency = patencyLimitsFrom(defaultPolicyTable);
const removal = removalLimitsFrom(defaultPolicyTable);

const line = (more: Partial<LineCare>): LineCare => ({
  id: "line",
  setting: "ward",
  person: "a nurse",
  place: "ward 3",
  nextOn: notKnown,
  dressing: notKnown,
  connector: notKnown,
  flushedAt: notKnown,
  sets: [],
  reviewedAt: notKnown,
  ...more,
});
const item = (more: Partial<LineCare>, now: string, name: DueItem["item"]): DueItem =>
  careDue(line(more), at(now), care).find((one) => one.item === name) as DueItem;

/** 2025-08-12 as 20250812, so that a whole date is compared as one number. */
const dateNumber = (text: string | undefined): number => Number((text ?? "").replaceAll("-", ""));

const dressed = (type: "transparent" | "gauze", state: "sound" | "wet" = "sound") => ({
  dressing: { type, doneAt: at("2025-08-05T10:00+02:00"), state },
});

checkAgainst(
  {
    quantity: "Day a dressing of Tue 5 Aug 2025 is due",
    unit: "date as a number",
    source:
      "O'Grady NP and others 2011, guideline on catheter infections, CDC: 7 days and 2 days (from memory), by a calendar",
    kind: "published",
    tolerance: 0,
    comparisons: 3,
  },
  (compare) => {
    const due = (more: Partial<LineCare>, now: string) => dateNumber(item(more, now, "dressing").dueOn);
    compare("transparent", due(dressed("transparent"), "2025-08-06T08:00+02:00"), 20250812);
    compare("gauze", due(dressed("gauze"), "2025-08-06T08:00+02:00"), 20250807);
    compare("wet, seen on 8 Aug", due(dressed("transparent", "wet"), "2025-08-08T08:00+02:00"), 20250808);
  },
);

const STATES = ["not before", "due on", "due now", "overdue"];

checkAgainst(
  {
    quantity: "How a care stands by its hours",
    unit: "index of not before, due on, due now, overdue",
    source:
      "Infusion nursing standards 2021 and CDC 2011: connector and continuous set not under 96 h, set at most 7 days (from memory); O'Grady NP and others 2002, MMWR 51(RR-10): lipid 12 h, blood 4 h",
    kind: "published",
    tolerance: 0,
    comparisons: 8,
  },
  (compare) => {
    const now = "2025-08-08T12:00+02:00";
    const before = (hours: number) => {
      const day = 8 - Math.ceil((hours - 12) / 24);
      const hour = (12 - (hours % 24) + 24) % 24;
      return at(`2025-08-${String(day).padStart(2, "0")}T${String(hour).padStart(2, "0")}:00+02:00`);
    };
    const state = (one: DueItem) => STATES.indexOf(one.state);
    const connector = (hours: number, reason: "none" | "blood") =>
      state(item({ connector: { changedAt: before(hours), reason } }, now, "connector"));
    const set = (kind: LineCare["sets"][number]["kind"], hours: number) =>
      state(item({ sets: [{ kind, startedAt: before(hours) }] }, now, "administration set"));
    compare("connector 60 h, clean: not due", connector(60, "none"), 0);
    compare("connector 60 h, blood in it: now", connector(60, "blood"), 2);
    compare("continuous set at 90 h: not due", set("continuous", 90), 0);
    compare("continuous set at 7 days less an hour", set("continuous", 167), 1);
    compare("lipid alone, 13 h: overdue", set("lipid", 13), 3);
    compare("lipid alone, 11 h", set("lipid", 11), 1);
    compare("blood, 5 h: overdue", set("blood", 5), 3);
    const eight = item(
      { sets: [{ kind: "continuous", startedAt: at("2025-07-31T12:00+02:00") }] },
      now,
      "administration set",
    );
    compare("continuous set at 8 days: overdue", state(eight), 3);
  },
);

checkAgainst(
  {
    quantity: "Volume of one lytic dose",
    unit: "mL",
    source: "Alteplase catheter-clearance label: 2 mg from 30 kg; below, 110 % of the lumen at 1 mg/mL, at most 2 mg",
    kind: "published",
    tolerance: 1e-12,
    comparisons: 6,
  },
  (compare) => {
    const volume = (weightKg: number, lumenMl: number | undefined): number => {
      const labelLumenMl = lumenMl === undefined ? notKnown : millilitre(lumenMl);
      const dose = lyticDose({ weightKg: kilogram(weightKg), labelLumenMl }, patency);
      return dose.kind === "dose" ? dose.volumeMl : Number.NaN;
    };
    compare("14 kg, 0.30 mL", volume(14, 0.3), 0.33);
    compare("12 kg, 0.35 mL", volume(12, 0.35), 0.385);
    compare("12 kg, 0.6 mL", volume(12, 0.6), 0.66);
    compare("28 kg, 2.2 mL: the largest dose", volume(28, 2.2), 2);
    compare("40 kg, lumen not known", volume(40, undefined), 2);
    compare("30 kg, 0.35 mL", volume(30, 0.35), 2);
  },
);

checkAgainst(
  {
    quantity: "Minutes after a lytic dose at which blood is looked for next",
    unit: "min",
    source: "Alteplase catheter-clearance label: 30 min, then 120 min, then one equal dose",
    kind: "published",
    tolerance: 0,
    comparisons: 4,
  },
  (compare) => {
    const given = at("2025-06-03T09:00+02:00");
    const dose = (first: boolean | undefined, second: boolean | undefined) => ({
      at: given,
      bloodAtFirstCheck: first ?? notKnown,
      bloodAtSecondCheck: second ?? notKnown,
    });
    const next = (now: string, first?: boolean, second?: boolean) =>
      nextPatencyStep({ ...blockedLine, lytic: [dose(first, second)] }, at(now), patency);
    const due = (step: ReturnType<typeof next>) => (step.dueAt ? minutesBetween(given, step.dueAt) : Number.NaN);
    compare("10 min in", due(next("2025-06-03T09:10+02:00")), 30);
    compare("no return at 30 min: wait to 120", due(next("2025-06-03T09:31+02:00", false)), 120);
    const after = next("2025-06-03T11:00+02:00", false, false);
    compare("no return at 120 min: one repeat", after.step === "second lytic" ? 1 : 0, 1);
    compare("the repeat is the same", after.dose?.kind === "dose" ? after.dose.doseMg : Number.NaN, 2);
  },
);

const KINDS = ["open", "withdrawal occlusion", "partial occlusion", "complete occlusion"];

checkAgainst(
  {
    quantity: "Kind of occlusion by flushing and blood return",
    unit: "index of open, withdrawal, partial, complete",
    source:
      "classes of a published hospital policy on occlusion management, undated: no blood is an occlusion though it flushes",
    kind: "published",
    tolerance: 0,
    comparisons: 4,
  },
  (compare) => {
    compare("flushes, no blood", KINDS.indexOf(occlusionKind("freely", "none") ?? ""), 1);
    compare("sluggish", KINDS.indexOf(occlusionKind("slowly", "slowly") ?? ""), 2);
    compare("nothing", KINDS.indexOf(occlusionKind("not at all", "none") ?? ""), 3);
    compare("both freely", KINDS.indexOf(occlusionKind("freely", "freely") ?? ""), 0);
  },
);

checkAgainst(
  {
    quantity: "Stuck on removal: a clot is thought of",
    unit: "1 when it is",
    source:
      "teaching module on difficult removals, a university faculty of medicine: stuck before 10 cm is out suggests a clot",
    kind: "published",
    tolerance: 0,
    comparisons: 3,
  },
  (compare) => {
    const clot = (withdrawnCm: number) =>
      nextResistanceStep(
        {
          withdrawnCm: centimetre(withdrawnCm),
          rePositioned: false,
          heatedAt: notKnown,
          dressedAt: notKnown,
          retriedAfterRest: false,
        },
        at("2025-06-03T09:00+02:00"),
        removal,
      ).findings.some(({ code }) => code === "removal-stuck-think-clot")
        ? 1
        : 0;
    compare("6 cm out", clot(6), 1);
    compare("9.9 cm out", clot(9.9), 1);
    compare("10 cm out", clot(10), 0);
  },
);

checkAgainst(
  {
    quantity: "Length missing at removal",
    unit: "cm",
    source: "common practice, no source: length out and later trimming make the length placed, within 0.5 cm",
    kind: "trade",
    tolerance: 1e-9,
    comparisons: 5,
  },
  (compare) => {
    const out = (placed: number, trimmed: number, length: number) =>
      judgeRemoval(
        {
          placedCm: centimetre(placed),
          trimmedLaterCm: centimetre(trimmed),
          outCm: centimetre(length),
          tipIntact: true,
          infectionSuspected: false,
          tipSentForCulture: false,
        },
        removal,
      );
    compare("45 placed, 40 out", out(45, 0, 40).missingCm ?? Number.NaN, 5);
    compare("40 out is incomplete", out(45, 0, 40).completeness === "incomplete" ? 1 : 0, 1);
    compare("45 placed, 5 trimmed later, 40 out", out(45, 5, 40).missingCm ?? Number.NaN, 0);
    compare("half a centimetre is within", out(45.3, 0, 44.8).completeness === "complete" ? 1 : 0, 1);
    compare("six millimetres are not", out(45.3, 0, 44.7).completeness === "incomplete" ? 1 : 0, 1);
  },
);

checkAgainst(
  {
    quantity: "Rise of the arm's girth with swelling",
    unit: "1 when it calls for ultrasound",
    source: "Infusion nursing standards, mid-arm circumference: 3 cm with oedema (from memory)",
    kind: "published",
    tolerance: 0,
    comparisons: 2,
  },
  (compare) => {
    const image = (nowCm: number) =>
      judgeArmCircumference(
        {
          baseline: { circumferenceCm: centimetre(28), atCm: centimetre(10) },
          now: { circumferenceCm: centimetre(nowCm), atCm: centimetre(10) },
          symptoms: true,
          oedema: true,
        },
        armLimitsFrom(defaultPolicyTable),
      ).findings.some(({ code }) => code === "arm-rise-with-oedema")
        ? 1
        : 0;
    compare("3.0 cm", image(31), 1);
    compare("2.9 cm", image(30.9), 0);
  },
);

checkAgainst(
  {
    quantity: "Infections in idle days saved",
    unit: "infections",
    source: "arithmetic by hand: 60 days at 1.16 per 1,000",
    kind: "by-hand",
    tolerance: 1e-12,
    comparisons: 1,
  },
  (compare) =>
    compare(
      "five lines of 12 days",
      daysSaved([12, 12, 12, 12, 12], idleLimitsFrom(defaultPolicyTable)).infections,
      0.0696,
    ),
);
