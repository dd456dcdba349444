import type { AboutEvent, EventType } from "../catalogue.ts";
import type { Role } from "../event/index.ts";
import type { AccountRole, Action } from "./right.ts";
import { mayDo } from "./right.ts";

/** What a role must be allowed to do before it may write an entry of a type. */
const ACTION_OF: Readonly<Record<EventType, Action>> = {
  PatientRegistered: "refer",
  PatientDetailsTaken: "refer",
  ArmBarred: "care",
  ArmBarLifted: "place",
  PatientsMerged: "merge patients",
  MergeUndone: "merge patients",
  SiteValidated: "set policy",
  PolicyRowSet: "set policy",
  OverridesReviewed: "set policy",
  ReferralReceived: "refer",
  ReferralDecided: "place",
  PlanAgreed: "place",
  ConsentTaken: "place",
  TimeOutDone: "place",
  LineInserted: "place",
  // whoever meets a line nobody knew of writes it down
  LineFound: "care",
  TipRead: "place",
  TipCorrected: "place",
  SideSettled: "place",
  LineReleased: "place",
  OwnerNamed: "care",
  CareGiven: "care",
  LineUsed: "care",
  PatencyStepTaken: "care",
  InfectionSuspected: "care",
  CulturesTaken: "care",
  InfectionConcluded: "judge an infection",
  ClotLookedFor: "care",
  LineRemoved: "remove",
  EndUnknown: "remove",
  LineHandedOn: "care",
  LotAttached: "place",
  PaperIssued: "care",
  // a stop passed in need is never held up by a role; every one is read again at the month's end
  StopOverridden: "care",
  LotReceived: "keep stock",
  LotRecalled: "keep stock",
  LotDiscarded: "keep stock",
  WatchBaseSet: "keep the count",
  SignalSeen: "look at signals",
  SignalLookedAt: "look at signals",
  ActionAgreed: "keep the count",
  ActionOutcomeWritten: "keep the count",
  PracticeChanged: "look at signals",
  WardMonthCounted: "count a ward",
};

/** What a person decides or signs for: it counts only from an account that holds the role. */
const NEEDS_ACCOUNT: ReadonlySet<string> = new Set<EventType>([
  "LineReleased",
  "StopOverridden",
  "SideSettled",
  "ArmBarLifted",
  "ReferralDecided",
  "InfectionConcluded",
  "PatientsMerged",
  "MergeUndone",
  "SiteValidated",
  "PolicyRowSet",
  "OverridesReviewed",
]);

/** Whether a type of entry is a right rather than a fact. Example: needsAccount("LineReleased") is true. */
export const needsAccount = (type: string): boolean => NEEDS_ACCOUNT.has(type);

/** The action behind a type of entry; undefined for a correction, which is judged by the entry it is about. */
export function actionOfEntry(type: string): Action | undefined {
  return Object.hasOwn(ACTION_OF, type) ? ACTION_OF[type as EventType] : undefined;
}

/** Whether the roles may write entries of a type. Example: mayWrite(["ward nurse"], "LineRemoved") is true. */
export function mayWrite(roles: readonly (AccountRole | Role)[], type: string): boolean {
  const action = actionOfEntry(type);
  return action !== undefined && mayDo(roles, action);
}

/** Every type of entry the roles may write, in the order of the catalogue. */
export const writableTypes = (roles: readonly AccountRole[]): readonly Exclude<EventType, AboutEvent>[] =>
  (Object.keys(ACTION_OF) as EventType[]).filter((type) => mayWrite(roles, type));
