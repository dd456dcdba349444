import * as z from "zod/mini";
import { SIDES, VEINS } from "../core/arm/index.ts";
import { TIP_PLACES } from "../core/tip/index.ts";
import { age, between, flag, maybe, text } from "./form.ts";

const person = { age: maybe(age), bornPreterm: maybe(flag), correctedAgeDays: maybe(between(-150, 1500)) };

/** FILM.json: one film as it was read, and the catheter as it is now. Above the carina distances are negative. */
export const filmFile = z.strictObject({
  ...person,
  side: maybe(z.enum(SIDES)),
  place: maybe(z.enum(TIP_PLACES)),
  filmCm: maybe(between(-20, 30)),
  /** A second person's reading of the same distance on the same film. */
  secondFilmCm: maybe(between(-20, 30)),
  magnification: maybe(between(0.3, 4)),
  unitOnFilmCm: maybe(between(0.2, 6)),
  arm: maybe(z.enum(["at the side", "away from the body"])),
  armConfirmedBy: z.optional(text),
  outsideCm: maybe(between(0, 60)),
  insideCm: maybe(between(0, 100)),
  symptoms: maybe(flag),
});

/** TIP.json: what is known of a tip without a new film. Each part may stand alone. */
export const tipFile = z.strictObject({
  ...person,
  outside: z.optional(
    z.strictObject({
      depthAtFilmCm: maybe(between(-20, 20)),
      outsideAtFilmCm: maybe(between(0, 60)),
      outsideNowCm: maybe(between(0, 100)),
      symptoms: maybe(flag),
      bloodReturn: maybe(flag),
    }),
  ),
  /** The arm is brought in to the body by so many degrees, or away from it below zero. */
  arm: z.optional(z.strictObject({ vein: maybe(z.enum(VEINS)), broughtInDegree: between(-180, 180) })),
});

export type FilmFile = z.infer<typeof filmFile>;
export type TipFile = z.infer<typeof tipFile>;

export const tipJsonSchemas: Readonly<Record<"film" | "tip", () => unknown>> = {
  film: () => z.toJSONSchema(filmFile),
  tip: () => z.toJSONSchema(tipFile),
};
