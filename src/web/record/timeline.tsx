import { useState, type ReactNode } from "react";
import { Link } from "wouter";
import { civilDateOf, midnightsBetween, minutesBetween } from "../../core/calendar/index.ts";
import { roleAsSaid, sayEvent, sayField, sayMoment, sayRecorded } from "../../language/index.ts";
import { fieldsOf, type Happening, type LineView } from "../../register/index.ts";
import { idOf } from "./record-context.tsx";

const LATE_MINUTES = 24 * 60; // written a day or more after it happened

/** Everything that happened, in the order it happened; what no longer holds stands struck beside what does. */
export function Timeline({ line }: { readonly line: LineView }): ReactNode {
  const start = line.placed && civilDateOf(line.placed.event.happenedAt);
  return (
    <ol className="timeline">
      {line.happenings.map((happening) => (
        <TimelineItem
          key={happening.event.id}
          happening={happening}
          line={line}
          day={start && midnightsBetween(start, civilDateOf(happening.event.happenedAt))}
        />
      ))}
    </ol>
  );
}

function TimelineItem({
  happening,
  line,
  day,
}: {
  readonly happening: Happening;
  readonly line: LineView;
  readonly day: number | undefined;
}): ReactNode {
  const [open, setOpen] = useState(false);
  const { event, entry, struck, voided } = happening;
  const fields = fieldsOf("line", event.type) ?? {};
  const said = Object.entries(fields).filter(
    ([name, field]) => entry[name] !== undefined && field.kind !== "reference",
  );
  const late = minutesBetween(event.happenedAt, event.writtenAt) >= LATE_MINUTES;
  return (
    <li className={voided ? "voided" : undefined} data-event={event.type}>
      <span className="day">{day === undefined ? "" : `day ${day}`}</span>
      <details onToggle={({ currentTarget }) => setOpen(currentTarget.open)}>
        <summary>
          <b>{sayEvent(event.type)}</b> <span className="soft">{sayMoment(event.happenedAt)}</span>{" "}
          <span className="gist">{gist(happening)}</span>
          {struck.length > 0 ? <span className="soft"> · corrected</span> : null}
          {voided ? <span className="soft"> · voided: {voided.why}</span> : null}
          {late ? <span className="soft"> · written {sayMoment(event.writtenAt)}</span> : null}
        </summary>
        {open ? (
          <>
            <dl>
              {said.map(([name, field]) => (
                <div key={name}>
                  <dt>{sayField(name)}</dt>
                  <dd>
                    {sayRecorded(field, entry[name])}
                    {struck
                      .filter((one) => one.field === name)
                      .map((one) => (
                        <span key={one.at} className="struck">
                          <s>{sayRecorded(field, one.was)}</s> changed by {one.by.initials}, {sayMoment(one.at)}:{" "}
                          {one.why}
                        </span>
                      ))}
                  </dd>
                </div>
              ))}
            </dl>
            <p className="soft">
              {event.author.initials}, {event.author.role}
              {event.author.account === "" ? ` (${roleAsSaid})` : ""} · written {sayMoment(event.writtenAt)} on{" "}
              {event.device} · policy {event.policyVersion}
            </p>
            {voided ? null : <Link href={`/correct/${idOf(line.subject)}/${event.id}`}>Correct or void this</Link>}
          </>
        ) : null}
      </details>
    </li>
  );
}

/** The one thing of an entry a reader looks for. */
const GIST: Readonly<Record<string, readonly string[]>> = {
  LineInserted: ["vein", "insideCm", "outsideCm"],
  LineFound: ["insideCm", "outsideCm"],
  TipRead: ["tipPlace", "filmCm"],
  TipCorrected: ["withdrawnCm", "outsideCm"],
  LineReleased: ["uses"],
  OwnerNamed: ["owner", "place", "nextOn"],
  CareGiven: ["outsideCm", "bloodReturn", "symptoms"],
  LineUsed: ["what"],
  InfectionSuspected: ["signs"],
  ClotLookedFor: ["ultrasound"],
  LineRemoved: ["reason", "lengthOutCm"],
  EndUnknown: ["lastSeenOn"],
  LineHandedOn: ["toService"],
  PaperIssued: ["paper", "issue"],
  PatencyStepTaken: ["step", "answer"],
};

function gist({ event, entry }: Happening): string {
  const fields = fieldsOf("line", event.type) ?? {};
  return (GIST[event.type] ?? [])
    .flatMap((name) => {
      const field = fields[name];
      return field && entry[name] !== undefined
        ? [`${sayField(name).toLowerCase()} ${sayRecorded(field, entry[name])}`]
        : [];
    })
    .join(", ");
}
