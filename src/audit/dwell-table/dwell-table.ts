import { parseInstant, type Instant } from "../../core/calendar/index.ts";
import {
  evolveHistory,
  initialHistory,
  serviceSubject,
  type DwellLine,
  type DwellPiece,
  type DwellState,
  type EventStore,
  type Subject,
} from "../../register/index.ts";
import { momentOfInstant, type AuditTable } from "../line/index.ts";
import { tableOf } from "../packed/index.ts";
import { countedWardMonths } from "../ward/index.ts";
import { dayOf, type FoldRules } from "./fold-rows.ts";
import { foldLines, foldReferrals, PIECE } from "./fold-pieces.ts";
import { joinPieces } from "./join-pieces.ts";
import { SpoiltPiece } from "./piece-seal.ts";
import { joinReferrals } from "./referral-piece.ts";

/** The name of this fold. Whoever changes what a row is made of, or how a piece is written, gives it a new one. */
const FOLD = "dwell table 5";
/** The version of the policy the rows are made under: under another one they are folded anew. */
interface UnderPolicy {
  readonly policyVersion: string;
}
export const foldVersion = ({ policyVersion }: UnderPolicy): string => `${FOLD}, policy ${policyVersion}`;
const EVENTS_AT_ONCE = 2000;
const TRIES = 5;

/**
 * The line table of a record at a moment, from its dwell table, which is first brought up to the record's last event.
 *   a line is folded anew when an event of its own, of its patient or of its referral came, or when the clock changes it
 * Holds: any store; another version of the fold or of the policy, a record that went back, or a table that is not as it was
 * written starts the table anew. The same rows as `lineRowsFromRegister` over the whole record, in the order in which lines
 * came into it.
 * Errors: throws where other processes write the table at every try.
 */
export async function dwellTable(store: EventStore, rules: FoldRules & UnderPolicy, now: Instant): Promise<AuditTable> {
  for (let turn = 0; turn < TRIES; turn += 1) {
    try {
      if (!(await bringUp(store, rules, now))) continue;
      const table = await readTable(store, now);
      if (table) return table;
    } catch (error) {
      if (!(error instanceof SpoiltPiece)) throw error;
      await store.dwell.drop();
    }
  }
  throw new Error("the dwell table is written by another process at every try; ask again");
}

/** The whole table as it stands; undefined where another process wrote between its pieces. */
async function readTable(store: EventStore, now: Instant): Promise<AuditTable | undefined> {
  const { dwell } = store;
  const before = await dwell.state();
  const lines = await dwell.pieces("line");
  const referrals = await dwell.pieces("referral");
  // a few entries a month: they are read from the record itself and no piece holds them
  const service = serviceSubject(false);
  const history = (await store.readSubject(service)).reduce(evolveHistory, initialHistory(service));
  const wardMonths = countedWardMonths(history, now);
  // a table that is dropped meanwhile would be read as one without lines
  if (before === undefined || JSON.stringify(await dwell.state()) !== JSON.stringify(before)) return undefined;
  mustBeAll(lines, before.lines);
  mustBeAll(referrals, before.referrals);
  return tableOf(
    joinPieces(
      lines.map(({ data }) => data),
      momentOfInstant(now),
      joinReferrals(referrals.map(({ data }) => data)),
      wardMonths.length > 0 ? wardMonths : undefined,
    ),
  );
}

/** Every place that was given out lies in a piece: one that is not there would leave out its lines without a word. */
function mustBeAll(pieces: readonly DwellPiece[], places: number): void {
  const whole = pieces.length === Math.ceil(places / PIECE) && pieces.every(({ place }, at) => place === at);
  if (!whole) throw new SpoiltPiece("a piece of the dwell table is not there");
}

/** Folds what came since the last time; false where another process wrote meanwhile. */
async function bringUp(store: EventStore, rules: FoldRules & UnderPolicy, now: Instant): Promise<boolean> {
  const { dwell } = store;
  const version = foldVersion(rules);
  let kept = await dwell.state();
  // before the first whole fold it was brought up to no moment
  const isOdd = ({ asOf }: DwellState): boolean => asOf !== "" && parseInstant(asOf) === undefined;
  if (
    kept !== undefined &&
    (kept.version !== version || isOdd(kept) || kept.position > (await store.head()).position)
  ) {
    await dwell.drop();
    kept = undefined;
  }
  const state = kept ?? { version, position: 0, asOf: "", lines: 0, referrals: 0, people: 0 };
  const { subjects, begun, position } = await touchedSince(store, state.position);
  const sameDay = state.asOf !== "" && dayOf(now) === dayOf(state.asOf as Instant);
  const restless = state.asOf === now ? [] : await dwell.linesBy("restless", sameDay ? [2] : [1, 2]);
  if (kept !== undefined && subjects.length === 0 && restless.length === 0 && sameDay) return true;
  const scene = { store, rules, now };
  const lines = await linesTouched(store, subjects, restless);
  // a line that has events from before is known, unless somebody took it out of the index
  if (lines.fresh.some((subject) => !begun.has(subject))) throw new SpoiltPiece("a line is not in the index");
  const folded = await foldLines(lines, kept, state, scene);
  if (folded === undefined) return false;
  const own = subjects.filter((subject) => subject.startsWith("referral:"));
  const named = await dwell.referralsBy("subject", [...folded.referrals]);
  const done = await foldReferrals(
    [...new Set([...own, ...named.map(({ subject }) => subject as Subject)])],
    folded.state,
    scene,
  );
  if (done === undefined) return false;
  return dwell.write({ state: { ...done, position, asOf: now }, lines: [], referrals: [], pieces: [] }, done);
}

/** Subjects with events after a position, in the order they first had one, and those whose first of all it was. */
async function touchedSince(
  store: EventStore,
  after: number,
): Promise<{
  readonly subjects: readonly Subject[];
  readonly begun: ReadonlySet<Subject>;
  readonly position: number;
}> {
  const subjects = new Set<Subject>();
  const begun = new Set<Subject>();
  let position = after;
  for (;;) {
    const events = await store.readAfter(position, EVENTS_AT_ONCE);
    for (const { subject, version } of events) {
      if (!/^(line|patient|referral):/.test(subject)) continue;
      subjects.add(subject);
      if (version === 1) begun.add(subject);
    }
    position = events.at(-1)?.position ?? position;
    if (events.length < EVENTS_AT_ONCE) return { subjects: [...subjects], begun, position };
  }
}

/** Every line to fold anew: known ones with their places, and those that have none yet, in the order they came. */
async function linesTouched(
  { dwell }: EventStore,
  subjects: readonly Subject[],
  restless: readonly DwellLine[],
): Promise<{ readonly known: readonly DwellLine[]; readonly fresh: readonly Subject[] }> {
  const own = subjects.filter((subject) => subject.startsWith("line:"));
  const ids = (kind: string) =>
    subjects.filter((subject) => subject.startsWith(`${kind}:`)).map((subject) => subject.slice(kind.length + 1));
  const known = new Map<number, DwellLine>();
  for (const found of [
    await dwell.linesBy("subject", own),
    await dwell.linesBy("patient", ids("patient")),
    await dwell.linesBy("referral", ids("referral")),
    restless,
  ])
    for (const line of found) known.set(line.place, line);
  const there = new Set([...known.values()].map(({ subject }) => subject));
  return { known: [...known.values()], fresh: own.filter((subject) => !there.has(subject)) };
}
