import { useContext, type ReactNode } from "react";
import type { PlanAnswer } from "../../core/line-plan/index.ts";
import { EntryContext, Field } from "./field.tsx";

const FIXED = ["side", "vein", "veinEntryCm"] as const;

/** Fixes the vein entry at a place of the chosen vein; everything follows. */
export function useMove(answer: PlanAnswer): (entryCm: number) => void {
  const { fields, type } = useContext(EntryContext);
  const { chosen } = answer;
  return (entryCm) => {
    type("fixedPlace.side", fields["fixedPlace.side"] || (chosen?.side ?? ""));
    type("fixedPlace.vein", fields["fixedPlace.vein"] || (chosen?.vein ?? ""));
    type("fixedPlace.veinEntryCm", entryCm.toFixed(1));
  };
}

/** Moves the vein entry by press or by typing; everything follows, and the broken rule is named if one breaks. */
export function MoveEntry({ answer }: { readonly answer: PlanAnswer }): ReactNode {
  const { fields, type } = useContext(EntryContext);
  const fixed = fields["fixedPlace.veinEntryCm"] ?? "";
  const { chosen } = answer;
  const fixAt = useMove(answer);
  const release = () => {
    for (const key of FIXED) type(`fixedPlace.${key}`, "");
  };
  const now = Number(fixed === "" ? chosen?.veinEntryCm : fixed.replace(",", "."));
  const step = (cm: number) => fixAt(Math.round((now + cm) * 10) / 10);
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
