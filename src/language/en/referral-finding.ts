import type { Finding } from "../../core/reason/index.ts";
import { amount } from "./number.ts";

type Values = Finding["values"];
const n = (values: Values, key: string): number => Number(values[key]);
const t = (values: Values, key: string): string => String(values[key]);
const filtration = (v: Values) => `eGFR ${n(v, "filtration").toFixed(0)}`;

/** What the questions before the arm found: kidney, infusates, bleeding and cultures. */
export const referralSentences: Readonly<Record<string, (values: Values, finding: Finding) => string>> = {
  "kidney-replacement": (v) =>
    `${t(v, "replacement") === "dialysis" ? "On dialysis" : "With a kidney transplant"}: keep both arms, whatever the number.`,
  "renal-replacement-not-asked": () => "Is there dialysis or a kidney transplant?",
  "kidney-below-bar": (v) =>
    `${filtration(v)}, below ${n(v, "barBelow")}: keep both arms unless the kidney team agrees.`,
  "kidney-assess-veins": (v) => `${filtration(v)}, below ${n(v, "assessBelow")}: ask the kidney team about the veins.`,
  "give-at-dialysis": () => "Could the drug be given at dialysis?",
  "creatinine-future": (v) => `The kidney value is of ${t(v, "on")}, a day to come. Check the date.`,
  "kidney-open": (v) => `${filtration(v)}: no objection from the kidney.`,
  "kidney-trend": (v) =>
    `${n(v, "perYear") < 0 ? "Falling" : "Rising"} ${Math.abs(n(v, "perYear")).toFixed(0)} mL/min a year. A rough line, not a forecast.`,
  "kidney-newborn": () => "No filtration is computed in a newborn.",
  "creatinine-missing": () => "What is the creatinine, with unit and date?",
  "creatinine-old": (v) =>
    `The kidney value is ${n(v, "days")} days old; ${n(v, "most")} is the most here. Measure again.`,
  "creatinine-baseline-missing": () => "Acutely ill with one creatinine. What was it before?",
  "creatinine-echo": (v) =>
    `Creatinine ${amount(n(v, "mgPerDl"), "mg/dL", 2)}, which is ${amount(n(v, "umolPerL"), "µmol/L", 0)}.`,
  "height-missing-for-kidney": () => "How tall is the child? The kidney formula needs it.",
  "sex-missing-for-kidney": () => "Female or male? The kidney formula needs it.",
  "infusate-class-not-known": (v) => `${t(v, "name")}: vesicant, irritant or neither? Ask pharmacy.`,
  "infusate-class-disputed": (v) => `${t(v, "name")}: lists disagree on its class. The stricter one is held.`,
  "infusate-source": (v) => `${t(v, "name")}, figures: ${t(v, "source")} (${t(v, "howKnown")}).`,
  "infusate-class-differs": (v) =>
    `${t(v, "name")}: here ${t(v, "tissueClass")}; another list says ${t(v, "listedClass")}. Ask pharmacy.`,
  "creatinine-implausible": (v) => `eGFR ${n(v, "filtration").toFixed(0)} is hardly possible. Check the unit.`,
  "infusate-vesicant": (v) => `${t(v, "name")} is a vesicant: it needs a tip near the heart.`,
  "infusate-irritant": (v) => `${t(v, "name")} is an irritant: it needs a tip near the heart.`,
  "infusate-irritant-in-newborn": (v) => `${t(v, "name")}: lists of irritants are of adults. Ask the newborn unit.`,
  "infusate-osmolarity-not-known": (v) => `${t(v, "name")}: what is its osmolarity? Ask pharmacy.`,
  "infusate-osmolarity-above": (v) =>
    `${t(v, "name")}: ${n(v, "osmolarity").toFixed(0)} mOsm/L, above the ${n(v, "limit")} set here.`,
  "infusate-osmolarity-within": (v) =>
    `${t(v, "name")}: ${n(v, "osmolarity").toFixed(0)} mOsm/L, within the ${n(v, "limit")} set here.`,
  "nutrition-in-newborn": (v) => `${t(v, "name")} in a newborn goes through a central catheter.`,
  "infusate-ph-not-known": (v) => `${t(v, "name")}: its pH is not known.`,
  "infusate-ph-outside": (v) =>
    `${t(v, "name")}: pH ${n(v, "ph")}, outside ${n(v, "from")} to ${n(v, "to")}. Ask pharmacy.`,
  "inr-above": (v) => `INR ${n(v, "inr")}, above ${n(v, "most")}. Correct it first?`,
  "inr-within": (v) => `INR ${n(v, "inr")}, within the ${n(v, "most")} set here.`,
  "platelets-below": (v) => `Platelets ${n(v, "platelets")}, below ${n(v, "least")}. Transfuse first?`,
  "platelets-within": (v) => `Platelets ${n(v, "platelets")}, not below the ${n(v, "least")} set here.`,
  "platelets-trial-disagrees": () =>
    "Central lines, platelets 10 to 50: bleeding 4.8 % with platelets, 11.9 % without. Not PICCs.",
  "clopidogrel-continues": () => "Clopidogrel is not withheld for a PICC.",
  "culture-positive": (v) => `Blood culture positive. Usual wait: ${n(v, "hours")} hours after the first negative.`,
  "culture-wait": (v) => `${n(v, "left").toFixed(0)} hours left of the usual ${n(v, "hours")}. Custom, not a trial.`,
  "culture-cleared": (v) => `${n(v, "hours").toFixed(0)} hours since the first negative culture.`,
};
