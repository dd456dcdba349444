import { readFilmText } from "../../contract/index.ts";
import { isMissing } from "../../core/missing/index.ts";
import { centimetre } from "../../core/quantity/index.ts";
import { isAsk, isStop, type Finding } from "../../core/reason/index.ts";
import { correctFilm, judgeReaders } from "../../core/tip/index.ts";
import { armWords, filmLines, safetyStatement, sayFilm, sayLineFinding } from "../../language/index.ts";
import { defaultPolicy, tipPolicyFrom } from "../../policy/index.ts";
import type { Command, Exit } from "./command.ts";
import { faultOutput } from "./fault-output.ts";

const policy = tipPolicyFrom(defaultPolicy.table);

/** What a film asks the hands to do: three numbers, or nothing, or why no number. */
export const filmCommand: Command = {
  name: "film",
  summary: "Say what a film asks for: withdraw by how much, or not.",
  usage: "veinwright film FILM.json [--json]",
  readsFile: true,
  run: ({ text, json }) => {
    const read = readFilmText(text);
    if (read.kind === "faults") return faultOutput(read.faults, json, "film file");
    const { side, reading, secondFilmCm } = read.data;
    const { filmCm } = reading;
    const twice = secondFilmCm !== undefined && !isMissing(filmCm);
    const readers: readonly Finding[] = twice ? [judgeReaders(filmCm, secondFilmCm, policy)] : [];
    // readers too far apart have read no distance; otherwise the shallower asks for the shorter way out
    const apart = readers.some(isStop);
    const counted = twice ? centimetre(Math.min(filmCm, secondFilmCm)) : filmCm;
    const answer = correctFilm({ ...reading, filmCm: apart ? { missing: "not known" } : counted }, policy);
    const findings = [...readers, ...answer.findings];
    const open = answer.kind === "no number" || findings.some(isAsk);
    const exit: Exit = answer.kind === "picture" || findings.some(isStop) ? 3 : open ? 2 : 0;
    if (json) {
      const whole = { policyVersion: defaultPolicy.version, side, ...answer, findings };
      return { exit, output: JSON.stringify(whole, null, 2) };
    }
    const lines = [
      sayFilm(answer),
      isMissing(side) ? "Arm: not known." : `${armWords(side)}.`,
      ...findings.map(sayLineFinding),
      ...filmLines(answer),
    ];
    return { exit, output: [...lines, "", safetyStatement].join("\n") };
  },
};
