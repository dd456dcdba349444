import { useMemo, type ReactNode } from "react";
import { Link } from "wouter";
import type { CivilDate } from "../../core/calendar/index.ts";
import { sayEvent, sayMoment } from "../../language/index.ts";
import { reviews, valueIn, type Entry, type ReviewRow } from "../../register/index.ts";
import { idOf, lineOf, patientFor, referralOf, useAll, useRecord } from "./record-context.tsx";

const BACK_DAYS = 31; // a month's meeting reads the month before it

/** Lists that are read by several people together: open infections, stops passed, arms whose veins are kept. */
export function ReadTogether({ today }: { readonly today: CivilDate }): ReactNode {
  const { register, policy } = useRecord();
  const lines = useAll("line", lineOf);
  const referrals = useAll("referral", referralOf);
  const keepVeinsBelow = policy.table["kidney.bar-below"].value;
  const { openInfections, passedStops, kidneys } = useMemo(
    () => reviews(lines, referrals, today, { backDays: BACK_DAYS, keepVeinsBelow }),
    [lines, referrals, today, keepVeinsBelow],
  );
  return (
    <>
      <Rows title="Infection suspected, not concluded" empty="None is open." rows={openInfections} />
      <Rows title="Stops overridden and sides settled, last 31 days" empty="None." rows={passedStops} />
      <section data-list="kidneys">
        <h2>Kidneys: keep the arm veins</h2>
        {kidneys.length === 0 ? <p className="soft">Nobody known.</p> : null}
        <ul className="due-rows">
          {kidneys.map(({ subject, said }) => {
            const patient = patientFor(register, valueIn(said.patient));
            const eGfr = valueIn(said.eGfr);
            return (
              <li key={subject}>
                <p>
                  <b>{patient?.name ?? "name missing"}</b> <span>no. {patient?.number || "missing"}</span>{" "}
                  <span>{eGfr === undefined ? "eGFR not written" : `eGFR ${eGfr} mL/min/1.73 m²`}</span>{" "}
                  <span>{valueIn(said.onDialysis) === true ? "on dialysis" : ""}</span>
                </p>
              </li>
            );
          })}
        </ul>
        <p className="soft">Below {keepVeinsBelow} mL/min/1.73 m², by local policy; ask the kidney team first.</p>
      </section>
    </>
  );
}

function Rows({
  title,
  empty,
  rows,
}: {
  readonly title: string;
  readonly empty: string;
  readonly rows: readonly ReviewRow[];
}): ReactNode {
  const { register } = useRecord();
  return (
    <section data-list={title}>
      <h2>{title}</h2>
      {rows.length === 0 ? <p className="soft">{empty}</p> : null}
      <ul className="due-rows">
        {rows.map(({ line, happening: { event, entry } }) => {
          const patient = patientFor(register, line.patient);
          return (
            <li key={event.id}>
              <Link href={`/line/${idOf(line.subject)}`}>
                <b>{patient?.name ?? "name missing"}</b>
                <span>no. {patient?.number || "missing"}</span>
                <span>{sayEvent(event.type)}</span>
                <span>{sayMoment(event.happenedAt)}</span>
                <span>{whyOf(entry)}</span>
              </Link>
            </li>
          );
        })}
      </ul>
    </section>
  );
}

/** The reason written with a passed stop, or who decides about an infection. */
function whyOf(entry: Entry): string {
  const said = valueIn(entry["why"]) ?? valueIn(entry["whoDecides"]);
  return typeof said === "string" ? said : "";
}
