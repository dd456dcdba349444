import { dayNumber } from "../../core/calendar/index.ts";
import { localDate } from "../../core/dwell/index.ts";
import { isKnown } from "../../core/missing/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import { fieldsOf } from "../../register/index.ts";
import { counts, type Period } from "../figure/index.ts";
import type { AuditTable, LineFacts, RowEventKind } from "../line/index.ts";
import { caseOfRow, lastDayOf } from "./case-of-row.ts";
import type { CaseStory } from "./story.ts";

/** The gravest first; the order is the service's own word and is printed with the case. */
export const GRAVEST_FIRST: readonly RowEventKind[] = [
  "infection",
  "thrombosis",
  "leak or break",
  "migration",
  "dislodgement",
  "occlusion",
  "exit site infection",
];
const ANY = { count: "events", event: "any", flag: "any" } as const;

export interface ChosenLine {
  readonly kind: "line";
  /** Stays in the service: no paper prints it. */
  readonly line: string;
  readonly story: CaseStory;
}
/** A line that was not placed, for a good reason. */
export interface ChosenReferral {
  readonly kind: "referral";
  readonly referral: string;
  /** A device of the list; a word somebody typed is "other". */
  readonly instead: string;
}

export interface TwoCases {
  readonly worst: ChosenLine | undefined;
  readonly well: ChosenLine | ChosenReferral | undefined;
}

/**
 * The two cases a meeting reads in depth, by a rule and not by anybody's wish.
 *   worst  the gravest event of the month, in the printed order; of equals the shortest stay, an end that nobody knows
 *          last, then the earlier placing, then the key
 *   well   the longest stay that ended in the month because treatment did, without any event; of equals the earlier
 *          placing, then the key; where there is none, the month's first referral declined
 * Holds: rows no stop rule took out. Source: none, a rule of our own. Example: an infection on day 5 goes before a clot.
 */
export function twoCases(
  facts: readonly LineFacts[],
  { lines, referrals }: AuditTable,
  period: Period,
  limits: CountLimits,
): TwoCases {
  const [opens, closes] = [dayNumber(period.from), dayNumber(period.to)];
  const within = (on: number | undefined): boolean => on !== undefined && on >= opens && on < closes;
  const chosen = (line: LineFacts | undefined): ChosenLine | undefined =>
    line && { kind: "line", line: line.row.key, story: caseOfRow(line, lines, limits) };
  const graves = facts.flatMap((line) => {
    const ranks = line.events
      .filter((dated) => !dated.outside && within(dated.on) && counts(dated, ANY) === true)
      .map(({ event }) => GRAVEST_FIRST.indexOf(event.kind));
    return ranks.length > 0 ? [{ line, rank: Math.min(...ranks) }] : [];
  });
  const [worst] = graves.sort(
    (a, b) =>
      a.rank - b.rank || lost(a.line) - lost(b.line) || stayOf(a.line) - stayOf(b.line) || earlier(a.line, b.line),
  );
  const [well] = facts
    .filter(({ row, endedOn, events }) => {
      const { end } = row;
      const ended = end.kind === "removed" && isKnown(end.reason) && end.reason === "treatment ended";
      return ended && within(endedOn) && events.length === 0 && row.knownFrom === undefined;
    })
    .sort((a, b) => stayOf(b) - stayOf(a) || earlier(a, b));
  return { worst: chosen(worst?.line), well: chosen(well) ?? declined(referrals, within) };
}

const lost = ({ row }: LineFacts): number => (row.end.kind === "unknown" ? 1 : 0);
const stayOf = (line: LineFacts): number => lastDayOf(line) - (line.placedOn ?? 0);

const byKey = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
const earlier = (a: LineFacts, b: LineFacts): number =>
  (a.placedOn ?? 0) - (b.placedOn ?? 0) || byKey(a.row.key, b.row.key);

function declined(referrals: AuditTable["referrals"], within: (on: number) => boolean): ChosenReferral | undefined {
  const on = ({ receivedOn }: AuditTable["referrals"][number]): number => dayNumber(localDate(receivedOn));
  const [first] = referrals
    .filter((referral) => referral.outcome === "declined" && within(on(referral)))
    .sort((a, b) => on(a) - on(b) || byKey(a.key, b.key));
  return first && { kind: "referral", referral: first.key, instead: deviceOf(first.instead) };
}

function deviceOf(instead: AuditTable["referrals"][number]["instead"]): string {
  const field = fieldsOf("referral", "ReferralDecided")?.["instead"];
  const listed = field?.kind === "choice" ? field.options : [];
  return isKnown(instead) ? (listed.includes(instead) ? instead : "other") : "not known";
}
