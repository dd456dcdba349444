import { isAboutAnEvent } from "../catalogue.ts";
import type { RegisterEvent, Subject } from "../event/index.ts";

/** Which patient each referral, plan and line belongs to, and the wards each patient was last said to be on. */
export interface PatientIndex {
  readonly patientOf: ReadonlyMap<Subject, string>;
  readonly wardOf: ReadonlyMap<string, string>;
}

/**
 * Reads on: adds events in store order to an index that is changed in place, so that a server reads each event once.
 * A field that names no ward, or says why there is none, leaves the ward as it was.
 */
export function indexPatients(
  index: { readonly patientOf: Map<Subject, string>; readonly wardOf: Map<string, string> },
  events: readonly RegisterEvent[],
): void {
  for (const { subject, type, data } of events) {
    // a correction is about an entry and moves no patient by itself
    if (isAboutAnEvent(type)) continue;
    const named = said(data["patient"]);
    if (subject.startsWith("patient:")) index.patientOf.set(subject, subject.slice("patient:".length));
    else if (named !== undefined) index.patientOf.set(subject, named);
    const patient = index.patientOf.get(subject);
    const ward = said(data["ward"]) ?? said(data["fromWard"]) ?? said(data["place"]);
    if (patient !== undefined && ward !== undefined) index.wardOf.set(patient, ward);
  }
}

function said(recorded: unknown): string | undefined {
  const value = (recorded as { readonly value?: unknown } | undefined)?.value;
  return typeof value === "string" && value !== "" ? value : undefined;
}
