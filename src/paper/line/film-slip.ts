import {
  centimetres,
  filmWords,
  releasedUncorrected,
  sayFilm,
  sayLineFinding,
  tipStopAsks,
} from "../../language/index.ts";
import { tipPolicyFrom } from "../../policy/index.ts";
import { filmOfLine } from "../../register/index.ts";
import { framed, type PaperInput } from "./paper-input.ts";
import { atTheSkin } from "./skin-block.ts";
import type { Block, Sheet } from "./sheet.ts";

/** The most error-prone sentence of the day on a slip: three numbers, three boxes to read them back into. */
export function filmSlip(input: PaperInput): Sheet {
  const asked = filmOfLine(input.line, input.patient?.bornOn ?? "", tipPolicyFrom(input.policy.table));
  const film = typeof asked === "object" ? asked.answer : asked;
  const withdraw = typeof film === "object" && film.kind === "withdraw" ? film : undefined;
  const sentence = film === "not read" ? filmWords.notRead : film === "past" ? filmWords.past : sayFilm(film);
  const number = (label: string, cm: number | undefined) => ({
    label,
    value: cm === undefined ? filmWords.none : centimetres(cm),
  });
  const reasons = typeof film === "object" ? film.findings.map(sayLineFinding) : [];
  const { stop } = input.answer.release;
  // the same rule that stops the release on the page
  const released =
    stop && input.line.tip && !input.line.end
      ? [sayLineFinding(stop), tipStopAsks]
      : typeof asked === "object" && asked.releasedOnIt
        ? [releasedUncorrected]
        : [];
  const blocks: readonly Block[] = [
    { kind: "loud", text: sentence },
    {
      kind: "numbers",
      items: [
        number(filmWords.withdraw, withdraw?.withdrawCm),
        number(filmWords.outside, withdraw?.outsideCm),
        number(filmWords.inside, withdraw?.insideCm),
      ],
    },
    ...atTheSkin(withdraw ?? input.line, filmWords.after),
    { kind: "heading", text: filmWords.readBackHead },
    { kind: "write", items: filmWords.readBack },
    { kind: "sign", items: filmWords.sign },
    { kind: "list", numbered: false, items: [...released, ...reasons, filmWords.nothing] },
  ];
  return framed("film slip", input, blocks);
}
