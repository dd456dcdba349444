import { useContext, useState, type ReactNode } from "react";
import type { Infusate } from "../../core/infusate/index.ts";
import { Choice, EntryContext, Field, YES_NO } from "./field.tsx";

/** Four fields give a first answer; the rest refines it. Age stands with the patient above. */
export function ReferralEntry({ drugs }: { readonly drugs: readonly Infusate[] }): ReactNode {
  const { fields } = useContext(EntryContext);
  const [open, setOpen] = useState(false);
  const names = drugs.map(({ name }) => name);
  const last = Object.entries(fields).reduce((most, [path, text]) => {
    const [, index] = /^referral\.infusates\.(\d+)$/.exec(path) ?? [];
    return index !== undefined && text.trim() !== "" ? Math.max(most, Number(index)) : most;
  }, -1);
  return (
    <>
      <h2>Is a line needed</h2>
      <Field path="referral.days.likely" label="Days of need, likely" unit="days" />
      {Array.from({ length: last + 2 }, (_, index) => (
        <Field
          key={index}
          path={`referral.infusates.${index}`}
          label={index === 0 ? "Drug or fluid" : "And another"}
          wide
          suggestions={names}
        />
      ))}
      {Object.entries(fields).some(
        ([path, text]) => path.startsWith("referral.infusates.") && text.trim() === "parenteral nutrition",
      ) ? (
        <>
          <Field path="referral.bag.volumeMl" label="The bag holds" unit="mL" />
          <Field path="referral.bag.aminoAcidG" label="Amino acid" unit="g" />
          <Field path="referral.bag.glucoseG" label="Glucose" unit="g" />
          <Field path="referral.bag.monovalentSaltsMmol" label="Sodium and potassium salts" unit="mmol" />
          <Field path="referral.bag.otherIonsMmol" label="Other ions" unit="mmol" />
          <Field path="referral.bag.lipidG" label="Lipid" unit="g" />
          <Field path="referral.bag.lipidMosmPerG" label="Lipid, by its label" unit="mOsm/g" />
        </>
      ) : null}
      <Creatinine which={0} label="Creatinine" />
      <Choice
        path="referral.sex"
        label="Sex, for the kidney and pregnancy"
        options={[
          ["female", "female"],
          ["male", "male"],
        ]}
      />
      <Choice
        path="referral.kidney.replacement"
        label="Dialysis or transplant"
        options={[
          ["none", "neither"],
          ["dialysis", "dialysis"],
          ["transplant", "transplant"],
        ]}
      />
      <details className="more" onToggle={(event) => setOpen(event.currentTarget.open)}>
        <summary>More answers, when they matter</summary>
        {open ? <MoreAnswers /> : null}
      </details>
    </>
  );
}

/** One creatinine and the unit it was reported in: without the unit the number is asked about and not read. */
function Creatinine({ which, label }: { readonly which: 0 | 1; readonly label: string }): ReactNode {
  const { fields } = useContext(EntryContext);
  const path = `referral.kidney.creatinines.${which}`;
  return (
    <>
      <Field path={`${path}.value`} label={label} unit={fields[`${path}.unit`] ?? "unit?"} />
      <Choice
        path={`${path}.unit`}
        label={`${label} is in`}
        options={[
          ["mg/dL", "mg/dL"],
          ["umol/L", "µmol/L"],
        ]}
      />
    </>
  );
}

/** What refines the answer; drawn once it is asked for, so that the page stands sooner. */
function MoreAnswers(): ReactNode {
  return (
    <>
      <Field path="referral.days.least" label="Days, least" unit="days" />
      <Field path="referral.days.most" label="Days, most" unit="days" />
      <Field path="referral.kidney.creatinines.0.on" label="Creatinine of" unit="y-m-d" />
      <Creatinine which={1} label="Earlier creatinine" />
      <Field path="referral.kidney.creatinines.1.on" label="Earlier creatinine of" unit="y-m-d" />
      <Field path="referral.kidney.filtration" label="Or eGFR as printed" unit="mL/min" />
      <Field path="referral.kidney.filtrationOn" label="eGFR of" unit="y-m-d" />
      <Words
        path="referral.setting"
        label="Where it is used"
        words={["ward", "intensive care", "home", "nursing home", "no fixed place"]}
      />
      <Choice
        path="referral.carer"
        label="Flushed and dressed by"
        options={[
          ["somebody", "somebody named"],
          ["nobody", "nobody"],
        ]}
      />
      <Choice path="referral.criticallyIll" label="Critically ill" options={YES_NO} />
      <Choice path="referral.pregnancy" label="Pregnant" options={YES_NO} />
      <Words path="referral.cancer" label="Cancer" words={["none", "solid", "blood"]} />
      <Choice path="referral.urgent" label="Treatment must start at once" options={YES_NO} />
      <Words
        path="referral.cycles"
        label="Given in cycles"
        words={["none", "under 3 months", "3 to 6 months", "6 months or more"]}
      />
      <Words path="referral.oral" label="By mouth instead" words={["not possible", "possible"]} />
      <Words
        path="referral.purpose"
        label="What for"
        words={["therapy", "monitoring", "access only", "sampling only", "request only"]}
      />
      <Choice path="referral.difficultVeins" label="Veins hard to find" options={YES_NO} />
      <Field path="referral.sampleEveryHours" label="Blood drawn every, 0 if never" unit="hours" />
      <Field path="referral.admissionsAYear" label="Admissions" unit="a year" />
      <Choice path="referral.endOfLife" label="Care at the end of life" options={YES_NO} />
      <Choice path="referral.teamAgreed" label="The team has agreed to a PICC" options={YES_NO} />
      <Field path="referral.bleeding.inr" label="INR" unit="INR" />
      <Field path="referral.bleeding.platelets" label="Platelets" unit="10⁹/L" />
      <Choice path="referral.bleeding.clopidogrel" label="Clopidogrel" options={YES_NO} />
      <Words path="referral.culture.state" label="Blood culture" words={["none taken", "negative", "positive"]} />
      <Field path="referral.culture.hoursSinceNegative" label="Since the first negative one" unit="hours" />
    </>
  );
}

function Words({
  path,
  label,
  words,
}: {
  readonly path: string;
  readonly label: string;
  readonly words: readonly string[];
}): ReactNode {
  return <Choice path={path} label={label} options={words.map((word) => [word, word] as const)} />;
}
