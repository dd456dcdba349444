import type { ReactNode } from "react";
import { Link } from "wouter";
import { sayEvent, sayField, sayMoment, sayRecorded } from "../../language/index.ts";
import { fieldsOf, valueIn, type Entry, type StoredEvent, type Subject } from "../../register/index.ts";
import { historyOf, lineOf, patientFor, useRecord } from "./record-context.tsx";
import { Who } from "./who.tsx";

/** Two entries written without knowledge of each other, side by side; a person corrects or voids one. */
export function DisputePage({ id, event }: { readonly id: string; readonly event: string }): ReactNode {
  const { register } = useRecord();
  const subject: Subject = `line:${id}`;
  const line = lineOf(historyOf(register, subject));
  const dispute = line.disputes.find(({ second }) => second.id === event);
  if (!dispute) {
    return (
      <main className="write">
        <p className="headline">This is settled.</p>
        <Link href={`/line/${id}`}>Back to the line</Link>
      </main>
    );
  }
  const fields = fieldsOf("line", dispute.first.type) ?? {};
  const said = (stored: StoredEvent, name: string): string => {
    const field = fields[name];
    const entry =
      line.happenings.find(({ event: one }) => one.id === stored.id)?.entry ?? (stored.data as unknown as Entry);
    return field ? sayRecorded(field, entry[name]) : "";
  };
  return (
    <>
      <Who patient={patientFor(register, line.patient)} arm={valueIn(line.said.arm)} />
      <main className="write">
        <h1 className="headline">{sayEvent(dispute.first.type)}: written twice, and not alike</h1>
        <table className="beside">
          <thead>
            <tr>
              <th scope="col">Answer</th>
              {[dispute.first, dispute.second].map((stored) => (
                <th key={stored.id} scope="col">
                  {stored.author.initials}, {stored.author.role}
                  <br />
                  <span className="soft">
                    {sayMoment(stored.happenedAt)} · {stored.device}
                  </span>
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {dispute.fields.map((name) => (
              <tr key={name}>
                <th scope="row">{sayField(name)}</th>
                <td>{said(dispute.first, name)}</td>
                <td>{said(dispute.second, name)}</td>
              </tr>
            ))}
          </tbody>
          <tfoot>
            <tr>
              <th scope="row">Both are kept</th>
              {[dispute.first, dispute.second].map((stored) => (
                <td key={stored.id}>
                  <Link href={`/correct/${id}/${stored.id}`}>Correct or void this one</Link>
                </td>
              ))}
            </tr>
          </tfoot>
        </table>
      </main>
    </>
  );
}
