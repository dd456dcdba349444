import { lazy, Suspense, type ReactNode } from "react";
import { correctFilm } from "../../core/tip/index.ts";
import { tipPolicyFrom } from "../../policy/index.ts";
import { filmReadingOf, valueIn, type Entry, type EntryOf, type LineView } from "../../register/index.ts";
import { patientFor, useRecord } from "./record-context.tsx";

const TipPlate = lazy(() => import("./tip-plate.tsx").then((module) => ({ default: module.TipPlate })));

/** The tip in the chest as it is being typed; for no arm while the film and the placing name two. */
export function FilmLive({ line, entry }: { readonly line: LineView; readonly entry: Entry }): ReactNode {
  const { register, policy } = useRecord();
  const said = entry as EntryOf<"TipRead">;
  const place = valueIn(said.tipPlace);
  if (place === undefined) return null;
  const arms = new Set([valueIn(said.arm), valueIn(line.said.arm)].filter((arm) => arm !== undefined));
  const bornOn = patientFor(register, line.patient)?.bornOn ?? "";
  const reading = filmReadingOf(said, register.now(), bornOn);
  const isFilm = (valueIn(said.method) ?? "film") === "film";
  return (
    <Suspense fallback={null}>
      <TipPlate
        arms={[...arms]}
        place={place}
        answer={isFilm ? correctFilm(reading, tipPolicyFrom(policy.table)) : undefined}
      />
    </Suspense>
  );
}
