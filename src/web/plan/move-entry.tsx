import { useContext, type ReactNode } from "react";
import type { PlanAnswer } from "../../core/line-plan/index.ts";
import { EntryContext, Field } from "./field.tsx";

const FIXED = ["side", "vein", "veinEntryCm"] as const;

/** Moves the vein entry by press or by typing; everything follows, and the broken rule is named if one breaks. */
export function MoveEntry({ answer }: { readonly answer: PlanAnswer }): ReactNode {
  const { fields, type } = useContext(EntryContext);
  const fixed = fields["fixedPlace.veinEntryCm"] ?? "";
  const { chosen } = answer;
  const fixAt = (cm: string) => {
    type("fixedPlace.side", fields["fixedPlace.side"] || (chosen?.side ?? ""));
    type("fixedPlace.vein", fields["fixedPlace.vein"] || (chosen?.vein ?? ""));
    type("fixedPlace.veinEntryCm", cm);
  };
  const release = () => {
    for (const key of FIXED) type(`fixedPlace.${key}`, "");
  };
  const now = Number(fixed === "" ? chosen?.veinEntryCm : fixed.replace(",", "."));
  const step = (cm: number) => fixAt((Math.round((now + cm) * 10) / 10).toFixed(1));
  if (!chosen && fixed === "") return null;
  return (
    <fieldset className="move">
      <legend>Move the vein entry</legend>
      <button type="button" onClick={() => step(-0.5)}>
        5 mm to the elbow
      </button>
      <button type="button" onClick={() => step(-0.1)}>
        1 mm to the elbow
      </button>
      <button type="button" onClick={() => step(0.1)}>
        1 mm to the armpit
      </button>
      <button type="button" onClick={() => step(0.5)}>
        5 mm to the armpit
      </button>
      {fixed === "" ? null : (
        <>
          <Field path="fixedPlace.veinEntryCm" label="Vein entry fixed at" unit="cm" />
          <button type="button" onClick={release}>
            Let the plan choose again
          </button>
        </>
      )}
    </fieldset>
  );
}
