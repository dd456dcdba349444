import { civilDateOf, completedYears, instantMs, parseCivilDate, type Instant } from "../../core/calendar/index.ts";
import { missing } from "../../core/missing/index.ts";
import { centimetre } from "../../core/quantity/index.ts";
import { correctFilm, type FilmAnswer, type FilmReading, type TipPolicy } from "../../core/tip/index.ts";
import type { EntryOf } from "../catalogue.ts";
import { confirmedIn, valueIn } from "../field/index.ts";
import type { LineView } from "./line-view.ts";

/** What the last film still asks for, and whether the line was released on it all the same. */
export interface FilmAsked {
  readonly answer: FilmAnswer;
  readonly releasedOnIt: boolean;
}

const none = missing("not asked");

/**
 * The last film's answer, one for the page and the paper. "past" once the tip was corrected, its length read again or
 * the line taken out: the numbers are of another day then. A release alone corrects nothing: a withdrawal that was
 * asked for and not written is still asked for after it, and a tip that was left where it lies needs no word.
 */
export function filmOfLine(line: LineView, bornOn: string, policy: TipPolicy): FilmAsked | "not read" | "past" {
  if (!line.tip) return "not read";
  const said = line.tip.entry as EntryOf<"TipRead">;
  if (valueIn(said.method) !== "film") return "not read";
  const { event } = line.tip;
  if (line.tipCorrected || line.end || line.outside.at(-1)?.event !== event.id) return "past";
  const answer = correctFilm(filmReadingOf(said, event.happenedAt, bornOn), policy);
  const releasedOnIt =
    line.released !== undefined && instantMs(line.released.event.happenedAt) >= instantMs(event.happenedAt);
  return releasedOnIt && answer.kind !== "withdraw" ? "past" : { answer, releasedOnIt };
}

/**
 * Carina to tip on the last film, and one vertebral unit of the person where it shows one, both true cm; undefined where
 * it gave no depth or the tip was moved since.
 */
export function tipDepthOf(
  line: LineView,
  bornOn: string,
  policy: TipPolicy,
): { readonly depthCm: number; readonly unitCm: number | undefined } | undefined {
  if (!line.tip || line.tipCorrected) return undefined;
  const { entry, event } = line.tip;
  const answer = correctFilm(filmReadingOf(entry, event.happenedAt, bornOn), policy);
  if (!("trueDepthCm" in answer)) return undefined;
  const said = entry as EntryOf<"TipRead">;
  const [unit, magnification] = [confirmedIn(said.unitOnFilmCm), confirmedIn(said.magnification)];
  const unitCm = unit === undefined || magnification === undefined ? undefined : unit / magnification;
  return { depthCm: answer.trueDepthCm, unitCm };
}

/** A film as it was written down; the age is the one on its day. */
export function filmReadingOf(said: EntryOf<"TipRead">, happenedAt: Instant, bornOn: string): FilmReading {
  const born = parseCivilDate(bornOn);
  const length = (cm: number | undefined) => (cm === undefined ? none : centimetre(cm));
  return {
    place: valueIn(said.tipPlace) ?? none,
    filmCm: length(confirmedIn(said.filmCm)),
    magnification: confirmedIn(said.magnification) ?? none,
    unitOnFilmCm: length(confirmedIn(said.unitOnFilmCm)),
    ageYears: born ? completedYears(born, civilDateOf(happenedAt)) : none,
    arm: valueIn(said.armPosition) ?? none,
    armConfirmedBy: "",
    outsideCm: length(confirmedIn(said.outsideCm)),
    insideCm: length(confirmedIn(said.insideCm)),
    symptoms: none,
  };
}
