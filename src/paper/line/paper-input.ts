import { parseCivilDate, type Instant } from "../../core/calendar/index.ts";
import {
  armNotKnown,
  armNotSettled,
  armWords,
  paperFoot,
  paperNameMissing,
  paperPractice,
  paperTitles,
  sayIdentifiers,
  sayPage,
  toBeWritten,
} from "../../language/index.ts";
import {
  careLimitsFrom,
  idleLimitsFrom,
  releasePolicyFrom,
  removalLimitsFrom,
  type LocalPolicy,
} from "../../policy/index.ts";
import { confirmedIn, type LineAnswer, type LineRules, type LineView, type PatientView } from "../../register/index.ts";
import type { Block, Sheet } from "./sheet.ts";

/** What a paper is printed from; nothing else is looked up. */
export interface PaperInput {
  readonly line: LineView;
  readonly patient: PatientView | undefined;
  /** What the line's events mean at the moment of printing. */
  readonly answer: LineAnswer;
  /** 1 for the first print of this paper for this line. */
  readonly issue: number;
  readonly printedAt: Instant;
  readonly policy: LocalPolicy;
  /** Why the line's lot was called back; undefined while it was not. */
  readonly recalled?: string;
}

export type PaperName = keyof typeof paperTitles;

/** Plates are numbered in the order of the titles; a number is a name to ask for, so it never changes. */
const PLATES = ["I", "II", "III", "IV", "V", "VI", "VII", "VIII", "IX", "X", "XI", "XII"];
const plateOf = (paper: PaperName): string => PLATES[Object.keys(paperTitles).indexOf(paper)] ?? "";

/** The largest type a paper is set in: a sign at the bed, a sheet in the hand, a form on a desk. */
const TYPE_PT: Readonly<Record<PaperName, number>> = {
  "record form": 10.5,
  "film slip": 19,
  "bed sign": 19,
  "patient card": 10.5,
  "picture card": 11.5,
  "home sheet": 13.5,
  "culture card": 15,
  "removal slip": 15.5,
  "recall letter": 15.5,
  "arm-protection note": 20,
  handover: 10.5,
  "recall list": 10.5,
};

/** The arm as every source agrees on it; anything else is not an arm a paper may name. */
export const settledArm = (line: LineView, answer: LineAnswer): string => {
  const arm = confirmedIn(line.said.arm);
  if (arm === undefined) return armNotKnown;
  return answer.sides.agree ? armWords(arm) : armNotSettled;
};

/** The limits a paper judges a line by, out of the local table. */
export const lineRulesFrom = ({ table }: LocalPolicy): LineRules => ({
  release: releasePolicyFrom(table),
  care: careLimitsFrom(table),
  idle: idleLimitsFrom(table),
  removal: removalLimitsFrom(table),
});

const personOf = (patient: PatientView | undefined) => ({
  name: patient?.name || paperNameMissing,
  identifiers: sayIdentifiers(patient?.number ?? "", parseCivilDate(patient?.bornOn ?? "")),
});

/** The page around a paper of one line: two identifiers, the arm in words, when it was printed and under which limits. */
export function framed(
  paper: PaperName,
  input: PaperInput,
  blocks: readonly Block[],
  size: Sheet["size"] = "A4",
): Sheet {
  const { line, patient, issue, policy, printedAt } = input;
  const [title, caption] = paperTitles[paper];
  return {
    paper,
    plate: plateOf(paper),
    title,
    caption,
    // a form for somebody not yet known has rules to write on, not words that say so
    ...(patient || line.placed ? personOf(patient) : toBeWritten),
    arm: line.placed ? settledArm(line, input.answer) : "",
    practice: isPractice(patient) ? paperPractice : "",
    foot: footOf(isPractice(patient), paperFoot(issue, policy.version, printedAt)),
    page: sayPage(1, 1),
    size,
    typePt: TYPE_PT[paper],
    blocks,
  };
}

/** The page around a list of several lines; every row carries its own two identifiers. */
export function framedList(
  paper: PaperName,
  list: { readonly name: string; readonly identifiers: string; readonly practice: boolean; readonly page: string },
  input: Pick<PaperInput, "policy" | "printedAt">,
  blocks: readonly Block[],
): Sheet {
  const [title, caption] = paperTitles[paper];
  return {
    paper,
    plate: plateOf(paper),
    title,
    caption,
    name: list.name,
    identifiers: list.identifiers,
    arm: "",
    practice: list.practice ? paperPractice : "",
    foot: footOf(list.practice, paperFoot(undefined, input.policy.version, input.printedAt)),
    page: list.page,
    size: "A4",
    typePt: TYPE_PT[paper],
    blocks,
  };
}

export const isPractice = (patient: PatientView | undefined): boolean =>
  patient?.subject.startsWith("patient:practice-") ?? false;

/** In the foot as well as behind the page: a mark behind the words can be lost by a copier. */
const footOf = (practice: boolean, foot: string): string => (practice ? `${paperPractice}. ${foot}` : foot);
