import { useContext, type ReactNode } from "react";
import type { Side } from "../../core/arm/index.ts";
import { readNumber } from "../../contract/index.ts";
import { amount, armWords } from "../../language/index.ts";
import { EntryContext, Field } from "./field.tsx";

/** Two people lay the tape without seeing each other's number; the difference shows only when both are typed. */
export function LengthEntry({ side }: { readonly side: Side | undefined }): ReactNode {
  const { fields } = useContext(EntryContext);
  if (!side) {
    return (
      <>
        <h2>Length</h2>
        <p className="soft">Comes after the arm is chosen: a tape belongs to its side.</p>
      </>
    );
  }
  const prefix = `length.sides.${side}`;
  const first = fields[`${prefix}.surfaceTapeCm`] ?? "";
  const second = fields[`${prefix}.secondTapeCm`] ?? "";
  const both = first !== "" && second !== "";
  return (
    <>
      <h2>Length, {armWords(side)}</h2>
      <Field path={`${prefix}.tapeFromCm`} label="Tapes laid from, on the arm" unit="cm" />
      <Field
        path={`${prefix}.surfaceTapeCm`}
        label="First tape, to the third right rib space"
        unit="cm"
        hidden={first !== "" && !both}
      />
      <Field path={`${prefix}.secondTapeCm`} label="Second person's tape" unit="cm" />
      <p className="soft">
        {both
          ? `First ${first}, second ${second}: ${difference(first, second)}.`
          : "Each measures alone. Both show when both are typed."}
      </p>
      <Field path={`${prefix}.lastGoodLengthCm`} label="Last good line, vein to tip" unit="cm" />
      <Field path={`${prefix}.lastGoodEntryCm`} label="It entered the vein at" unit="cm" />
      <Field path="length.outsideCm" label="Outside the skin" unit="cm" aloud />
      <details>
        <summary>By formula</summary>
        <p className="soft">Adults: the first three. Children and newborns: the last, and the height.</p>
        <Field path="length.clavicleCm" label="Shoulder tip to inner end of the collar bone" unit="cm" />
        <Field path="length.sternumCm" label="Inner end of the collar bone to the tip of the breastbone" unit="cm" />
        <Field path="length.creaseBelowEpicondyleCm" label="Elbow crease below the inner elbow bone" unit="cm" />
        <Field path="length.entryToAxillaryPointCm" label="Vein entry to the front fold of the armpit" unit="cm" />
      </details>
    </>
  );
}

/** The difference of two tapes as typed, or that one of them is no number. */
function difference(first: string, second: string): string {
  const [a, b] = [readNumber(first), readNumber(second)];
  return a.kind === "number" && b.kind === "number"
    ? `they differ by ${amount(Math.abs(a.value - b.value), "cm")}`
    : "one is no number";
}
