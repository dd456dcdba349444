import { createContext, useContext, useMemo } from "react";
import {
  initialHistory,
  lineView,
  lotView,
  patientView,
  referralView,
  type History,
  type LineView,
  type LotView,
  type PatientView,
  type ReferralView,
  type Subject,
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

/** The person a line or referral belongs to; undefined while nobody wrote it. */
export function patientFor(register: Register, id: string | undefined): PatientView | undefined {
  const history = id === undefined ? undefined : register.histories.get(`patient:${id}`);
  return history && patientOf(history);
}

/** The identifier behind a subject, as it stands in an address. */
export const idOf = (subject: Subject): string => subject.slice(subject.indexOf(":") + 1);
