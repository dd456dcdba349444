import type { LineFile } from "../../contract/index.ts";
import type { Instant } from "../../core/calendar/index.ts";
import { lineRulesFrom, type ListedLine, type PaperInput } from "../../paper/line/index.ts";
import { defaultPolicy } from "../../policy/index.ts";
import { answerLine, lotKey, lotView, referralView, valueIn, type Subject } from "../../register/index.ts";

/** Every line of a file with what its events mean at a moment; the file itself is all that is known. */
export function linesOf(file: LineFile, at: Instant): readonly ListedLine[] {
  const rules = lineRulesFrom(defaultPolicy);
  return file.lines.map(({ line, patient }) => {
    const referral = file.histories.get(`referral:${valueIn(line.said.referral) ?? ""}` as Subject);
    const arm = referral && valueIn(referralView(referral).plan?.arm);
    const number = patient?.number === "" ? undefined : patient?.number;
    return { line, patient, answer: answerLine(line, { arm, number, bornOn: patient?.bornOn }, at, at, rules) };
  });
}

/** The one line a paper is about, by its identifier where there are several. */
export const pickLine = (lines: readonly ListedLine[], id: string): ListedLine | undefined =>
  id === "" ? (lines.length === 1 ? lines[0] : undefined) : lines.find(({ line }) => line.subject === `line:${id}`);

/** The next issue of a paper, after those already printed. */
export const nextIssue = ({ line }: ListedLine, paper: string): number =>
  Math.max(0, ...line.papers.filter((one) => one.paper === paper).map(({ issue }) => issue)) + 1;

/** Why the line's lot was called back, where the file says so. */
export function recalledOf(file: LineFile, { line }: ListedLine): Pick<PaperInput, "recalled"> {
  const key = lotKey(valueIn(line.said.lotNumber) ?? "");
  const lots = [...file.histories.values()].filter(({ subject }) => subject.startsWith("lot:")).map(lotView);
  const recalled = lots.find((lot) => key !== "" && lotKey(lot.lotNumber) === key)?.recalled;
  return recalled === undefined ? {} : { recalled };
}
