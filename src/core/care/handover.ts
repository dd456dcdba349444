import type { CivilDate } from "../calendar/index.ts";
import { isMissing } from "../missing/index.ts";
import { finding, type Finding } from "../reason/index.ts";
import type { CareOwner } from "./line-care.ts";

export const HANDOVERS = ["discharge", "transfer"] as const;
export type Handover = (typeof HANDOVERS)[number];

const blank = (value: unknown): boolean => isMissing(value) || (typeof value === "string" && value.trim() === "");

/**
 * Whether a patient with a line may leave: the next care has a person, a place and a date, each missing one a stop.
 * Holds: discharge and transfer; a date before today names no next care. Source: common practice, no source (issue of
 * lines that nobody owns). Example: no person named: one stop, "handover-without-person".
 */
export function judgeHandover(kind: Handover, owner: CareOwner, today: CivilDate): readonly Finding[] {
  const { person, place, nextOn } = owner;
  const stop = (code: string, path: string) => finding(code, "not met", "stop", { kind }, { path });
  const findings = [
    ...(blank(person) ? [stop("handover-without-person", "person")] : []),
    ...(blank(place) ? [stop("handover-without-place", "place")] : []),
    ...(blank(nextOn) ? [stop("handover-without-date", "nextOn")] : []),
    ...(!isMissing(nextOn) && nextOn < today
      ? [finding("handover-date-past", "not met", "stop", { kind, nextOn }, { path: "nextOn" })]
      : []),
  ];
  return findings.length > 0 ? findings : [finding("handover-complete", "met", undefined, { kind })];
}
