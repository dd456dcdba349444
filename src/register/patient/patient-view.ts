import { lookAlikeReasons, type LookAlikeReason } from "../../core/identity/index.ts";
import type { EntryOf } from "../catalogue.ts";
import type { Subject } from "../event/index.ts";
import { valueIn } from "../field/index.ts";
import { readHistory, standing, type Happening, type History } from "../fold/index.ts";

export type Details = EntryOf<"PatientRegistered">;

export interface PatientView {
  readonly subject: Subject;
  readonly version: number;
  readonly happenings: readonly Happening[];
  readonly number: string;
  readonly name: string;
  readonly bornOn: string;
  /** What was last said of each detail. */
  readonly details: Details;
  readonly barred: readonly { readonly arm: "right" | "left"; readonly why: string; readonly words: string }[];
  /** Other records that are the same person, and were not taken apart again. */
  readonly sameAs: readonly Subject[];
}

/** A person as the record tells it. */
export function patientView(history: History): PatientView {
  const happenings = readHistory(history);
  let details: Details = {};
  const barred = new Map<string, PatientView["barred"][number]>();
  const sameAs = new Set<Subject>();
  for (const { event, entry } of standing(happenings)) {
    switch (event.type) {
      case "PatientRegistered":
      case "PatientDetailsTaken":
        details = { ...details, ...(entry as Details) };
        break;
      case "ArmBarred": {
        const said = entry as EntryOf<"ArmBarred">;
        const arm = valueIn(said.arm);
        if (arm) barred.set(arm, { arm, why: valueIn(said.why) ?? "other", words: valueIn(said.words) ?? "" });
        break;
      }
      case "ArmBarLifted":
        barred.delete(valueIn((entry as EntryOf<"ArmBarLifted">).arm) ?? "");
        break;
      case "PatientsMerged":
        sameAs.add(`patient:${valueIn((entry as EntryOf<"PatientsMerged">).other) ?? ""}`);
        break;
      case "MergeUndone":
        sameAs.delete(`patient:${valueIn((entry as EntryOf<"MergeUndone">).other) ?? ""}`);
        break;
      default:
    }
  }
  return {
    subject: history.subject,
    version: history.version,
    happenings,
    number: valueIn(details.number) ?? "",
    name: valueIn(details.name) ?? "",
    bornOn: valueIn(details.bornOn) ?? "",
    details,
    barred: [...barred.values()],
    sameAs: [...sameAs],
  };
}

export interface PossibleDuplicate {
  readonly a: PatientView;
  readonly b: PatientView;
  readonly reasons: readonly (LookAlikeReason | "same number")[];
}

/**
 * Pairs of records that may be one person; a person decides, nothing is merged by itself. Pairs already merged, or
 * merged and taken apart again, are not offered.
 */
export function possibleDuplicates(patients: readonly PatientView[]): readonly PossibleDuplicate[] {
  return patients.flatMap((a, at) =>
    patients.slice(at + 1).flatMap((b): PossibleDuplicate[] => {
      if (decidedBefore(a, b)) return [];
      if (a.number !== "" && a.number === b.number) return [{ a, b, reasons: ["same number"] }];
      const reasons = lookAlikeReasons(identified(a), identified(b));
      // one likeness alone is common; two of name, number and date of birth are a question
      const bornAlike = a.bornOn !== "" && a.bornOn === b.bornOn;
      return reasons.length >= 2 || (reasons.length === 1 && bornAlike) ? [{ a, b, reasons }] : [];
    }),
  );
}

const identified = ({ name, number, bornOn }: PatientView) => ({ name, identifier: number, bornOn });

const decidedBefore = (a: PatientView, b: PatientView): boolean =>
  [a, b].some((one) =>
    one.happenings.some(
      ({ event, entry }) =>
        (event.type === "PatientsMerged" || event.type === "MergeUndone") &&
        [a.subject, b.subject].includes(`patient:${valueIn((entry as EntryOf<"PatientsMerged">).other) ?? ""}`),
    ),
  );

/** A record with what its person's other records say that must not be missed: their names, numbers and arm bars. */
export interface WholePerson extends PatientView {
  readonly otherRecords: readonly PatientView[];
}

/**
 * Every record of one person, by subject; only persons with more than one are in it. Each shows what all of them bar.
 * Example: an arm barred on the second record is barred on the first as well, until they are taken apart.
 */
export function wholePersons(patients: readonly PatientView[]): ReadonlyMap<Subject, WholePerson> {
  const bySubject = new Map(patients.map((patient) => [patient.subject, patient]));
  const groups = new Map<Subject, PatientView[]>();
  for (const patient of patients) {
    const root = shownUnder(patient.subject, bySubject);
    groups.set(root, [...(groups.get(root) ?? []), patient]);
  }
  const whole = new Map<Subject, WholePerson>();
  for (const group of groups.values()) {
    if (group.length < 2) continue;
    const bars = new Map(group.flatMap(({ barred }) => barred.map((bar) => [bar.arm, bar])));
    for (const own of group) {
      const barred = [
        ...own.barred,
        ...[...bars.values()].filter(({ arm }) => !own.barred.some((bar) => bar.arm === arm)),
      ];
      whole.set(own.subject, { ...own, barred, otherRecords: group.filter((one) => one !== own) });
    }
  }
  return whole;
}

/** The record a merged person is shown under: the one that took the other in, followed to its end. */
export function shownUnder(subject: Subject, patients: ReadonlyMap<Subject, PatientView>): Subject {
  const taken = new Map<Subject, Subject>();
  for (const patient of patients.values()) for (const other of patient.sameAs) taken.set(other, patient.subject);
  let at = subject;
  const seen = new Set<Subject>([at]);
  for (let next = taken.get(at); next !== undefined && !seen.has(next); next = taken.get(at)) {
    at = next;
    seen.add(at);
  }
  return at;
}
