import type { Figure, Measure, MonthFigure, MonthPack } from "../../audit/index.ts";
import { cutShort, monthWords, packEventRow, packShareRow } from "../../language/index.ts";
import type { CountLimits } from "../../policy/index.ts";
import type { Block, SheetRow } from "../line/index.ts";
import type { Room } from "./room.ts";

const EVENT_SHARES = [3, 1.5, 2, 3.1, 2.4];
const SHARE_SHARES = [3, 2, 2.4];
/** Told by the row of numbers or its notes. */
const IN_NUMBERS: ReadonlySet<string> = new Set([
  "placed",
  "removed",
  "in-place",
  "unknown-end",
  "line-days-exact",
  "line-days-calendar",
]);
const ALL = "any-complication";
const COMPLETE = "complete-";

const MOST_LOUD = 240;

interface Told {
  readonly figure: MonthFigure;
  readonly measure: Measure;
}

/**
 * Page 1, to be read in half a minute: what was decided last month and whether it moved anything, the month in five
 * numbers, what stands apart; under it each kind of event, how lines were placed, and what the record lacks.
 */
export function monthBlocks(
  pack: MonthPack,
  measures: readonly Measure[],
  { fewestForEstimate }: CountLimits,
  room: Room,
): readonly Block[] {
  const byId = new Map(measures.map((measure) => [measure.id, measure]));
  const all = pack.figures.flatMap((figure): readonly Told[] => {
    const measure = byId.get(figure.now.measure);
    const empty = figure.now.form === "nothing to count over" && figure.now.given === 0;
    return measure && !empty ? [{ figure, measure }] : [];
  });
  const rest = all.filter(({ measure: { id } }) => !IN_NUMBERS.has(id));
  const events = rest.filter(({ measure }) => measure.numerator.count === "events");
  const complete = rest.filter(({ measure }) => measure.id.startsWith(COMPLETE));
  const shares = rest.filter((one) => !events.includes(one) && !complete.includes(one));
  const bare = shares.filter(({ measure }) => measure.denominator === "none");
  const unknown = shares.filter(({ figure: { now } }) => now.used === 0 && now.given > 0);
  return [
    ...actionBlocks(pack, room),
    ...numbersBlock(all),
    ...say([
      ...bare.map(({ figure, measure }) => monthWords.bare(figure, measure)),
      ...(pack.declinedInstead.length > 0 ? [monthWords.instead(pack)] : []),
    ]),
    ...eventBlocks(pack, events, fewestForEstimate),
    ...shareBlocks(shares.filter((one) => !bare.includes(one) && !unknown.includes(one))),
    ...recordBlocks(pack, figuresOf(complete), figuresOf(unknown), room.faults),
  ];
}

const figuresOf = (told: readonly Told[]): readonly Figure[] => told.map(({ figure }) => figure.now);

const soft = (sentences: readonly string[]): readonly Block[] =>
  sentences.length === 0 ? [] : [{ kind: "soft", text: sentences.join(" ") }];

const say = (sentences: readonly string[]): readonly Block[] =>
  sentences.length === 0 ? [] : [{ kind: "say", text: sentences.join(" ") }];

function actionBlocks({ action: whole }: MonthPack, { signs }: Room): readonly Block[] {
  const heading: Block = { kind: "heading", text: monthWords.lastAction };
  if (!whole) return [heading, { kind: "say", text: monthWords.noAction }];
  const { outcome } = whole;
  const action = {
    ...whole,
    what: cutShort(whole.what, signs),
    owner: cutShort(whole.owner, signs),
    ...(outcome && { outcome: { ...outcome, words: cutShort(outcome.words, signs) } }),
  };
  return [
    heading,
    // a few words are read across the table; a paragraph is read like one
    { kind: action.what.length > MOST_LOUD ? "say" : "loud", text: monthWords.what(action) },
    { kind: "say", text: monthWords.who(action) },
    { kind: "say", text: monthWords.moved(action) },
  ];
}

function numbersBlock(all: readonly Told[]): readonly Block[] {
  const of = (id: string): Figure | undefined => all.find(({ measure }) => measure.id === id)?.figure.now;
  const row = (id: string, label: string, note: string | undefined): readonly SheetRow[] => {
    const figure = of(id);
    return figure
      ? [
          {
            label,
            value: figure.numerator.toLocaleString("en-GB", { maximumFractionDigits: 0 }),
            ...(note && { note }),
          },
        ]
      : [];
  };
  const [lost, calendar] = [of("unknown-end"), of("line-days-calendar")];
  const items = [
    ...row("placed", monthWords.placed, undefined),
    ...row("removed", monthWords.removed, undefined),
    ...row("in-place", monthWords.inPlace, undefined),
    ...row("unknown-end", monthWords.lost, lost && monthWords.ofPeriod(lost)),
    ...row("line-days-exact", monthWords.days, calendar && monthWords.byCalendar(calendar)),
  ];
  return items.length === 0 ? [] : [{ kind: "numbers", items }];
}

/** What stands apart in one loud sentence; each kind with its rate; those of which the table holds no word by name alone. */
function eventBlocks(pack: MonthPack, events: readonly Told[], fewest: number): readonly Block[] {
  if (events.length === 0) return [];
  const spoken = events.filter(({ figure }) => !figure.neverWritten);
  // a sum of kinds none of which was ever written says no more than they do
  const written = spoken.some(({ measure }) => measure.id !== ALL) ? spoken : [];
  const never = events.filter(({ figure }) => figure.neverWritten).map(({ measure }) => measure.id);
  return [
    { kind: "heading", text: monthWords.events },
    ...(written.length === 0
      ? []
      : [
          { kind: "loud", text: monthWords.apart(written.map(({ figure }) => figure)) } as const,
          {
            kind: "table",
            head: monthWords.eventHead,
            shares: EVENT_SHARES,
            rows: written.map(({ figure, measure }) => packEventRow(figure, measure, pack.guards)),
            tight: true,
          } as const,
        ]),
    ...soft([
      ...(written.length > 0 ? monthWords.guards(pack.guards) : []),
      ...monthWords.refused(
        written.flatMap(({ figure: { now, before } }) => [now, ...(before ? [before] : [])]),
        fewest,
      ),
    ]),
    ...(never.length > 0 ? [{ kind: "soft", text: monthWords.never(never) } as const] : []),
    ...say(pack.enough.length > 0 ? [monthWords.enough(pack.enough)] : []),
  ];
}

function shareBlocks(shares: readonly Told[]): readonly Block[] {
  if (shares.length === 0) return [];
  return [
    { kind: "heading", text: monthWords.shares },
    {
      kind: "table",
      head: monthWords.shareHead,
      shares: SHARE_SHARES,
      rows: shares.map(({ figure, measure }) => packShareRow(figure, measure)),
      tight: true,
    },
    ...soft(monthWords.fewLines(shares.flatMap(({ figure: { now, before } }) => [now, ...(before ? [before] : [])]))),
  ];
}

function recordBlocks(
  pack: MonthPack,
  complete: readonly Figure[],
  unknown: readonly Figure[],
  mostFaults: number,
): readonly Block[] {
  const lacking = monthWords.lacking(complete);
  const faults = monthWords.faults(pack.issues, mostFaults);
  if (complete.length + unknown.length + faults.length === 0) return [];
  return [
    { kind: "heading", text: monthWords.record },
    ...say([
      ...(complete.length > 0 && lacking.length === 0 ? [monthWords.nothingLacks] : lacking),
      ...(unknown.length > 0 ? [monthWords.unknown(unknown)] : []),
    ]),
    ...(faults.length > 0 ? [{ kind: "list", numbered: false, items: faults } as const] : []),
  ];
}
