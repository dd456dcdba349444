import type {
  DueItem,
  DueReason,
  PatencyStep,
  PatencyStepCode,
  PatencyWhy,
  ResistanceStep,
} from "../../core/care/index.ts";
import type { CivilDate } from "../../core/calendar/index.ts";
import { isMissing } from "../../core/missing/index.ts";
import type { Finding } from "../../core/reason/index.ts";
import { sayDay, sayMoment } from "./moment.ts";
import { amount } from "./number.ts";

type Values = Finding["values"];
const n = (values: Values, key: string): number => Number(values[key]);
const t = (values: Values, key: string): string => String(values[key]);
const cm = (values: Values, key: string): string => amount(n(values, key), "cm");

/** What looking after a line found: handover, need, lytic, removal and the arm. */
export const careSentences: Readonly<Record<string, (values: Values, finding: Finding) => string>> = {
  "handover-without-person": (v) => `No ${t(v, "kind")} yet: nobody is named for the next care.`,
  "handover-without-place": (v) => `No ${t(v, "kind")} yet: where will the next care be?`,
  "handover-without-date": (v) => `No ${t(v, "kind")} yet: when is the next care?`,
  "handover-date-past": (v) =>
    `No ${t(v, "kind")} yet: the next date, ${sayDay(t(v, "nextOn") as CivilDate)}, has passed.`,
  "handover-complete": () => "The next care has a person, a place and a date.",
  "need-planned-end-missing": () => "When is the line planned to come out?",
  "need-planned-end-passed": (v) =>
    `The planned end, ${sayDay(t(v, "end") as CivilDate)}, passed ${counted(n(v, "days"), "day")} ago. Still needed?`,
  "need-last-use-missing": () => "When was the line last used?",
  "need-no-use": (v) =>
    `Not used for ${longTime(n(v, "hours"))}; ${longTime(n(v, "limit"))} is the limit here. Still needed?`,
  "need-changed-to-tablets": () => "The drug changed to tablets. Is the line still needed?",
  "need-only-blood-sampling": () => "Only blood sampling is left. Is the line still needed?",
  "need-second-device": () => "A second device does the job. Is the line still needed?",
  "need-nobody-flushes": () => "Nobody is named to flush it. Who will?",
  "need-not-asked": (v) => needQuestions[t(v, "about")] ?? "One fact about the need has not been asked.",
  "need-placed-on-missing": () => "When was the line placed?",
  "need-covered-before-removal": (v) =>
    `Before it comes out: are the next drug, cycle and ${n(v, "hours")} hours covered?`,
  "long-dwell-review": (v) =>
    `In place ${counted(n(v, "days"), "day")}: review need, skin, hub, length and other devices.`,
  "lytic-weight-missing": () => "What does the patient weigh? Without it no dose.",
  "lytic-lumen-volume-missing": () => "What lumen volume does the label give? The French size does not tell.",
  "lytic-time-ahead": () => "The dose is written at a time to come. Check the clock.",
  "lytic-before-mechanical-steps": (v, f) =>
    `${lyticWord(f)}: still to try: ${(v["left"] as readonly string[]).join(", ")}.`,
  "lytic-before-outside-length": (_, f) => `${lyticWord(f)}: the outside length has not been compared.`,
  "lytic-before-kind": (_, f) => `${lyticWord(f)}: does it flush, and does it give blood?`,
  "lytic-before-cause": (_, f) => `${lyticWord(f)}: what ran before it blocked?`,
  "lytic-before-symptoms": (_, f) => `${lyticWord(f)}: ask for pain and a sound in the ear.`,
  "lytic-before-film": (v, f) => `${lyticWord(f)}: film first, ${whyWords[t(v, "why") as PatencyWhy]}.`,
  "lytic-with-tip-elsewhere": (_, f) => `${lyticWord(f)}: the film shows the tip elsewhere.`,
  "lytic-for-precipitate": (_, f) => `${lyticWord(f)}: a precipitate is likely. Ask pharmacy.`,
  "no-force-on-resistance": (v) => `No force: never a syringe under ${n(v, "leastMl")} mL against resistance.`,
  "removal-placed-length-missing": () => "How long was the catheter as placed?",
  "removal-trim-missing": () => "Was anything cut off later? The record does not say.",
  "removal-out-length-missing": () => "How long is what came out? Measure it.",
  "removal-tip-not-looked-at": () => "Is the tip whole? Look at it.",
  "removal-tip-not-intact": () => "The tip is not whole. Do not discharge; image now.",
  "removal-incomplete": (v) => `Incomplete: ${cm(v, "missingCm")} missing. Do not discharge; image now.`,
  "removal-longer-than-record": (v) => `${cm(v, "missingCm")} more came out than the record holds. Check the record.`,
  "removal-complete": (v) => `Length complete: ${cm(v, "outCm")} out, ${cm(v, "expectedCm")} by the record.`,
  "removal-infection-not-asked": () => "Is an infection of the line suspected?",
  "tip-culture-for-suspicion": () => "Infection suspected: the tip may be sent for culture.",
  "tip-culture-without-suspicion": () => "The tip was sent without a suspicion of infection.",
  "removal-no-force": () => "Never pull against resistance.",
  "removal-withdrawn-missing": () => "How many centimetres are out?",
  "removal-stuck-think-clot": (v) => `Stuck with ${cm(v, "withdrawnCm")} out: think of a clot.`,
  "arm-symptoms-not-asked": () => "Is there pain, swelling or a change of colour?",
  "arm-no-symptoms": () => "No symptoms: the girth need not be measured.",
  "arm-baseline-missing": () => "No girth was written down at placing. Nothing to compare.",
  "arm-now-missing": () => "Measure the girth of the arm at the same place.",
  "arm-place-missing": () => "How far above the crease did the tape lie?",
  "arm-places-differ": (v) =>
    `Measured at ${cm(v, "nowAtCm")}, at placing at ${cm(v, "baselineAtCm")}. Measure again there.`,
  "arm-rise-below": (v) =>
    `The arm is ${cm(v, "riseCm")} more than at placing, under ${cm(v, "limitCm")}. The symptoms still need a look.`,
  "arm-oedema-not-asked": (v) => `The arm is ${cm(v, "riseCm")} more than at placing. Is it swollen?`,
  "arm-rise-with-oedema": (v) => `The arm is ${cm(v, "riseCm")} more and swollen. Ultrasound; leave the line in.`,
  "arm-rise-without-oedema": (v) => `The arm is ${cm(v, "riseCm")} more, without swelling. Look again.`,
};

const needQuestions: Readonly<Record<string, string>> = {
  changedToTablets: "Has the drug changed to tablets?",
  onlyBloodSampling: "Is blood sampling the only reason left?",
  secondDeviceDoesTheJob: "Does a second device do the job?",
  somebodyFlushes: "Who flushes the line?",
};

const lyticWord = (finding: Finding): string =>
  finding.values["given"] === true ? "Lytic was given too early" : "No lytic yet";

const counted = (count: number, thing: string): string => `${count} ${thing}${count === 1 ? "" : "s"}`;

/** Hours up to three days, then days. */
const longTime = (hours: number): string =>
  hours <= 72 ? counted(hours, "hour") : counted(Math.floor(hours / 24), "day");

const itemWords = (item: DueItem): string =>
  item.setKind === undefined ? itemNames[item.item] : `${setNames[item.setKind]} set`;

const itemNames: Readonly<Record<DueItem["item"], string>> = {
  dressing: "Dressing",
  connector: "Connector",
  flush: "Flush",
  "administration set": "Administration set",
  "need review": "Need review",
};

const setNames: Readonly<Record<NonNullable<DueItem["setKind"]>, string>> = {
  continuous: "Continuous",
  intermittent: "Intermittent",
  nutrition: "Nutrition",
  "nutrition with lipid": "Nutrition with lipid",
  lipid: "Lipid",
  blood: "Blood",
  propofol: "Propofol",
};

const reasonWords: Readonly<Record<DueReason, string>> = {
  interval: "its time",
  wet: "it is wet",
  loose: "it is loose",
  soiled: "it is soiled",
  lifting: "it is lifting",
  blood: "blood in it",
  debris: "debris in it",
  "was taken off": "it was taken off",
  "before a culture": "before a culture",
  "next visit": "the next visit",
  "never written down": "nobody wrote the last one down",
};

/** One care in one line: what, when, and why when it is not its time alone; and the question that the date hangs on. */
export function dueSentence(item: DueItem): string {
  const question = item.item === "dressing" ? "Is it dry and sealed?" : "Is there blood or debris in it?";
  return item.stateNotAsked ? `${dueWords(item)} ${question}` : dueWords(item);
}

function dueWords(item: DueItem): string {
  const what = itemWords(item);
  const why = item.why === "interval" ? "" : `, ${reasonWords[item.why]}`;
  const when = item.dueOn === undefined ? (item.dueAt ? sayMoment(item.dueAt) : "") : sayDay(item.dueOn);
  if (item.state === "not known") return `${what}: when was the last? Nobody wrote it down.`;
  if (item.state === "not before") {
    const from = item.notBeforeAt ? sayMoment(item.notBeforeAt) : "";
    return `${what}: not before ${from}. Due ${when}.`;
  }
  if (item.state === "due on") return `${what}: due ${when}${why}.`;
  if (item.state === "due now") return `${what}: due now${why}.`;
  const late = item.overdueDays > 0 ? counted(item.overdueDays, "day") : lateTime(item.overdueMin);
  return `${what}: overdue by ${late}${why}. It was due ${when}.`;
}

const lateTime = (minutes: number): string =>
  minutes < 60
    ? `${minutes} min`
    : minutes < 48 * 60
      ? `${Math.floor(minutes / 60)} h`
      : counted(Math.floor(minutes / 1440), "day");

/** Who and where, or that nobody has said. */
export const ownerWords = ({ person, place }: Pick<DueItem, "person" | "place">): string =>
  `${isMissing(person) ? "nobody named" : person}; ${isMissing(place) ? "place not said" : place}`;

const stepWords: Readonly<Record<PatencyStepCode, string>> = {
  clamp: "Look at the clamps. Open each one.",
  kink: "Look for a kink, outside and under the dressing. Straighten it.",
  dressing: "Look at the dressing. Does it press on the catheter?",
  connector: "Change the needleless connector and try again.",
  arm: "Move the arm up and out. Try again.",
  cough: "Have the patient cough, turn and sit up. Try again.",
  "outside length": "Measure the outside length. Is it as at the last film?",
  kind: "Does it flush freely? Does it give blood?",
  cause: "What ran before it blocked, and when did it block?",
  symptoms: "Ask for pain, and for a sound in the ear on flushing.",
  film: "Film the chest before anything is given.",
  "tip elsewhere": "The tip is elsewhere. Stop; the inserter decides.",
  pharmacy: "Ask pharmacy: a precipitate is likely, and lytic does not dissolve it.",
  "lytic facts": "One fact is missing for the dose.",
  lytic: "A clot is likely. Ask the prescriber for a lytic dose.",
  wait: "Leave the dose in and wait.",
  "check for blood": "Look for blood now.",
  "second lytic": "No blood after the dose. Ask for one more, the same.",
  "ask for help": "No blood after every dose. Ask for imaging and the inserter.",
  none: "It flows again. Flush, and write down what helped.",
};

const whyWords: Readonly<Record<PatencyWhy, string>> = {
  "look first": "simple causes come first",
  "position before drugs": "the position comes before any drug",
  "kind decides": "the kind of blockage decides",
  "cause decides": "the cause decides what dissolves it",
  "symptoms before drugs": "symptoms call for a film first",
  "length changed": "the outside length changed",
  "no film to compare": "there is no film to compare with",
  pain: "there is pain",
  "ear sound": "there is a sound in the ear",
  "no cause found": "no cause was found",
  "symptoms not known": "nobody can say whether it hurts",
  "tip is not where it was": "the tip is not where it was",
  "precipitate likely": "of what ran before",
  "clot likely": "nothing else explains it",
  "first check not due": "the first look is not due",
  "second check not due": "the second look is not due",
  "first check due": "the first look is due",
  "second check due": "the second look is due",
  "no blood after one dose": "the first dose did not open it",
  "no blood after every dose": "every dose was given",
  "flows again": "it flows",
};

/** A dose without a trailing nought: 2.000 is read as two thousand where a point is missed. */
const dosed = (value: number, unit: string): string =>
  amount(value, unit, String(Number(value.toFixed(3))).split(".")[1]?.length ?? 0);

/** The next step as lines: what, why, the dose, the clock. */
export function patencyLines(step: PatencyStep): readonly string[] {
  const { dose, dueAt, kind, minutesSinceDose } = step;
  return [
    stepWords[step.step],
    `Why: ${whyWords[step.why]}.`,
    ...(kind === undefined || kind === "open" ? [] : [`This is a ${kind}.`]),
    ...(dose?.kind === "dose"
      ? [
          `One dose: ${dosed(dose.volumeMl, "mL")} (${dosed(dose.doseMg, "mg")}) in one lumen${dose.capped ? ", the largest" : ""}. By the label; the prescriber signs.`,
        ]
      : []),
    ...(dueAt && minutesSinceDose !== undefined
      ? [`Dose in for ${minutesSinceDose} min. Look for blood at ${sayMoment(dueAt)}.`]
      : []),
  ];
}

const resistanceWords: Readonly<Record<ResistanceStep["step"], string>> = {
  "stop and re-position": "Stop. Re-position the arm and wait.",
  "heat and a warm drink": "Warm the path of the vein. Offer a warm drink.",
  "wait for the heat": "Leave the warmth on.",
  "dress and leave": "Try gently once. Still stuck: dress it and leave it.",
  "leave it dressed": "Leave it dressed.",
  "try again": "Try again, gently.",
  image: "Stop. Image the vein.",
};

/** The next step with a catheter that does not come out. */
export const resistanceSentence = ({ step, fromAt, toAt }: ResistanceStep): string =>
  [
    resistanceWords[step],
    ...(fromAt && toAt
      ? [`Try between ${sayMoment(fromAt)} and ${sayMoment(toAt)}.`]
      : fromAt
        ? [`Until ${sayMoment(fromAt)}.`]
        : []),
  ].join(" ");

/** What taking idle lines out saves, small for one list and said so. */
export const daysSavedSentence = ({
  lines,
  days,
  infections,
}: {
  lines: number;
  days: number;
  infections: number;
}): string =>
  `Taking out ${counted(lines, "line")} today saves about ${Math.round(days)} idle days. That is ${infections.toFixed(2)} infections: small for one list, real over a year.`;
