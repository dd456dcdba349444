import { finding, type Finding } from "../reason/index.ts";

/** One place where the arm and the patient's number were written. */
export interface SideSource {
  readonly from: "plan" | "placing" | "film" | "settled by two people";
  readonly arm: "right" | "left" | undefined;
  readonly number: string | undefined;
}

export interface SideAgreement {
  readonly agree: boolean;
  readonly sources: readonly SideSource[];
  readonly findings: readonly Finding[];
}

/**
 * Whether plan, placing and film speak of the same arm and the same person. Every source is shown beside the others; one
 * that says nothing is asked about; two people of different names settle a difference of arms, nobody a difference of
 * persons. Source: common practice, no source; the count of wrong arms is why.
 */
export function sideAgreement(sources: readonly SideSource[]): SideAgreement {
  const settled = sources.find(({ from, arm }) => from === "settled by two people" && arm !== undefined);
  const written = sources.filter(({ from }) => from !== "settled by two people");
  const arms = new Set(written.flatMap(({ arm }) => (arm === undefined ? [] : [arm])));
  const numbers = new Set(written.flatMap(({ number }) => (number === undefined ? [] : [plain(number)])));
  const findings: Finding[] = [];
  if (arms.size > 1 && !settled) findings.push(finding("sides-differ", "not met", "stop", { arms: [...arms] }));
  if (numbers.size > 1) findings.push(finding("numbers-differ", "not met", "stop", { numbers: [...numbers] }));
  for (const needed of ["placing", "film"] as const) {
    const source = written.find(({ from }) => from === needed);
    if (source?.arm === undefined) findings.push(finding("side-missing", "not known", "ask", { from: needed }));
    if (needed === "film" && source !== undefined && source.number === undefined) {
      findings.push(finding("film-number-missing", "not known", "ask"));
    }
  }
  const stands = arms.size <= 1 || settled !== undefined;
  // a source that says nothing agrees with nobody: it is asked about, and until then there is no agreement
  const whole = findings.every(({ level }) => level !== "ask");
  return { agree: stands && whole && numbers.size <= 1, sources, findings };
}

const plain = (number: string): string => number.toUpperCase().replaceAll(/[^A-Z0-9]/g, "");
