import type { ReactNode } from "react";
import { parseCivilDate } from "../../core/calendar/index.ts";
import { armNotSettled, armWords, sayDay } from "../../language/index.ts";
import { otherRecordsOf, useRecord } from "./record-context.tsx";
import type { PatientView } from "../../register/index.ts";

/** Two identifiers on every page, and the arm in words. */
export function Who({
  patient,
  arm,
  differ = false,
  children,
}: {
  readonly patient: PatientView | undefined;
  readonly arm?: "right" | "left" | undefined;
  /** Plan, placing and film name two arms: then none is named. */
  readonly differ?: boolean;
  readonly children?: ReactNode;
}): ReactNode {
  const { register } = useRecord();
  const others = patient ? otherRecordsOf(register, patient) : [];
  const born = patient && parseCivilDate(patient.bornOn);
  return (
    <header className="who">
      <h1>{patient?.name || "Name missing"}</h1>
      <p>
        no. {patient?.number || "missing"} · born {born ? sayDay(born).slice(4) : "not known"}
      </p>
      {patient?.subject.startsWith("patient:practice-") ? <p className="soft">practice, invented</p> : null}
      {others.length > 0 ? (
        <p>
          also {others.map(({ name, number }) => `${name || "name missing"}, no. ${number || "missing"}`).join("; ")}
        </p>
      ) : null}
      {children}
      {arm ? <p className="arm-word">{differ ? armNotSettled : armWords(arm)}</p> : null}
      {patient && patient.barred.length > 0 ? (
        <p className="alike">
          {patient.barred.map(({ arm: barred, why }) => `${armWords(barred)} is barred: ${why}.`).join(" ")}
        </p>
      ) : null}
    </header>
  );
}
