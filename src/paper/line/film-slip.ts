import { civilDateOf, completedYears, parseCivilDate } from "../../core/calendar/index.ts";
import { missing } from "../../core/missing/index.ts";
import { centimetre } from "../../core/quantity/index.ts";
import { correctFilm, type FilmAnswer } from "../../core/tip/index.ts";
import { centimetres, filmWords, sayFilm, sayLineFinding } from "../../language/index.ts";
import { tipPolicyFrom, type LocalPolicy } from "../../policy/index.ts";
import { confirmedIn, valueIn, type EntryOf, type LineView, type PatientView } from "../../register/index.ts";
import { framed, type PaperInput } from "./paper-input.ts";
import { atTheSkin } from "./skin-block.ts";
import type { Block, Sheet } from "./sheet.ts";

const none = missing("not asked");

/**
 * What the last film asks for; "past" once the line was corrected, released on it, measured again or taken out: its
 * numbers are of another day then, and no paper prints them.
 */
export function filmOfLine(
  line: LineView,
  patient: PatientView | undefined,
  policy: LocalPolicy,
): FilmAnswer | "not read" | "past" {
  if (!line.tip) return "not read";
  const said = line.tip.entry as EntryOf<"TipRead">;
  if (valueIn(said.method) !== "film") return "not read";
  const readSince = line.outside.at(-1)?.event !== line.tip.event.id;
  const releasedOnIt = line.released !== undefined && line.released.event.happenedAt >= line.tip.event.happenedAt;
  if (line.tipCorrected || line.end || readSince || releasedOnIt) return "past";
  const born = parseCivilDate(patient?.bornOn ?? "");
  const length = (cm: number | undefined) => (cm === undefined ? none : centimetre(cm));
  return correctFilm(
    {
      place: valueIn(said.tipPlace) ?? none,
      filmCm: length(confirmedIn(said.filmCm)),
      magnification: confirmedIn(said.magnification) ?? none,
      unitOnFilmCm: length(confirmedIn(said.unitOnFilmCm)),
      ageYears: born ? completedYears(born, civilDateOf(line.tip.event.happenedAt)) : none,
      arm: valueIn(said.armPosition) ?? none,
      armConfirmedBy: "",
      outsideCm: length(confirmedIn(said.outsideCm)),
      insideCm: length(confirmedIn(said.insideCm)),
      symptoms: none,
    },
    tipPolicyFrom(policy.table),
  );
}

/** The most error-prone sentence of the day on a slip: three numbers, three boxes to read them back into. */
export function filmSlip(input: PaperInput): Sheet {
  const film = filmOfLine(input.line, input.patient, input.policy);
  const withdraw = typeof film === "object" && film.kind === "withdraw" ? film : undefined;
  const sentence = film === "not read" ? filmWords.notRead : film === "past" ? filmWords.past : sayFilm(film);
  const number = (label: string, cm: number | undefined) => ({
    label,
    value: cm === undefined ? filmWords.none : centimetres(cm),
  });
  const reasons = typeof film === "object" ? film.findings.map(sayLineFinding) : [];
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
    { kind: "list", numbered: false, items: [...reasons, filmWords.nothing] },
  ];
  return framed("film slip", input, blocks);
}
