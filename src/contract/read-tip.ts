import { ageGroupOf, ageInYears, type AgeBorders } from "../core/age/index.ts";
import type { Side } from "../core/arm/index.ts";
import { isMissing, missing, type Maybe } from "../core/missing/index.ts";
import { centimetre, type Centimetre } from "../core/quantity/index.ts";
import type { ArmMovementQuestion, FilmReading, OutsideQuestion } from "../core/tip/index.ts";
import { ageFaults } from "./age-fault.ts";
import type { Fault } from "./fault.ts";
import { hiddenSigns } from "./hidden-sign.ts";
import { parsedJson, readJson, type Faults } from "./read-json.ts";
import { filmFile, tipFile, type FilmFile, type TipFile } from "./tip-schema.ts";

const notAsked = missing("not asked");

export interface FilmQuestion {
  readonly side: Maybe<Side>;
  readonly reading: FilmReading;
  /** A second person's distance; undefined where nobody read twice. */
  readonly secondFilmCm: number | undefined;
}

/** The parts of a TIP.json that were given, each ready for its question. */
export interface TipQuestions {
  readonly outside: OutsideQuestion | undefined;
  readonly arm: ArmMovementQuestion | undefined;
}

/** Reads FILM.json; every fault of the file at once. */
export function readFilmText(text: string): { readonly kind: "read"; readonly data: FilmQuestion } | Faults {
  const parsed = parsedJson(text);
  if (parsed.kind === "faults") return parsed;
  const reading = readJson(parsed.json, filmFile, (data) => [
    ...personFaults(data),
    ...(typeof data.secondFilmCm === "number" && typeof data.filmCm !== "number"
      ? [lacking("filmCm", "filmCm beside secondFilmCm")]
      : []),
  ]);
  return reading.kind === "faults" ? reading : { kind: "read", data: filmFrom(reading.data) };
}

/** Reads TIP.json; every fault of the file at once. */
export function readTipText(
  text: string,
  borders: AgeBorders,
): { readonly kind: "read"; readonly data: TipQuestions } | Faults {
  const parsed = parsedJson(text);
  if (parsed.kind === "faults") return parsed;
  const reading = readJson(parsed.json, tipFile, (data) => [
    ...personFaults(data),
    ...(data.outside === undefined && data.arm === undefined ? [lacking("outside", "outside or arm")] : []),
  ]);
  return reading.kind === "faults" ? reading : { kind: "read", data: tipFrom(reading.data, borders) };
}

const lacking = (path: string, rule: string): Fault => ({ path, code: "missing-field", found: "nothing", rule });

/** In these files the age stands at the top. */
const personFaults = (data: FilmFile | TipFile): readonly Fault[] => [
  ...hiddenSigns(data, ""),
  ...ageFaults(data).map((fault) => ({ ...fault, path: fault.path.replace(/^patient\./, "") })),
];

const yearsOf = (age: FilmFile["age"]): Maybe<number> =>
  age === undefined ? notAsked : isMissing(age) ? age : ageInYears(age);

const lengthOf = (value: Maybe<number> | undefined): Maybe<Centimetre> =>
  value === undefined ? notAsked : isMissing(value) ? value : centimetre(value);

function filmFrom(data: FilmFile): FilmQuestion {
  return {
    side: data.side ?? notAsked,
    secondFilmCm: typeof data.secondFilmCm === "number" ? data.secondFilmCm : undefined,
    reading: {
      place: data.place ?? notAsked,
      filmCm: lengthOf(data.filmCm),
      magnification: data.magnification ?? notAsked,
      unitOnFilmCm: lengthOf(data.unitOnFilmCm),
      ageYears: yearsOf(data.age),
      arm: data.arm ?? notAsked,
      armConfirmedBy: data.armConfirmedBy ?? "",
      outsideCm: lengthOf(data.outsideCm),
      insideCm: lengthOf(data.insideCm),
      symptoms: data.symptoms ?? notAsked,
    },
  };
}

function tipFrom({ outside, arm, ...data }: TipFile, borders: AgeBorders): TipQuestions {
  const patient = {
    age: data.age ?? notAsked,
    bornPreterm: data.bornPreterm ?? notAsked,
    correctedAgeDays: data.correctedAgeDays ?? notAsked,
  };
  return {
    outside: outside && {
      ageYears: yearsOf(data.age),
      depthAtFilmCm: outside.depthAtFilmCm ?? notAsked,
      outsideAtFilmCm: outside.outsideAtFilmCm ?? notAsked,
      outsideNowCm: outside.outsideNowCm ?? notAsked,
      symptoms: outside.symptoms ?? notAsked,
      bloodReturn: outside.bloodReturn ?? notAsked,
    },
    arm: arm && {
      group: ageGroupOf(patient, borders),
      vein: arm.vein ?? notAsked,
      broughtInDegree: arm.broughtInDegree,
    },
  };
}
