import type {
  ClotScore,
  CultureAnswer,
  CultureOutcome,
  KeepOrRemove,
  PhlebitisAnswer,
} from "../../core/complication/index.ts";
import type { Finding } from "../../core/reason/index.ts";
import type { CivilDate } from "../../core/calendar/index.ts";
import { sayDay } from "./moment.ts";
import { amount } from "./number.ts";

type Values = Finding["values"];
const n = (values: Values, key: string): number => Number(values[key]);
const t = (values: Values, key: string): string => String(values[key]);
const day = (values: Values, key: string): string => sayDay(t(values, key) as CivilDate);
const list = (values: Values, key: string): string => (values[key] as readonly string[]).join(", ");

const siteWords: Readonly<Record<string, string>> = { line: "line", peripheral: "peripheral" };
const bottle = (v: Values): string => `the ${siteWords[t(v, "site")] ?? ""} bottle`;

/** A criterion by its verdict: met, not met, not known. */
const by = (finding: Finding, met: string, notMet: string, open: string): string =>
  finding.verdict === "met" ? met : finding.verdict === "not met" ? notMet : open;

/** What cultures, infections and clots found, in 15 words or fewer. Never a verdict: criteria, met or not. */
export const complicationSentences: Readonly<Record<string, (values: Values, finding: Finding) => string>> = {
  "culture-differential": (v, f) =>
    `The line flagged ${minutes(n(v, "differentialMin"))}: ${by(f, `${n(v, "limitMin")} min reached`, `under ${n(v, "limitMin")} min`, `the criterion is ${n(v, "limitMin")} min`)}.`,
  "culture-flagged": (v) => `Flagged ${n(v, "minutes")} min after loading: ${bottle(v)}.`,
  "culture-did-not-flag": (v) => `Not judged: ${bottle(v)} did not flag.`,
  "culture-loading-missing": (v) => `When was ${bottle(v)} loaded? The clock starts there.`,
  "culture-flag-missing": (v) => `When did ${bottle(v)} flag, or did it not?`,
  "culture-times-out-of-order": (v) => `Times of ${bottle(v)} are out of order. Check them.`,
  "culture-organism-missing": () => "Which organism grew in each bottle?",
  "culture-same-organism": (_, f) => by(f, "The same organism in both.", "Not judged: two different organisms.", ""),
  "culture-draw-gap": (v, f) =>
    by(
      f,
      `Drawn ${n(v, "gapMin")} min apart.`,
      `Not judged: drawn ${n(v, "gapMin")} min apart, more than ${n(v, "mostMin")}.`,
      "",
    ),
  "culture-draw-gap-missing": () => "When was each bottle drawn?",
  "culture-load-gap": (v, f) =>
    by(
      f,
      `Loaded ${n(v, "gapMin")} min apart.`,
      `Not judged: loaded ${n(v, "gapMin")} min apart, more than ${n(v, "mostMin")}.`,
      "",
    ),
  "culture-load-gap-missing": () => "How far apart were they loaded? Not known.",
  "culture-volumes": (v, f) =>
    by(
      f,
      "The volumes compare.",
      `Not judged: ${amount(n(v, "lineMl"), "mL")} and ${amount(n(v, "peripheralMl"), "mL")} do not compare.`,
      "",
    ),
  "culture-volume-missing": () => "How much blood is in each bottle?",
  "culture-antibiotic-not-asked": () => "Was an antibiotic given before the draw?",
  "culture-after-antibiotic": () => "Not judged: an antibiotic was given before the draw.",
  "culture-before-antibiotic": () => "Drawn before any antibiotic.",
  "culture-no-line-bottle": () => "No bottle from the line.",
  "culture-no-peripheral": () => "No peripheral bottle: the times cannot be compared.",
  "culture-no-like-medium": () => "No two bottles of one medium: nothing to compare.",
  "culture-lumens-apart": (v) => `Two lumens flagged ${n(v, "apartMin")} min apart. No criterion by time is held.`,
  "culture-query-load-gap": (v) => `Loaded ${n(v, "gapMin")} min apart, more than ${n(v, "mostMin")}. Ask why.`,
  "culture-query-loading-missing": (v) => `No loading time: ${list(v, "bottles")}.`,
  "culture-query-volumes": (v) =>
    `Volumes from ${amount(n(v, "leastMl"), "mL")} to ${amount(n(v, "largestMl"), "mL")}. Ask why.`,
  "culture-query-volume-missing": (v) => `No volume: ${list(v, "bottles")}.`,
  "quantitative-count-missing": () => "How many colonies grew from each sample?",
  "quantitative-other-grew-nothing": (v) => `Only one sample grew. No fold from the ${t(v, "other")} can be given.`,
  "quantitative-fold": (v, f) =>
    `${n(v, "fold").toFixed(1)} times the ${t(v, "other")}: ${n(v, "limit")}-fold ${by(f, "reached", "not reached", "")}.`,
  "quantitative-fold-older": (v, f) =>
    `${n(v, "fold").toFixed(1)} times: the older ${n(v, "limit")}-fold ${by(f, "reached", "not reached", "")}.`,
  "tip-broth-not-used": () => "A broth culture of a tip counts nothing. It is not used.",
  "tip-count-missing": () => "How many colonies grew from the tip?",
  "tip-colonised": (v, f) =>
    `${n(v, "cfu")} CFU by ${t(v, "method")}, limit ${n(v, "limit")}: ${by(f, "colonised", "not colonised", "")}.`,
  "clinical-signs": (_, f) => by(f, "Signs of infection.", "No signs of infection.", "Are there signs of infection?"),
  "clinical-blood-grew": (_, f) => by(f, "Blood grew an organism.", "Blood grew nothing.", "Did blood grow anything?"),
  "clinical-no-other-source": (_, f) =>
    by(f, "No other source found.", "Another source was found.", "Was another source looked for?"),
  "clinical-proof-time": (_, f) =>
    by(f, "Criterion by time met.", "Criterion by time not met.", "Criterion by time not known."),
  "clinical-proof-count": (_, f) =>
    by(f, "Criterion by count met.", "Criterion by count not met.", "Criterion by count not known."),
  "clinical-proof-tip": (_, f) =>
    by(f, "Tip and blood grew the same organism.", "Tip and blood do not match.", "Tip not known."),
  "surveillance-no-specimen": () => "No blood specimen is written down.",
  "surveillance-no-definition": (v) => `No surveillance definition was in force on ${day(v, "on")}.`,
  "surveillance-pathogen": (v) => `Pathogen in blood drawn ${day(v, "on")}: ${t(v, "organism")}.`,
  "surveillance-commensal": (v) =>
    `Commensal twice, with a sign${v["infant"] === true ? " of an infant" : ""}: ${t(v, "organism")}. Date of event ${day(v, "on")}.`,
  "surveillance-laboratory-not-met": () => "Laboratory criterion not met.",
  "surveillance-no-sign-in-window": (v) =>
    `${t(v, "organism")} twice, but no sign around ${day(v, "specimen")} that counts.`,
  "surveillance-signs-not-asked": () => "Were there fever, chills or low blood pressure?",
  "surveillance-age-missing": () => "How old is the patient? The sign counts by age.",
  "surveillance-organism-not-listed": (v) => `${t(v, "organism")}: on no list. Pathogen or commensal?`,
  "surveillance-organism-missing": () => "Which organism grew?",
  "surveillance-not-secondary": (_, f) =>
    by(f, "Not secondary to another site.", "Secondary to another site.", "Is it secondary to another site?"),
  "surveillance-line-missing": () => "No line is written down.",
  "surveillance-line": (v, f) => `Line day ${n(v, "lineDay")}: ${by(f, "eligible", t(v, "eligibility"), "")}.`,
  "surveillance-not-repeat": (v, f) =>
    f.verdict === "met"
      ? `No event in the ${n(v, "frameDays")} days before.`
      : `Inside the ${n(v, "frameDays")} days of the event of ${day(v, "earlier")}.`,
  "mucosal-of-surveillance-only": (_, f) =>
    by(f, "", "No surveillance event, so no mucosal one.", "Mucosal barrier: first settle the surveillance flag."),
  "mucosal-organisms": (v, f) =>
    by(
      f,
      `${t(v, "organism")}: of the gut or mouth alone.`,
      `${t(v, "organism")}: not of the gut or mouth.`,
      "Which organism grew?",
    ),
  "mucosal-organism-not-listed": (v) => `${t(v, "organism")}: on no list. Of the gut, of the skin, or another?`,
  "mucosal-cells": (v, f) =>
    by(
      f,
      `Below ${n(v, "limit")} cells on ${n(v, "days")} days.`,
      `Below ${n(v, "limit")} cells on ${n(v, "days")} days; ${n(v, "least")} wanted.`,
      "What were the white cell counts around the specimen?",
    ),
  "mucosal-gut": (_, f) =>
    by(
      f,
      "Recent transplant, and gut disease.",
      "No recent transplant with gut disease.",
      "Was there a transplant, and gut disease or diarrhoea?",
    ),
  "skin-signs-not-asked": () => "Is there redness, hardness or tenderness at the exit?",
  "skin-signs-none": () => "No skin signs at the exit.",
  "skin-signs-distance-missing": () => "How far from the exit do the signs reach?",
  "skin-signs-tunnel-not-asked": () => "Do the signs follow a tunnel?",
  "skin-exit-site-infection": (v) =>
    `Signs within ${amount(n(v, "limitCm"), "cm")} of the exit: exit-site infection by definition.`,
  "skin-tunnel-infection": () => "Signs along the tunnel: tunnel infection by definition.",
  "skin-beyond-without-tunnel": (v) =>
    `Signs reach ${amount(n(v, "reachesCm"), "cm")}, no tunnel: neither by definition. Call it cellulitis.`,
  "clot-symptoms-not-asked": () => "Is there pain, swelling or a change of colour?",
  "clot-no-symptom": (v) => `No symptom. The line alone gives ${n(v, "least")}: no scan for a score alone.`,
  "clot-likely-image": (v) => `Score ${score(v)}: a clot is likely. Ultrasound first.`,
  "clot-score-open": (v) => `Score ${score(v)}: answer what is missing, or image.`,
  "clot-d-dimer-or-image": (v) => `Score ${score(v)}, below ${n(v, "likelyFrom")}: D-dimer, or ultrasound.`,
  "clot-d-dimer-raised": () => "D-dimer raised: ultrasound.",
  "clot-excluded-by-d-dimer": (v) =>
    `Score ${score(v)}, normal D-dimer: a clot is unlikely, as published. Symptoms that stay: ultrasound.`,
  "clot-does-not-compress": (v, f) =>
    by(f, `${vein(v)} does not compress.`, `${vein(v)} compresses.`, `Does the ${t(v, "vein")} vein compress?`),
  "clot-flow": (v, f) =>
    by(
      f,
      `${vein(v)}: no flow, or none that breathes.`,
      `${vein(v)}: flow moves with the breath.`,
      `How is the flow in the ${t(v, "vein")} vein?`,
    ),
  "clot-filling-defect": (_, f) =>
    by(f, "A filling defect was seen.", "No filling defect.", "Was a filling defect looked for?"),
  "remove-shock": (_, f) => by(f, "Shock or severe sepsis.", "No shock.", "Is there shock or severe sepsis?"),
  "remove-septic-thrombophlebitis": (_, f) =>
    by(f, "Septic thrombophlebitis.", "No septic thrombophlebitis.", "Is there septic thrombophlebitis?"),
  "remove-endocarditis": (_, f) => by(f, "Endocarditis.", "No endocarditis.", "Was endocarditis looked for?"),
  "remove-tunnel-or-pus": (_, f) => by(f, "Tunnel infection or pus.", "No pus.", "Is there pus, or a red tunnel?"),
  "remove-still-grows": (v, f) =>
    by(
      f,
      `Blood still grew ${n(v, "hours")} hours into the right treatment.`,
      "Blood no longer grows on treatment.",
      `Does blood still grow after ${n(v, "hours")} hours of treatment?`,
    ),
  "remove-organism": (v, f) =>
    by(
      f,
      `${t(v, "organism")}: on the removal list.`,
      `${t(v, "organism")}: not on the removal list.`,
      "Which organism grew?",
    ),
  "remove-not-needed": (_, f) => by(f, "No longer needed.", "Still needed.", "Is the line still needed?"),
  "keep-other-source": (_, f) => by(f, "Another source explains it.", "No other source.", "Is there another source?"),
  "keep-infection-not-shown": (_, f) =>
    by(f, "No proof that the line is infected.", "Line infection was shown.", "Was line infection shown?"),
  "keep-no-other-access": (_, f) => by(f, "No other access.", "Other access exists.", "Is there other access?"),
  "keep-lock-may-be-tried": (v, f) =>
    by(
      f,
      `Organism off the list: locks of ${n(v, "fromDays")} to ${n(v, "toDays")} days have been tried.`,
      "Organism on the removal list: no lock.",
      "Without the organism no word about a lock.",
    ),
  "remove-not-needed-finish-treatment": (v, f) =>
    by(
      f,
      `Not needed. Guidelines finish at least ${n(v, "months")} months of treatment.`,
      "Still needed.",
      "Is the line still needed?",
    ),
  "remove-infected": (_, f) => by(f, "The line is infected.", "Not infected.", "Is the line infected?"),
  "remove-symptoms-persist": (_, f) =>
    by(f, "Symptoms persist on treatment.", "No symptoms on treatment.", "Do symptoms persist on treatment?"),
  "remove-bleeding-bars": (_, f) =>
    by(f, "Bleeding bars treatment.", "Treatment is possible.", "Does bleeding bar treatment?"),
  "keep-needed": (v, f) =>
    by(
      f,
      `Needed. Guidelines treat ${n(v, "months")} months, or while it is in.`,
      "No longer needed.",
      "Is the line still needed?",
    ),
  "keep-working": (_, f) => by(f, "It works.", "It does not work.", "Does the line work?"),
  "keep-not-infected": (_, f) => by(f, "Not infected.", "Infected.", "Is the line infected?"),
};

function minutes(differential: number): string {
  return differential >= 0 ? `${differential} min earlier` : `${-differential} min later`;
}

const score = (v: Values): string =>
  n(v, "least") === n(v, "most") ? String(n(v, "least")) : `${n(v, "least")} to ${n(v, "most")}`;

function vein(v: Values): string {
  const name = t(v, "vein");
  return `${name.slice(0, 1).toUpperCase()}${name.slice(1)} vein`;
}

const outcomeWords: Readonly<Record<CultureOutcome, string>> = {
  "criterion met": "Criterion by time met.",
  "criterion not met": "Criterion by time not met.",
  indeterminate: "Indeterminate: the times cannot be judged.",
};

/** The cultures' answer as lines: the outcome, each pair with its times, why it cannot be judged, what to ask. */
export function cultureLines(answer: CultureAnswer, say: (finding: Finding) => string): readonly string[] {
  return [
    outcomeWords[answer.outcome],
    ...answer.findings.map(say),
    ...answer.pairs.flatMap((pair) => [
      `${pair.line.id} against ${pair.peripheral.id}: ${timesWords(pair.lineMin, pair.peripheralMin, pair.differentialMin)}`,
      ...pair.findings.filter(({ level }) => level !== undefined).map((one) => `- ${say(one)}`),
    ]),
    ...(answer.queries.length > 0 ? ["Ask the laboratory:"] : []),
    ...answer.queries.map(({ finding, bottleIds }) => `- ${bottleIds.join(", ")}: ${say(finding)}`),
    "The treating team decides; this counts one criterion.",
  ];
}

const timesWords = (
  line: number | undefined,
  peripheral: number | undefined,
  differential: number | undefined,
): string =>
  differential === undefined
    ? `${line ?? "not known"} and ${peripheral ?? "not known"} min from loading.`
    : `${line} and ${peripheral} min from loading, ${differential} min apart.`;

/** Criteria as lines under who decides. */
export const criteriaLines = (criteria: KeepOrRemove, say: (finding: Finding) => string): readonly string[] => [
  `Decided by the ${criteria.decides}.`,
  "For taking it out:",
  ...criteria.forRemoval.map((one) => `- ${one.verdict}: ${say(one)}`),
  "For keeping it:",
  ...criteria.forKeeping.map((one) => `- ${one.verdict}: ${say(one)}`),
];

/** The clot score in one sentence, its range where answers are missing. */
export const clotScoreSentence = ({ least, most, band, percent }: ClotScore): string =>
  band === undefined
    ? `Score ${least} to ${most}: answers are missing.`
    : `Score ${least === most ? least : `${least} to ${most}`}, ${band}: ${percent} in 100 had a clot in the study.`;

/** The phlebitis grade, never without what it was made for. */
export const phlebitisSentence = ({ grade, between }: PhlebitisAnswer): string =>
  `${grade === undefined ? `Phlebitis grade ${between[0]} to ${between[1]} of 5: look for what is missing.` : `Phlebitis grade ${grade} of 5.`} The scale was made for cannulas.`;
