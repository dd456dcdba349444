import { parseCivilDate, type Instant } from "../../core/calendar/index.ts";
import {
  armWords,
  paperFoot,
  paperNameMissing,
  paperPractice,
  paperTitles,
  sayIdentifiers,
  sayPage,
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

/** The limits a paper judges a line by, out of the local table. */
export const lineRulesFrom = ({ table }: LocalPolicy): LineRules => ({
  release: releasePolicyFrom(table),
  care: careLimitsFrom(table),
  idle: idleLimitsFrom(table),
  removal: removalLimitsFrom(table),
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
  const arm = confirmedIn(line.said.arm);
  return {
    paper,
    plate: plateOf(paper),
    title,
    caption,
    name: patient?.name || paperNameMissing,
    identifiers: sayIdentifiers(patient?.number ?? "", parseCivilDate(patient?.bornOn ?? "")),
    arm: arm && input.answer.sides.agree ? armWords(arm) : "ARM NOT SETTLED",
    practice: isPractice(patient) ? paperPractice : "",
    foot: paperFoot(issue, policy.version, printedAt),
    page: sayPage(1, 1),
    size,
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
    foot: paperFoot(undefined, input.policy.version, input.printedAt),
    page: list.page,
    size: "A4",
    blocks,
  };
}

export const isPractice = (patient: PatientView | undefined): boolean =>
  patient?.subject.startsWith("patient:practice-") ?? false;
