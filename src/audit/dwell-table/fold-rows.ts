import { civilDateOf, instantMs, offsetMinutesOf, type Instant } from "../../core/calendar/index.ts";
import {
  evolveHistory,
  initialHistory,
  lineView,
  patientView,
  referralView,
  valueIn,
  type DwellLine,
  type EventStore,
  type History,
  type LineView,
  type PatientView,
  type ReferralView,
  type Subject,
} from "../../register/index.ts";
import { lineRowsFromRegister, type LineRow, type ReferralRow, type RegisterForCount } from "../line/index.ts";

/** What a row is made under: care, and how a pair of cultures is read. */
export type FoldRules = Pick<RegisterForCount, "rules" | "cultures">;

/** What a line is folded under: the rules, and the moment nothing later than is known. */
export interface FoldScene {
  readonly store: Pick<EventStore, "readSubject">;
  readonly rules: FoldRules;
  readonly now: Instant;
}

/** A line folded anew: its row, where it has one, and what it rests on. */
export interface FoldedLine {
  readonly row: LineRow | undefined;
  readonly patient: string;
  readonly referral: string;
  readonly restless: DwellLine["restless"];
}

/** The record's own names without their kind: the table stands beside the events and hides nothing they say. */
export const plainKey = (_kind: string, name: string): string => name.slice(name.indexOf(":") + 1);

async function historyOf(store: FoldScene["store"], subject: Subject): Promise<History> {
  return (await store.readSubject(subject)).reduce(evolveHistory, initialHistory(subject));
}

/** One line out of its own events, its patient's and its referral's: the row the whole register would give. */
export async function foldLine(subject: Subject, { store, rules, now }: FoldScene): Promise<FoldedLine> {
  const line = lineView(await historyOf(store, subject));
  const { patient, referral } = namedBy(line);
  const person = patient === "" ? undefined : patientView(await historyOf(store, `patient:${patient}`));
  const referred = referral === "" ? undefined : referralView(await historyOf(store, `referral:${referral}`));
  return foldedLine(line, person, referred, rules, now);
}

/** The patient and the referral a line names; "" for none. */
export const namedBy = (line: LineView): Pick<FoldedLine, "patient" | "referral"> => ({
  patient: line.patient ?? "",
  referral: valueIn(line.said.referral) ?? "",
});

/** The same of what was read of the three already. */
export function foldedLine(
  line: LineView,
  person: PatientView | undefined,
  referred: ReferralView | undefined,
  rules: FoldRules,
  now: Instant,
): FoldedLine {
  const { lines } = lineRowsFromRegister(
    {
      lines: [line],
      referrals: referred ? [referred] : [],
      patients: new Map(person ? [[person.subject, person]] : []),
      ...rules,
      keyOf: plainKey,
    },
    now,
  );
  return { row: lines[0], ...namedBy(line), restless: restlessOf(line, now) };
}

/** A line that is out changes with an event alone; care falls due by the day, and what lies ahead comes by the minute. */
function restlessOf({ happenings, end, placed }: LineView, now: Instant): DwellLine["restless"] {
  const moment = instantMs(now);
  if (happenings.some(({ event }) => instantMs(event.happenedAt) > moment)) return 2;
  return placed !== undefined && end === undefined ? 1 : 0;
}

/** One referral out of its own events; `isPlaced` where a line names it. */
export const foldReferral = async (
  subject: Subject,
  isPlaced: boolean,
  { store, rules, now }: FoldScene,
): Promise<ReferralRow | undefined> =>
  foldedReferral(referralView(await historyOf(store, subject)), isPlaced, rules, now);

export function foldedReferral(
  referral: ReferralView,
  isPlaced: boolean,
  rules: FoldRules,
  now: Instant,
): ReferralRow | undefined {
  const { referrals } = lineRowsFromRegister(
    { lines: [], referrals: [referral], patients: new Map(), ...rules, keyOf: plainKey },
    now,
  );
  const [row] = referrals;
  return row && isPlaced ? { ...row, outcome: "placed" } : row;
}

/** What a row can tell of the clock beside the minute: the day, on the wall that shows it. */
export const dayOf = (at: Instant): string => `${civilDateOf(at)} ${offsetMinutesOf(at)}`;
