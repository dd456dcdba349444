import {
  civilDateOf,
  completedYears,
  instantMs,
  midnightsBetween,
  minutesBetween,
  parseCivilDate,
  type Instant,
} from "../../core/calendar/index.ts";
import type { CultureLimits } from "../../core/complication/index.ts";
import { missing, type Maybe } from "../../core/missing/index.ts";
import {
  answerLine,
  standing,
  valueIn,
  type EntryOf,
  type Happening,
  type LineRules,
  type LineView,
  type PatientView,
  type ReferralView,
  type Subject,
} from "../../register/index.ts";
import type { AuditTable, LineRow, ReferralRow, RowEnd } from "./line-row.ts";
import { maybe } from "./maybe.ts";
import { checksOfLine } from "./row-checks.ts";
import { momentOfInstant } from "./moment-of-instant.ts";
import { rowEventsOf } from "./row-events.ts";

/** What the fold reads; `keyOf` makes the opaque key of a line, a person or a lot, the same for the same name. */
export interface RegisterForCount {
  readonly lines: readonly LineView[];
  readonly referrals: readonly ReferralView[];
  readonly patients: ReadonlyMap<Subject, PatientView>;
  readonly rules: LineRules;
  readonly cultures: CultureLimits;
  readonly keyOf: (kind: "line" | "patient" | "inserter" | "lot" | "referral", name: string) => string;
}

/**
 * The line table of a register at a moment: one row for each line that was placed or found, one for each referral.
 * Values copied from a plan and never confirmed are absent, not taken. Voided lines are left out.
 */
export function lineRowsFromRegister(register: RegisterForCount, asOf: Instant): AuditTable {
  const referrals = new Map(register.referrals.map((referral) => [referral.subject as string, referral]));
  const placedFor = new Set(register.lines.map(({ said }) => `referral:${valueIn(said.referral) ?? ""}`));
  return {
    asOf: momentOfInstant(asOf),
    lines: register.lines.flatMap((line) => {
      const referral = referrals.get(`referral:${valueIn(line.said.referral) ?? ""}`);
      return line.placed === undefined || instantMs(line.placed.event.happenedAt) > instantMs(asOf)
        ? []
        : [rowOf(line, referral, register, asOf)];
    }),
    referrals: register.referrals.flatMap((referral) => referralRow(referral, placedFor, register)),
  };
}

function rowOf(
  line: LineView,
  referral: ReferralView | undefined,
  { patients, rules, cultures, keyOf }: RegisterForCount,
  asOf: Instant,
): LineRow {
  const { said } = line;
  const { happenedAt: placedAt, writtenAt, type } = (line.placed as Happening).event;
  const patient = patients.get(`patient:${line.patient ?? ""}`);
  const happened = standing(line.happenings);
  const born = parseCivilDate(patient?.bornOn ?? "");
  const film = line.tip?.entry as EntryOf<"TipRead"> | undefined;
  const [entryCm, armCm] = [maybe(said.veinEntryCm), maybe(said.armLengthCm)];
  const inserter = maybe(said.inserter);
  const lot = maybe(said.lotNumber);
  const side = maybe(said.arm);
  const end = endOfRow(line, asOf);
  const found = type === "LineFound";
  const referred = maybe(referral?.said.eGfr);
  const rowEvents = rowEventsOf(happened, cultures);
  return {
    key: keyOf("line", line.subject),
    patient: keyOf("patient", line.patient ?? line.subject),
    placed: momentOfInstant(placedAt),
    // nobody here saw a found line go in: it was watched from the day it was written down
    knownFrom: found ? momentOfInstant(writtenAt) : undefined,
    end,
    events: rowEvents,
    side: side === "left" ? "left arm" : side === "right" ? "right arm" : side,
    vein: maybe(said.vein),
    sizeFr: maybe(said.french),
    lumens: maybe(said.lumens),
    veinDiameterMm: maybe(said.veinDiameterMm),
    writtenRatio: missing("not asked"),
    positionShare:
      typeof entryCm === "number" && typeof armCm === "number" && armCm > 0 ? entryCm / armCm : absent(entryCm, armCm),
    attempts: maybe(said.attempts),
    inserter: typeof inserter === "string" ? keyOf("inserter", inserter) : inserter,
    ward: maybe(said.ward),
    setting: maybe(said.setting),
    ageYears: born ? completedYears(born, civilDateOf(placedAt)) : missing("not known"),
    diagnosis: maybe(referral?.said.diagnosisGroup),
    indication: missing("not asked"),
    tipMethod: maybe(said.tipMethod),
    tipPlace: maybe(film?.tipPlace),
    lot: typeof lot === "string" ? keyOf("lot", lot) : lot,
    catheter: maybe(said.catheter),
    eGfr: typeof referred === "number" ? referred : maybe(patient?.details.eGfr),
    overdueCare: overdueOf(line, rules, asOf),
    overrides: happened.flatMap(({ event, entry }) =>
      event.type === "StopOverridden" ? [valueIn((entry as EntryOf<"StopOverridden">).code) ?? ""] : [],
    ),
    idleDays: idleOf(line, end),
    owned: line.owner !== undefined && line.owner.owner !== "",
    checks: checksOfLine(line, patient, rowEvents),
  };
}

const absent = (...parts: readonly Maybe<number>[]): Maybe<number> =>
  parts.find((part) => typeof part !== "number") ?? missing("not measured");

function endOfRow({ end, lastSeenAt, lastUsedAt, tip, placed }: LineView, asOf: Instant): RowEnd {
  if (end && instantMs(end.at) <= instantMs(asOf)) {
    if (end.kind === "removed") {
      const reason = maybe((end.happening.entry as EntryOf<"LineRemoved">).reason);
      return { kind: "removed", at: momentOfInstant(end.at), reason };
    }
    if (end.kind === "handed on") return { kind: "handed on", at: momentOfInstant(end.at) };
    const seen = parseCivilDate(end.lastSeenOn);
    if (seen) return { kind: "unknown", lastKnown: { precision: "date", date: seen } };
  }
  const known = [placed?.event.happenedAt, lastSeenAt, lastUsedAt, tip?.event.happenedAt].filter(
    (at): at is Instant => at !== undefined && instantMs(at) <= instantMs(asOf),
  );
  const last = known.reduce((a, b) => (instantMs(a) >= instantMs(b) ? a : b));
  return { kind: end?.kind === "unknown" ? "unknown" : "in place", lastKnown: momentOfInstant(last) };
}

function overdueOf(line: LineView, rules: LineRules, asOf: Instant): Maybe<readonly string[]> {
  const today = civilDateOf(asOf);
  const { due } = answerLine(line, { arm: undefined, number: undefined }, asOf, asOf, rules);
  return due.filter(({ on }) => midnightsBetween(on, today) > 0).map(({ what }) => what);
}

/** A line nobody wrote a use of may have been used every day: its idle days are not known, not all of its days. */
function idleOf({ lastUsedAt, end, lastSeenAt }: LineView, rowEnd: RowEnd): Maybe<number> {
  if (lastUsedAt === undefined) return missing("not known");
  if (rowEnd.kind === "unknown") return missing("not known");
  const until = end?.at ?? lastSeenAt ?? lastUsedAt;
  return Math.max(0, Math.floor(minutesBetween(lastUsedAt, until) / 1440));
}

function referralRow(
  referral: ReferralView,
  placedFor: ReadonlySet<string>,
  { keyOf }: RegisterForCount,
): readonly ReferralRow[] {
  if (!referral.receivedAt) return [];
  const outcome = placedFor.has(referral.subject)
    ? "placed"
    : referral.standing === "declined"
      ? "declined"
      : referral.standing === "waiting"
        ? "waiting"
        : "open";
  return [
    {
      key: keyOf("referral", referral.subject),
      receivedOn: momentOfInstant(referral.receivedAt),
      outcome,
      instead: maybe(referral.decision?.instead),
      ward: maybe(referral.said.fromWard),
    },
  ];
}
