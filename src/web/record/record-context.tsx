import { createContext, useContext, useMemo } from "react";
import {
  initialHistory,
  lineView,
  lotView,
  patientView,
  referralView,
  wholePersons,
  type History,
  type LineView,
  type LotView,
  type PatientView,
  type ReferralView,
  type Subject,
  type WholePerson,
} from "../../register/index.ts";
import type { LocalPolicy } from "../../policy/index.ts";
import type { Register } from "../register/register.ts";

export interface RecordPlace {
  readonly register: Register;
  readonly policy: LocalPolicy;
}

export const RecordContext = createContext<RecordPlace | undefined>(undefined);

export function useRecord(): RecordPlace {
  const place = useContext(RecordContext);
  if (!place) throw new Error("no record here");
  return place;
}

/** A view is read once for a history: histories never change, a new event makes a new one. */
function remembered<View>(read: (history: History) => View): (history: History) => View {
  const known = new WeakMap<History, View>();
  return (history) => {
    const before = known.get(history);
    if (before !== undefined) return before;
    const view = read(history);
    known.set(history, view);
    return view;
  };
}

export const lineOf = remembered<LineView>(lineView);
export const patientOf = remembered<PatientView>(patientView);
export const referralOf = remembered<ReferralView>(referralView);
export const lotOf = remembered<LotView>(lotView);

export function useAll<View>(
  kind: "line" | "patient" | "referral" | "lot",
  read: (history: History) => View,
): readonly View[] {
  const { histories } = useRecord().register;
  return useMemo(
    () => [...histories.values()].filter(({ subject }) => subject.startsWith(`${kind}:`)).map(read),
    [histories, kind, read],
  );
}

export const historyOf = (register: Register, subject: Subject): History =>
  register.histories.get(subject) ?? initialHistory(subject);

const knownPersons = new WeakMap<Register["histories"], ReadonlyMap<Subject, WholePerson>>();

/** Persons with more than one record, read once for a state of the register. */
function personsOf({ histories }: Pick<Register, "histories">): ReadonlyMap<Subject, WholePerson> {
  const before = knownPersons.get(histories);
  if (before) return before;
  const patients = [...histories.values()].filter(({ subject }) => subject.startsWith("patient:")).map(patientOf);
  const persons = wholePersons(patients);
  knownPersons.set(histories, persons);
  return persons;
}

/** The person a line or referral belongs to, with what the person's other records bar; undefined while nobody wrote it. */
export function patientFor(register: Register, id: string | undefined): PatientView | undefined {
  const history = id === undefined ? undefined : register.histories.get(`patient:${id}`);
  return history && (personsOf(register).get(history.subject) ?? patientOf(history));
}

/** The other records of the same person, as two people joined them. */
export const otherRecordsOf = (register: Register, patient: PatientView): readonly PatientView[] =>
  personsOf(register).get(patient.subject)?.otherRecords ?? [];

/** The identifier behind a subject, as it stands in an address. */
export const idOf = (subject: Subject): string => subject.slice(subject.indexOf(":") + 1);
